import { CARTON } from '../fold/account.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { StopRecord } from '../fold/state.ts';
import type { Adjustment } from '../line/line.ts';
import type { Settled } from '../setpoints/settled.ts';
import type { Instant } from '../units/units.ts';
import { attributedPast } from './attributedPast.ts';
import type { Run } from './batches.ts';
import { placedNow } from './causeNow.ts';
import { gainedBetween, judgedBy, sumOf } from './stationCounts.ts';

/** A stretch in which nothing moved that acts on a station, and what came of it there. */
export interface SettledCounts {
  readonly settled: Settled;
  /** Cartons that reached discharge in production. */
  readonly cartons: number;
  /** [AT1] Rejects laid to the station; where none can be, those that the line file charges to it. Undefined where neither counts. */
  readonly spoiled: number | undefined;
  /** First tries of its own stops. */
  readonly stops: number;
  /** Cartons lost to those stops, as far as that is known. */
  readonly lost: number;
}

export interface CountsAsked {
  readonly index: LineIndex;
  /** What each counter had counted by a moment, and which parts were laid to whom by then. */
  readonly tallyAt: (at: Instant) => readonly number[];
  readonly attributedAt: (at: Instant) => readonly number[] | undefined;
  readonly stops: readonly StopRecord[];
  /** Stretches that nobody saw. */
  readonly gaps: readonly Run[];
}

/** [SP9] Of a stretch in which time passed that nobody saw, what was counted in it is left out. */
export function settledCounts(
  asked: CountsAsked,
  station: string,
  settled: Settled,
  seen: readonly Run[] = seenIn(settled, asked.gaps),
): SettledCounts {
  const parts = seen.map((one) => countsIn(asked, station, one));
  const known = parts.every(({ spoiled }) => spoiled !== undefined);
  const own = asked.stops.filter((stop) => {
    const { station: at, kind } = placedNow(stop);
    return (
      at === station &&
      kind === 'machine' &&
      stop.attempt === 1 &&
      stop.begin >= settled.from &&
      stop.begin < settled.to
    );
  });
  return {
    settled,
    cartons: parts.reduce((sum, { cartons }) => sum + cartons, 0),
    spoiled: known ? parts.reduce((sum, { spoiled = 0 }) => sum + spoiled, 0) : undefined,
    stops: own.length,
    lost: own.reduce((sum, { lost }) => sum + (lost ?? 0) / CARTON, 0),
  };
}

/** Adjustments that act on a station: its own first, and those of others that the line file names it for. */
export function actingOn(adjustments: readonly Adjustment[], station: string): readonly Adjustment[] {
  return [
    ...adjustments.filter((one) => one.station === station),
    ...adjustments.filter((one) => one.station !== station && one.actsOn?.includes(station)),
  ];
}

function seenIn({ from, to }: Settled, gaps: readonly Run[]): readonly Run[] {
  const inside = gaps.filter((gap) => gap.from < to && gap.to > from).sort((a, b) => a.from - b.from);
  const seen: Run[] = [];
  let begin = from;
  for (const gap of inside) {
    if (gap.from > begin) seen.push({ from: begin, to: gap.from });
    begin = Math.max(begin, gap.to) as Instant;
  }
  return begin < to ? [...seen, { from: begin, to }] : seen;
}

function countsIn(
  { index, tallyAt, attributedAt }: CountsAsked,
  station: string,
  { from, to }: Run,
): { readonly cartons: number; readonly spoiled: number | undefined } {
  const gained = gainedBetween(tallyAt(from), tallyAt(to));
  const discharged = index.tallied.flatMap((signal, place) => {
    const { role } = index.line.signals[signal]!;
    return role === 'goodCount' || role === 'rejectCount' ? [place] : [];
  });
  return {
    cartons: sumOf(gained, discharged) ?? 0,
    spoiled:
      laidTo(index, station, attributedAt(from), attributedAt(to)) ?? chargedTo(index, station, gained),
  };
}

function laidTo(
  index: LineIndex,
  station: string,
  before: readonly number[] | undefined,
  after: readonly number[] | undefined,
): number | undefined {
  if (!after) return undefined;
  const { stations } = attributedPast(index, before && { attributed: before }, { attributed: after });
  const own = stations.find((one) => one.station === station);
  return own && Math.max(0, own.cartons);
}

function chargedTo(index: LineIndex, station: string, gained: readonly number[]): number | undefined {
  const judged = judgedBy(index, station);
  return judged && judged.kind !== 'notLoaded' ? sumOf(gained, judged.counted) : undefined;
}
