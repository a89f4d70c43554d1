import type { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import type { Instant } from '../../model/units/units.ts';

/** A line as it stands, or as it stood at a position of its tape: what answers about the past are made of beside the records. */
export interface LineRead {
  readonly line: Line;
  /** Of the model and the line's definition. */
  readonly version: string;
  fold(): Pick<LineFold, 'index' | 'state'>;
  /** Position on the tape up to which the state is folded. */
  position(): number;
  /** Line time then. */
  now(): Instant;
}
