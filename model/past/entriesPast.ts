import type { Author } from '../entries/entries.ts';
import { type CorrectableBody, type Corrected, isCorrectable } from '../entries/saidEntries.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';

/** [EN1] What people said in a stretch, the newest first: as it was said first, and each correction. */
export interface EntriesPast {
  readonly list: readonly EntryRow[];
  /** How many there are in all. */
  readonly entries: number;
  /** What answers are called that reasons name by their ids. */
  readonly answers: readonly { readonly id: string; readonly name: string }[];
}

export interface EntryRow {
  readonly id: string;
  readonly at: EpochMs;
  readonly by: Author;
  readonly first: CorrectableBody;
  readonly corrections: readonly EntryCorrection[];
  /** When the stop began that it is about. */
  readonly stopAt?: EpochMs | undefined;
  /** The line still holds it, so that it can be corrected. */
  readonly correctable: boolean;
}

export interface EntryCorrection {
  readonly id: string;
  readonly at: EpochMs;
  readonly by: Author;
  /** Null where it was withdrawn. */
  readonly body: CorrectableBody | null;
  readonly why: string | null;
}

export function entriesPast(
  entries: readonly RecordBodies['entry'][],
  held: ReadonlySet<string>,
  stopAt: (stop: string) => Instant | undefined,
  most: number,
): Omit<EntriesPast, 'answers'> {
  const said = entries.flatMap((one) => {
    const row = entryRow(one, held, stopAt);
    return row ? [row] : [];
  });
  return { list: said.slice(-most).reverse(), entries: said.length };
}

/** Undefined for what cannot be corrected. */
export function entryRow(
  { at, entry, said: told }: RecordBodies['entry'],
  held: ReadonlySet<string>,
  stopAt: (stop: string) => Instant | undefined,
): EntryRow | undefined {
  const first = told?.first ?? entry;
  if (!isCorrectable(first)) return undefined;
  const stop = 'stop' in first && first.stop !== undefined ? stopAt(first.stop) : undefined;
  const { id, author, at: _made, ...body } = first;
  return {
    id,
    at: epochMs(at),
    by: author,
    first: body as CorrectableBody,
    corrections: (told?.corrections ?? []).map(({ author: by, ...rest }: Corrected) => ({ ...rest, by })),
    ...(stop === undefined ? {} : { stopAt: epochMs(stop) }),
    correctable: held.has(id),
  };
}
