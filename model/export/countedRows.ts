import type { LineIndex } from '../fold/lineIndex.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Role } from '../signals/signals.ts';
import { type Instant, MINUTE } from '../units/units.ts';
import type { Cell, Row } from './columns.ts';
import { sizeName } from './happenedRows.ts';

/** What each counter had counted by a moment; undefined where nobody knows. */
export interface Counted {
  readonly at: Instant;
  readonly tally: readonly number[];
}

type Minute = Pick<RecordBodies['minute'], 'at' | 'tally'>;

/**
 * What each counter gained in production in a minute, after the one before it; where that is not the minute before, since then.
 * Without one before, counting began in it.
 */
export function minuteRow(
  { tallied }: LineIndex,
  { at, tally }: Minute,
  before: Counted | undefined,
): readonly Cell[] {
  const began = (at - MINUTE) as Instant;
  const gained = tallied.map((_, place) => gainedIn(tally[place], before ? before.tally[place] : 0));
  return [began, at, before?.at ?? began, ...gained];
}

type Size = RecordBodies['size'];

/**
 * One size from when it began until the next did. `until`: what was counted by its end, which of one that goes on is the
 * newest that is known.
 */
export function runRow(
  index: LineIndex,
  { at, size, tally, lot }: Size,
  next: Size | undefined,
  until: Counted | undefined,
): Row<'runs'> {
  const sum = (role: Role, of?: ReadonlySet<string>) => {
    const places = index.tallied.flatMap((signal, place) => {
      const one = index.line.signals[signal]!;
      return one.role === role && (of === undefined || of.has(one.of ?? '')) ? [place] : [];
    });
    const gains = places.map((place) => gainedIn(until?.tally[place], tally?.[place]));
    return gains.length === 0 || gains.includes(null)
      ? null
      : gains.reduce<number>((a, b) => a + (b ?? 0), 0);
  };
  const rejects = new Set(index.line.rejects.filter(({ means }) => means === 'reject').map(({ id }) => id));
  return {
    size: sizeName(index, size),
    size_id: size,
    lot: lot ?? null,
    began: at,
    ended: next?.at ?? null,
    counted_until: until?.at ?? null,
    good_cartons: sum('goodCount'),
    rejected_cartons: sum('rejectCount', rejects),
    crushed_cartons: sum('crushedCount'),
    missed_picks: sum('missedPickCount'),
    not_loaded_pockets: sum('notLoadedCount'),
  };
}

/** Null where either is not known. */
function gainedIn(now: number | undefined, before: number | undefined): number | null {
  return now === undefined || before === undefined ? null : now - before;
}
