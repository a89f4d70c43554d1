import type { LineIndex } from '../fold/lineIndex.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, type Instant, type Millis, millis, type Span } from '../units/units.ts';

/** A stretch of the past that is looked at, and the records that have a part in it; each list the oldest first. */
export interface PastAsked {
  readonly index: LineIndex;
  readonly from: Instant;
  /** Not after now. */
  readonly to: Instant;
}

/** How much of a stretch was seen: what was not is left out, and counted as nothing. */
export interface SeenTime {
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** From when on there are records at all, where that is later than `from`. */
  readonly since: EpochMs | undefined;
  readonly unknown: Millis;
  readonly isolated: Millis;
}

/** A station as lists and drawings name it. */
export interface StationRef {
  readonly id: string;
  readonly number: number;
  readonly name: string;
  readonly drawing: string;
}

export function stationRef(index: LineIndex, id: string | null | undefined): StationRef | undefined {
  const station = index.line.stations.find((candidate) => candidate.id === id);
  return station && { id: station.id, number: station.number, name: station.name, drawing: station.drawing };
}

/** `begun`: from when on there are records at all. */
export function seenTime(
  { from, to }: Pick<PastAsked, 'from' | 'to'>,
  gaps: readonly RecordBodies['gap'][],
  begun: Instant,
): SeenTime {
  const began = Math.min(to, Math.max(from, begun)) as Instant;
  const sum = (kind: 'unknown' | 'isolated') =>
    gaps.reduce((total, gap) => total + (gap.kind === kind ? overlap(gap, { from: began, to }) : 0), 0);
  return {
    from: epochMs(from),
    to: epochMs(to),
    since: began > from ? epochMs(began) : undefined,
    unknown: millis((sum('unknown') + (began - from)) as Span),
    isolated: millis(sum('isolated') as Span),
  };
}

/** How much of one stretch lies in another. */
export function overlap(
  a: { readonly from: Instant; readonly to: Instant },
  b: { readonly from: Instant; readonly to: Instant },
): Span {
  return Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from)) as Span;
}
