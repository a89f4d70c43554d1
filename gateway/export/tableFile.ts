import type { Cell } from '../../model/export/columns.ts';

/** Takes bytes of a file, one piece after another. */
export type Sink = (bytes: Uint8Array) => Promise<void>;

/** A table on its way into a file. */
export interface TableFile {
  write(rows: readonly (readonly Cell[])[]): Promise<void>;
  end(): Promise<void>;
}
