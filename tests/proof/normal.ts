import { batchLimit } from '../../model/normal/batchLimit.ts';
import type { Judgement, Rule, StationEvidence } from '../../model/normal/evidence.ts';
import { judgements } from '../../model/normal/normal.ts';
import { scatterOf } from '../../model/normal/scatter.ts';
import { fastRuns } from '../../simulator/fast/fast.ts';
import { type FastFault, type Levels, SHIFT_SECONDS } from '../../simulator/fast/options.ts';
import type { Variant } from '../../simulator/lines/variant.ts';
import { type BatchedRun, batched, evidenceOf, stationIds, withoutLoading } from './fastEvidence.ts';

/** Shifts in which nothing was wrong at any station: what each rule looked at, and where it called. */
export interface OrderRow {
  readonly proof: 'normal';
  readonly kind: 'order';
  readonly variant: keyof typeof variants;
  readonly levels: keyof typeof families;
  readonly seed: number;
  /** Shifts of the line in runs that could be judged, and those times the stations that each rule could judge. */
  readonly shifts: number;
  readonly stationShifts: Readonly<Record<Rule, number>>;
  /** Each call by its station: once in a run at most. */
  readonly calls: Readonly<Record<Rule, readonly string[]>>;
  /** Single batches of all stations that have a line in the drawing, and how many lay above it. */
  readonly batches: number;
  readonly above: number;
  /** Judged as the gateway does, up to one look, each rule said the same as in one go. */
  readonly equal: boolean;
}

/** One fault, and after how many cartons of the line each rule called its station; null where it did not in three runs. */
export interface FaultRow {
  readonly proof: 'normal';
  readonly kind: 'fault';
  readonly fault: keyof typeof faults;
  readonly seed: number;
  readonly found: Readonly<Record<Rule, number | null>>;
  /** As above: what each rule said at a look in the middle does not depend on what came after it. */
  readonly equal: boolean;
}

export type NormalRow = OrderRow | FaultRow;

/** Families of levels in order; no rule assumes any of them. The first is the full simulator's: adjustments set by eye, and lots. */
export const families = {
  byAdjustments: { kind: 'machine', loose: false },
  logNormal: { kind: 'logNormal', betweenRuns: 0.35, wander: 0, held: 0 },
  wandering: { kind: 'logNormal', betweenRuns: 0.3, wander: 0.15, held: 0.9 },
  alike: { kind: 'logNormal', betweenRuns: 0.1, wander: 0, held: 0 },
  apart: { kind: 'logNormal', betweenRuns: 0.6, wander: 0, held: 0 },
} as const satisfies Record<string, Levels>;

/** Lines in order: two people load, four, or a loader; the faster ones are looked at half as often again in a shift. */
export const variants = {
  two: { loading: 'two' },
  four: { loading: 'four' },
  automatic: { loading: 'automatic' },
} as const satisfies Record<string, Partial<Variant>>;

export const faults = {
  guideWorksLoose: (from) => ({ kind: 'loose', station: 'bottom-major', from, doubledAfter: 4 }),
  twiceAsMany: (from) => ({ kind: 'step', station: 'pick', from, times: 2 }),
  threeTimesAsMany: (from) => ({ kind: 'step', station: 'pick', from, times: 3 }),
  badLot: (from) => ({ kind: 'lot', station: 'bottom-major', from, times: 4, cartons: 7000 }),
  reJamming: (from) => ({ kind: 'rejam', station: 'bottom-major', from, times: 8, rests: 0.6 }),
} as const satisfies Record<string, (from: number) => FastFault>;

export const ORDER_SEEDS = 6;
const ORDER_SHIFTS = 60;
export const FAULT_SEEDS = 20;
/** A fault begins after so many shifts in order, and somewhere in the eight hours after. */
const FAULT_AFTER = 45;
const RUNS_WITH_FAULT = 3;

export function* normal(): Generator<NormalRow> {
  for (let seed = 1; seed <= ORDER_SEEDS; seed += 1)
    for (const variant of Object.keys(variants) as (keyof typeof variants)[])
      for (const levels of Object.keys(families) as (keyof typeof families)[])
        yield orderRow(variant, levels, seed);
  for (const fault of Object.keys(faults) as (keyof typeof faults)[])
    for (let seed = 1; seed <= FAULT_SEEDS; seed += 1) yield faultRow(fault, seed);
}

const byRule = <Value>(value: () => Value): Record<Rule, Value> => ({
  run: value(),
  drift: value(),
  stops: value(),
});

export function orderRow(
  variant: keyof typeof variants,
  levels: keyof typeof families,
  seed: number,
): OrderRow {
  const stationShifts = byRule(() => 0);
  const calls = byRule((): string[] => []);
  const drawn = { batches: 0, above: 0 };
  let [shifts, equal] = [0, true];
  const options = { seed: 7000 + seed, levels: families[levels], variant: variants[variant] };
  for (const { run, before } of judgedRuns(options)) {
    if (run.to > ORDER_SHIFTS * SHIFT_SECONDS) break;
    const lasted = (run.to - run.from) / SHIFT_SECONDS;
    let judged = false;
    for (const station of stationIds) {
      const evidence = evidenceOf(run, before, station);
      const all = judgements(evidence);
      for (const { answer, outside } of all) {
        if (answer.tooThin?.kind === 'past') continue;
        judged = true;
        stationShifts[answer.rule] += lasted;
        if (outside.some(Boolean)) calls[answer.rule].push(station);
      }
      drawBatches(evidence, drawn);
      if (station === 'top-major') equal &&= sameAtALook(evidence, all);
    }
    if (judged) shifts += lasted;
  }
  return {
    proof: 'normal',
    kind: 'order',
    variant,
    levels,
    seed,
    shifts: rounded(shifts),
    stationShifts: {
      run: rounded(stationShifts.run),
      drift: rounded(stationShifts.drift),
      stops: rounded(stationShifts.stops),
    },
    calls,
    ...drawn,
    equal,
  };
}

const rounded = (n: number) => Math.round(100 * n) / 100;

/** Single batches against their line. */
function drawBatches({ earlier, looks }: StationEvidence, drawn: { batches: number; above: number }): void {
  const past = earlier.flatMap(({ rejects }) => (rejects ? [rejects] : []));
  const limit = batchLimit(past, scatterOf(earlier));
  for (const { rejects } of looks) {
    if (!limit || !rejects) continue;
    drawn.batches += 1;
    if (rejects.count > limit.most(rejects.of)) drawn.above += 1;
  }
}

/** Runs of the fast simulator, each with those of its size before it. */
function* judgedRuns(options: Parameters<typeof fastRuns>[0]) {
  const loadedByHand = options.variant?.loading !== 'automatic';
  const known = new Map<string, BatchedRun[]>();
  for (const told of fastRuns(options)) {
    const run = loadedByHand ? withoutLoading(batched(told)) : batched(told);
    const before = known.get(run.size) ?? [];
    yield { run, before };
    known.set(run.size, [...before, run]);
  }
}

/** What is said at a look does not depend on what comes after it. */
function sameAtALook(evidence: StationEvidence, whole: readonly Judgement[]): boolean {
  const at = Math.floor(evidence.looks.length / 2);
  if (at === 0) return true;
  const then = judgements({ ...evidence, looks: evidence.looks.slice(0, at) });
  return then.every(({ answer, outside }, place) => {
    const same = whole[place]!.outside.slice(0, at);
    return answer.outside === same.at(-1) && outside.every((one, look) => one === same[look]);
  });
}

export function faultRow(name: keyof typeof faults, seed: number): FaultRow {
  const from = (FAULT_AFTER + ((seed * 0.618) % 1)) * SHIFT_SECONDS;
  const fault: FastFault = faults[name](from);
  const found = byRule((): number | null => null);
  let [runs, cartons, equal] = [0, 0, true];
  for (const { run, before } of judgedRuns({ seed: 9000 + seed, levels: families.logNormal, fault })) {
    if (run.to <= from) continue;
    const evidence = evidenceOf(run, before, fault.station);
    const come = cartonsSince(run, from, cartons);
    const all = judgements(evidence);
    equal &&= sameAtALook(evidence, all);
    for (const { answer, outside } of all) {
      const first = outside.findIndex((one, look) => one && run.batches[look]!.to > from);
      if (first >= 0) found[answer.rule] ??= come[first]!;
    }
    cartons = come.at(-1) ?? cartons;
    runs += 1;
    if (runs === RUNS_WITH_FAULT) break;
  }
  return { proof: 'normal', kind: 'fault', fault: name, seed, found, equal };
}

/** Cartons from the fault's beginning to the end of each batch. */
function cartonsSince({ batches }: BatchedRun, from: number, before: number): readonly number[] {
  let sum = before;
  return batches.map((batch) => {
    if (batch.to > from) sum += batch.stops.get('pick')!.of;
    return sum;
  });
}
