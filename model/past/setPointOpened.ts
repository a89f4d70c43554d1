import type { FoldState } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Settled } from '../setpoints/settled.ts';
import { epochMs } from '../units/units.ts';
import { approvalOf } from './setPointRows.ts';
import type { SetPointOpened, SetPointRow, SetPointRun } from './setPointsPast.ts';
import type { SettledCounts } from './settledCounts.ts';

export interface OpenedAsked {
  readonly row: SetPointRow;
  readonly state: Readonly<FoldState>;
  /** The oldest first. */
  readonly approvals: readonly RecordBodies['entry'][];
  /** Stretches in which it stood at one number, and what came of it at its station, the oldest first. */
  readonly counts: readonly SettledCounts[];
  /** Its place among the adjustments of those stretches. */
  readonly place: number;
}

/** [BK2] One adjustment of a size, with all that the book stands on. */
export function setPointOpened({ row, state, approvals, counts, place }: OpenedAsked): SetPointOpened {
  return {
    row,
    approvals: approvals.flatMap((record) => approvalOf(record) ?? []).reverse(),
    datums: state.datums
      .filter(({ adjustment }) => adjustment === row.number)
      .map(({ datum, at, why, words, author, offset }) => ({
        datum,
        at: epochMs(at),
        why,
        words: words ?? undefined,
        author,
        offset: offset ?? undefined,
      }))
      .reverse(),
    // what stood while nothing was made says nothing
    runs: joined(counts, place)
      .filter(({ cartons }) => cartons > 0)
      .reverse(),
  };
}

/** Stretches of a run in which this one did not move are one row, whatever else moved. */
function joined(counts: readonly SettledCounts[], place: number): SetPointRun[] {
  const groups: SettledCounts[][] = [];
  for (const one of counts) {
    const last = groups.at(-1);
    const before = last?.at(-1);
    if (before && before.settled.run === one.settled.run && isSame(before.settled, one.settled, place))
      last!.push(one);
    else groups.push([one]);
  }
  return groups.map((group) => rowOf(group, place));
}

function isSame(a: Settled, b: Settled, place: number): boolean {
  return a.sets[place]?.value === b.sets[place]?.value && a.sets[place]?.datum === b.sets[place]?.datum;
}

function rowOf(group: readonly SettledCounts[], place: number): SetPointRun {
  const [first, last] = [group[0]!.settled, group.at(-1)!.settled];
  const set = first.sets[place];
  const cartons = group.reduce((sum, one) => sum + one.cartons, 0);
  const known = group.every(({ spoiled }) => spoiled !== undefined);
  const spoiled = group.reduce((sum, one) => sum + (one.spoiled ?? 0), 0);
  return {
    from: epochMs(first.from),
    to: epochMs(last.to),
    value: set?.value,
    known: set?.known,
    found: set?.found,
    datum: set?.datum ?? 1,
    lot: first.run.lot ?? undefined,
    parts: first.run.parts ?? undefined,
    cartons,
    rejectsPerThousand: known && cartons > 0 ? (1000 * spoiled) / cartons : undefined,
    stops: group.reduce((sum, one) => sum + one.stops, 0),
  };
}
