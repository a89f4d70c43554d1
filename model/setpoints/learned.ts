import type { LineIndex } from '../fold/lineIndex.ts';
import type { DatumRecord } from '../fold/settingRecords.ts';
import type { Adjustment } from '../line/line.ts';
import type { Learned } from '../past/setPointsPast.ts';
import { actingOn, type SettledCounts } from '../past/settledCounts.ts';
import type { Instant } from '../units/units.ts';
import {
  type AdjustmentEstimate,
  type EstimateAsked,
  estimate,
  type KnownSetting,
  type OtherSize,
  type SettledStretch,
} from './estimate.ts';
import type { SetAt } from './history.ts';
import type { SetRun } from './settled.ts';
import { rejectSpread } from './spread.ts';
import { datumNow, onScale } from './standing.ts';

/** Stretches of fewer cartons than this tell nothing of where an adjustment stood in them. */
const STRETCH_LEAST = 100;

export interface LearnedAsked {
  readonly index: Pick<LineIndex, 'line'>;
  readonly datums: readonly DatumRecord[];
  readonly size: string;
  /** What came of each stretch at a station, of runs of a size. */
  readonly countsAt: (size: string, station: string) => readonly SettledCounts[];
  /** Runs that are not over by then are left out: what they teach is told once, when they are. */
  readonly now: Instant;
  /** The same question is answered once. */
  readonly remember: (
    asked: EstimateAsked,
    make: () => readonly AdjustmentEstimate[],
  ) => readonly AdjustmentEstimate[];
}

/** [BK2] What the whole runs of a size taught of each adjustment of a station, by number; none of what no run tells anything. */
export function learnedAt(asked: LearnedAsked, station: string): readonly (readonly [string, Learned])[] {
  const acting = actingOn(asked.index.line.adjustments, station);
  const counts = wholeCounts(asked, asked.size, station);
  if (acting.length === 0 || counts.length === 0) return [];
  const others = othersOf(asked, station, acting);
  const found = estimateAt(asked, { size: asked.size, station, acting, counts, others });
  return acting.flatMap((adjustment, place) => {
    const known = counts.some(({ settled }) => settled.sets[place] !== undefined);
    const own = found.find(({ number }) => number === adjustment.number);
    if (adjustment.station !== station || !known || !own) return [];
    return [[adjustment.number, learned(adjustment, place, counts, own)] as const];
  });
}

function wholeCounts({ countsAt, now }: LearnedAsked, size: string, station: string) {
  return countsAt(size, station).filter(
    ({ cartons, settled }) => cartons >= STRETCH_LEAST && settled.run.to < now,
  );
}

/** What runs of the other sizes say of how far the best numbers lie beside their books. */
function othersOf(
  asked: LearnedAsked,
  station: string,
  acting: readonly Adjustment[],
): Readonly<Record<string, readonly OtherSize[]>> {
  const others: Record<string, OtherSize[]> = {};
  for (const { id: size } of asked.index.line.sizes) {
    if (size === asked.size) continue;
    const counts = wholeCounts(asked, size, station);
    if (counts.length === 0) continue;
    for (const { number, besideBook } of estimateAt(asked, { size, station, acting, counts, others: {} }))
      if (besideBook) others[number] = [...(others[number] ?? []), besideBook];
  }
  return others;
}

function estimateAt(
  { datums, remember }: LearnedAsked,
  at: {
    readonly size: string;
    readonly station: string;
    readonly acting: readonly Adjustment[];
    readonly counts: readonly SettledCounts[];
    readonly others: Readonly<Record<string, readonly OtherSize[]>>;
  },
): readonly AdjustmentEstimate[] {
  const { size, station, acting, counts, others } = at;
  const stops = counts.reduce((sum, one) => sum + one.stops, 0);
  const lost = counts.reduce((sum, one) => sum + one.lost, 0);
  const asked: EstimateAsked = {
    adjustments: acting.map(({ number, min, max, decimals, book, station: own }) => ({
      number,
      min,
      max,
      step: 10 ** -decimals,
      book: book.get(size),
      own: own === station,
    })),
    stretches: counts.map((one) => stretchOf(one, acting, datums)),
    cartonsPerRun: middleRun(counts),
    lostPerReject: 1,
    lostPerStop: stops > 0 ? lost / stops : 0,
    otherSizes: others,
  };
  return remember(asked, () => estimate(asked));
}

function stretchOf(
  { settled, cartons, spoiled, stops }: SettledCounts,
  acting: readonly Adjustment[],
  datums: readonly DatumRecord[],
): SettledStretch {
  const { run, sets } = settled;
  return {
    run: String(run.from),
    lot: run.lot,
    parts: run.parts,
    settings: acting.map((adjustment, place) => settingOf(adjustment, sets[place], datums)),
    cartons,
    spoiled: spoiled ?? 0,
    stops,
  };
}

/** [SP3] A number of an earlier datum says nothing, unless it is known how far the two lie apart. */
function settingOf(
  { number, decimals }: Adjustment,
  set: SetAt | undefined,
  datums: readonly DatumRecord[],
): KnownSetting | undefined {
  if (set?.value === undefined) return undefined;
  const since = datums.filter(
    ({ adjustment, datum }) =>
      adjustment === number && datum > set.datum && datum <= datumNow(datums, number),
  );
  if (since.some(({ offset }) => offset === null)) return undefined;
  const offset = since.reduce((sum, one) => sum + (one.offset ?? 0), 0);
  return { value: onScale(set.value + offset, decimals), known: set.known };
}

function middleRun(counts: readonly SettledCounts[]): number {
  const runs = new Map<SetRun, number>();
  for (const { settled, cartons } of counts) runs.set(settled.run, (runs.get(settled.run) ?? 0) + cartons);
  const all = [...runs.values()].sort((a, b) => a - b);
  return all[Math.floor(all.length / 2)] ?? 0;
}

function learned(
  adjustment: Adjustment,
  place: number,
  counts: readonly SettledCounts[],
  found: AdjustmentEstimate,
): Learned {
  const stood = stoodIn(counts, place, adjustment.decimals);
  const settings = [...new Set(stood.map(({ at }) => at))].sort((a, b) => a - b);
  const { recommended, range90, ranWell, sure, lots, cost, togetherWith, teaches } = found;
  return {
    recommended,
    likely: range90,
    ranWell,
    sure,
    runs: stood.length,
    settings: settings.length,
    lots,
    marks: settings.map((at) => ({ at, runs: stood.filter((one) => one.at === at).length })),
    rejects: rejectSpread(counts),
    cost,
    together: togetherWith,
    teaches,
  };
}

/** Where it stood in each run: at the number at which most of the run's cartons were made. */
function stoodIn(
  counts: readonly SettledCounts[],
  place: number,
  decimals: number,
): readonly { readonly run: SetRun; readonly at: number }[] {
  const runs = new Map<SetRun, Map<number, number>>();
  for (const { settled, cartons } of counts) {
    const value = settled.sets[place]?.value;
    if (value === undefined) continue;
    const made = runs.get(settled.run) ?? new Map<number, number>();
    const at = onScale(value, decimals);
    made.set(at, (made.get(at) ?? 0) + cartons);
    runs.set(settled.run, made);
  }
  return [...runs].map(([run, made]) => ({ run, at: [...made].sort((a, b) => b[1] - a[1])[0]![0] }));
}
