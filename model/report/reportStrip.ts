import { type ClassGap, classStretches } from '../view/classes.ts';
import type { StopRecord } from '../fold/state.ts';
import { type EpochMs, epochMs, type Instant, MINUTE, minutes } from '../units/units.ts';
import type { Stretch } from '../past/stretches.ts';
import type { StationRef } from '../past/past.ts';
import type { TimeClass } from '../view/classes.ts';

/** Good cartons over the period, and what was cut out of it. */
export interface ReportStrip {
  /** One each `bucketMs`; null where it was not seen. A minute, or of long periods a shift's part. */
  readonly bucketMs: number;
  readonly rates: readonly (number | null)[];
  readonly target: number | undefined;
  readonly cuts: readonly StripCut[];
}

export interface StripCut {
  readonly kind: TimeClass;
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** Of a stop: where its first fault was. */
  readonly station: number | undefined;
}

/** Paper has so many points a strip at most, and so many cuts, the longest. */
const PAPER = { points: 240, cuts: 60 };

export interface StripAsked extends Stretch {
  /** What it is of: nothing is drawn beside that. */
  readonly stretches: readonly Stretch[];
  /** What each counter had counted by a moment. */
  readonly tallyAt: (at: Instant) => readonly number[];
  /** Place of good cartons among the tallied signals. */
  readonly good: readonly number[];
  readonly stops: readonly StopRecord[];
  readonly gaps: readonly ClassGap[];
  readonly begun: Instant;
  readonly target: number | undefined;
  readonly stationOf: (id: string | null) => StationRef | undefined;
  /** So many points and cuts at most; a sheet of paper's unless it is said. */
  readonly most?: { readonly points: number; readonly cuts: number };
}

export function reportStrip(asked: StripAsked): ReportStrip {
  const { from, to, stops, gaps, begun, target, stationOf, most = PAPER } = asked;
  const bucket = minutes(Math.max(1, Math.ceil((to - from) / MINUTE / most.points)));
  const unseen: ClassGap[] = begun > from ? [{ from, to: begun, kind: 'unknown' }, ...gaps] : [...gaps];
  const cuts = asked.stretches
    .flatMap((stretch) => classStretches(stretch, stops, unseen))
    .filter((stretch) => stretch.class !== 'producing')
    .sort((a, b) => b.to - b.from - (a.to - a.from))
    .slice(0, most.cuts)
    .sort((a, b) => a.from - b.from);
  return {
    bucketMs: bucket / 10_000,
    rates: ratesOf(asked, bucket, unseen),
    target,
    cuts: cuts.map((cut) => ({
      kind: cut.class,
      from: epochMs(cut.from),
      to: epochMs(cut.to),
      station: stationOf(stopAt(stops, cut.from)?.station ?? null)?.number,
    })),
  };
}

function stopAt(stops: readonly StopRecord[], at: Instant): StopRecord | undefined {
  return stops.find(({ begin, end }) => begin <= at && (end === null || end > at));
}

/** Good cartons a minute; a bucket that a gap has a part in is not drawn: what came in it is not known. */
function ratesOf(
  { from, to, stretches, tallyAt, good }: StripAsked,
  bucket: number,
  unseen: readonly ClassGap[],
): readonly (number | null)[] {
  const countedBy = (at: number) =>
    good.reduce((sum, place) => sum + (tallyAt(at as Instant)[place] ?? 0), 0);
  const rates: (number | null)[] = [];
  for (let at = from as number; at < to; at += bucket) {
    const end = Math.min(at + bucket, to);
    const dark = unseen.some((gap) => gap.kind === 'unknown' && gap.from < end && gap.to > at);
    const beside = !stretches.some((stretch) => stretch.from <= at && stretch.to >= end);
    rates.push(
      dark || beside ? null : Math.round((10 * (countedBy(end) - countedBy(at)) * MINUTE) / (end - at)) / 10,
    );
  }
  return rates;
}
