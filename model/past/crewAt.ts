import type { LineIndex } from '../fold/lineIndex.ts';
import { type TargetSaid, tenthsFor } from '../fold/target.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Instant } from '../units/units.ts';

/** From here on so many people loaded. */
export interface CrewChange {
  readonly at: Instant;
  readonly people: number;
}

/** [EN4] From here on a size is to be made at so many a minute by so many people. */
export interface TargetChange {
  readonly at: Instant;
  readonly target: TargetSaid;
}

/** What a size should have been made at, and for how many people at loading. */
export interface TargetThen {
  /** Cartons per minute; 0 where the size is not known. */
  readonly perMinute: number;
  readonly crew: number;
  /** False where nobody said how many there were: then it is the usual crew of the line. */
  readonly said: boolean;
}

/**
 * When people said how many load, the oldest first: in an entry of its own, or with an order, from the order's beginning
 * on. A line whose PLC has a tag for it has none: the tag's values are not among the records.
 */
export function crewChanges(
  index: LineIndex,
  entries: readonly RecordBodies['entry'][],
  orders: readonly RecordBodies['order'][],
): readonly CrewChange[] {
  if (index.line.signals.some(({ role }) => role === 'crew')) return [];
  const own = entries.flatMap(({ at, entry }) =>
    entry.kind === 'crew' ? [{ at, people: entry.people }] : [],
  );
  const ofOrders = orders.flatMap(({ at, crew }) => (crew === null ? [] : [{ at, people: crew }]));
  return [...own, ...ofOrders].sort((a, b) => a.at - b.at);
}

/** [EN4] What people entered as targets, the oldest first. */
export function targetChanges(entries: readonly RecordBodies['entry'][]): readonly TargetChange[] {
  return entries.flatMap(({ at, entry }) => {
    if (entry.kind !== 'target') return [];
    const { size, crew, perMinute } = entry;
    return [{ at, target: { size, crew, tenths: perMinute === null ? null : Math.round(perMinute * 10) } }];
  });
}

/** [PL3] The target of a size for the crew that loaded at a moment. */
export function targetThen(
  index: LineIndex,
  changes: readonly (CrewChange | TargetChange)[],
  size: string | null,
  at: Instant,
): TargetThen {
  const before = changes.filter((change) => change.at <= at);
  const said = before.findLast((change) => 'people' in change);
  const crew = said?.people ?? index.line.loading.crew;
  const known = index.sizeById.get(size ?? '');
  // the newest for a size and a crew is the last of them
  const entered = before.flatMap((change) => ('target' in change ? [change.target] : []));
  const newest = entered.filter(
    (one, place) =>
      entered.findLastIndex((other) => other.size === one.size && other.crew === one.crew) === place,
  );
  return { perMinute: known ? tenthsFor(known, crew, newest) / 10 : 0, crew, said: said !== undefined };
}
