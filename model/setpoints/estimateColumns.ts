import type { Density } from '../statistics/metropolis.ts';
import type { ActingAdjustment } from './estimate.ts';
import type { Evidence } from './estimateEvidence.ts';
import { tableAt } from './estimatePrior.ts';
import { emptySums, logRun, type RunSums, sumRun } from './estimateRuns.ts';
import { WEIGHTS } from './estimateWeights.ts';

const SPEED_SPREAD = 1;
const LEVEL_SPREAD = 2;
const LOG_SPREADS = 0.5;

/** Places of the numbers: first what is of no adjustment, then where each is best, what being off adds, how that tilts. */
const LEVEL = 0;
const RUN_SPREAD = 1;
const GROUP_SPREAD = 2;
const TREND = 3;
const SPEED = 4;
const COMMON = 5;
const FIRST_STEPS = [0.1, 0.3, 0.3, 0.15, 0.5] as const;

/** One draw: a level, and for each adjustment where it is best, what being off adds, and how much more to one side. */
export interface Drawn {
  readonly logLevel: number;
  readonly best: Float64Array;
  readonly logSize: Float64Array;
  readonly tilt: Float64Array;
}

export function drawnOf(numbers: Float64Array, many: number): Drawn {
  return {
    logLevel: numbers[LEVEL]!,
    best: numbers.slice(COMMON, COMMON + many),
    logSize: numbers.slice(COMMON + many, COMMON + 2 * many),
    tilt: numbers.slice(COMMON + 2 * many, COMMON + 3 * many),
  };
}

/** By stretch: one and all that being off adds, or what one adjustment adds; and slopes, squared, by their blur. */
interface Column {
  readonly times: Float64Array;
  readonly slopes: Float64Array;
}

/**
 * The density of all numbers, given what was seen. The only place here where anything is overwritten: the numbers as they stand, what
 * follows from them, and what one tried change would make of it. After the adjustments' numbers come the groups' levels, then how
 * each lot moves each adjustment's best number.
 */
export class Columns implements Density {
  readonly numbers: Float64Array;
  readonly scales: readonly number[];
  private readonly evidence: Evidence;
  private readonly many: number;
  private readonly groupsFrom: number;
  private readonly shiftsFrom: number;
  private readonly own: readonly Column[];
  private readonly triedOwn: Column;
  private readonly stands: Column & { readonly sums: RunSums };
  private readonly would: Column & { readonly sums: RunSums };
  private readonly logRuns: Float64Array;
  private readonly triedLogRuns: Float64Array;
  private readonly allRuns: readonly number[];
  private readonly groupRuns: readonly (readonly number[])[];
  private readonly lotOf: Int32Array;
  private levelGuess = 0;
  private place = 0;
  private value = 0;
  private level = 0;

  constructor(evidence: Evidence) {
    this.evidence = evidence;
    const { scales, groups, stretches, runs, runGroups, lots } = evidence;
    this.many = scales.length;
    this.groupsFrom = COMMON + 3 * this.many;
    this.shiftsFrom = this.groupsFrom + groups;
    this.numbers = new Float64Array(this.shiftsFrom + lots * this.many);
    this.scales = Array.from(this.numbers, (_, place) => this.firstStep(place));
    const column = (): Column => ({
      times: new Float64Array(stretches),
      slopes: new Float64Array(stretches),
    });
    this.own = scales.map(column);
    this.triedOwn = column();
    this.stands = { ...column(), sums: emptySums(runs) };
    this.would = { ...column(), sums: emptySums(runs) };
    this.logRuns = new Float64Array(runs);
    this.triedLogRuns = new Float64Array(runs);
    this.allRuns = Array.from({ length: runs }, (_, run) => run);
    this.groupRuns = Array.from({ length: groups }, (_, group) =>
      this.allRuns.filter((run) => runGroups[run]!.includes(group)),
    );
    this.lotOf = Int32Array.from(runGroups, (own) => own.find((group) => group < lots) ?? -1);
    this.begin();
  }

  private firstStep(place: number): number {
    if (place < COMMON) return FIRST_STEPS[place]!;
    return place < this.groupsFrom ? 0.5 : place < this.shiftsFrom ? 0.15 : 0.3;
  }

  private begin(): void {
    const { evidence, stands, numbers, many } = this;
    numbers[RUN_SPREAD] = Math.log(WEIGHTS.runSpread);
    numbers[GROUP_SPREAD] = Math.log(WEIGHTS.groupSpread);
    stands.times.fill(1);
    evidence.scales.forEach(({ prior, facts }, place) => {
      numbers[COMMON + place] = prior.mean;
      numbers[COMMON + many + place] = usualLogSize(facts);
      const own = this.own[place]!;
      for (const run of this.allRuns) this.reckon(place, run, own);
      for (let at = 0; at < stands.times.length; at += 1) {
        stands.times[at]! += own.times[at]!;
        stands.slopes[at]! += own.slopes[at]!;
      }
    });
    for (const run of this.allRuns) sumRun(evidence, run, stands, stands.sums);
    const counted = (sumOf(evidence.runCounts) + 0.5) / Math.max(1, sumOf(stands.sums.expected));
    this.levelGuess = Math.log(counted);
    numbers[LEVEL] = this.levelGuess;
    for (const run of this.allRuns) this.logRuns[run] = this.logOf(stands.sums, run);
  }

  tried(place: number, value: number): number {
    const { numbers, stands, would } = this;
    const before = numbers[place]!;
    const levelBefore = numbers[LEVEL]!;
    let change = -this.prior(place);
    this.place = place;
    this.value = value;
    numbers[place] = value;
    change += this.prior(place);
    const runs = this.runsOf(place);
    const which = this.adjustmentOf(place);
    if (which >= 0) for (let at = 0; at < runs.length; at += 1) this.work(which, runs[at]!);
    if (place >= COMMON && place < this.groupsFrom) {
      // the level of what ran stays where it was: else it would hold every adjustment fast
      change -= this.prior(LEVEL);
      numbers[LEVEL]! += Math.log(sumOf(stands.sums.expected) / sumOf(would.sums.expected));
      change += this.prior(LEVEL);
    }
    const sums = which >= 0 ? would.sums : stands.sums;
    for (let at = 0; at < runs.length; at += 1) {
      const run = runs[at]!;
      const log = this.logOf(sums, run);
      this.triedLogRuns[run] = log;
      change += log - this.logRuns[run]!;
    }
    this.level = numbers[LEVEL]!;
    numbers[place] = before;
    if (place !== LEVEL) numbers[LEVEL] = levelBefore;
    return change;
  }

  take(): void {
    const { stands, would, place } = this;
    const runs = this.runsOf(place);
    const which = this.adjustmentOf(place);
    this.numbers[place] = this.value;
    this.numbers[LEVEL] = this.level;
    for (const run of runs) {
      this.logRuns[run] = this.triedLogRuns[run]!;
      if (which < 0) continue;
      const own = this.own[which]!;
      stands.sums.expected[run] = would.sums.expected[run]!;
      stands.sums.logs[run] = would.sums.logs[run]!;
      stands.sums.varies[run] = would.sums.varies[run]!;
      for (let at = this.evidence.runBegins[run]!; at < this.evidence.runBegins[run + 1]!; at += 1) {
        own.times[at] = this.triedOwn.times[at]!;
        own.slopes[at] = this.triedOwn.slopes[at]!;
        stands.times[at] = would.times[at]!;
        stands.slopes[at] = would.slopes[at]!;
      }
    }
  }

  /** Runs whose chance hangs on a number. */
  private runsOf(place: number): readonly number[] {
    if (place >= this.shiftsFrom) return this.groupRuns[Math.floor((place - this.shiftsFrom) / this.many)]!;
    if (place >= this.groupsFrom) return this.groupRuns[place - this.groupsFrom]!;
    return place === SPEED && !this.evidence.runSpeeds ? [] : this.allRuns;
  }

  /** The adjustment whose number it is; −1 of none. */
  private adjustmentOf(place: number): number {
    if (place >= this.shiftsFrom) return (place - this.shiftsFrom) % this.many;
    return place >= COMMON && place < this.groupsFrom ? (place - COMMON) % this.many : -1;
  }

  private work(which: number, run: number): void {
    const { stands, would, triedOwn, evidence } = this;
    const own = this.own[which]!;
    this.reckon(which, run, triedOwn);
    const end = evidence.runBegins[run + 1]!;
    for (let at = evidence.runBegins[run]!; at < end; at += 1) {
      would.times[at] = stands.times[at]! - own.times[at]! + triedOwn.times[at]!;
      would.slopes[at] = stands.slopes[at]! - own.slopes[at]! + triedOwn.slopes[at]!;
    }
    sumRun(evidence, run, would, would.sums);
  }

  /** What one adjustment adds in each stretch of a run, and the square of how steeply, by its blur. */
  private reckon(which: number, run: number, { times, slopes }: Column): void {
    const { numbers, many, evidence, lotOf } = this;
    const lot = lotOf[run]!;
    const shift = lot < 0 ? 0 : numbers[this.shiftsFrom + lot * many + which]!;
    const best = numbers[COMMON + which]! + shift;
    const size = Math.exp(numbers[COMMON + many + which]!);
    const tilt = Math.exp(numbers[COMMON + 2 * many + which]!);
    const bends = WEIGHTS.straightFrom ** 2;
    const column = evidence.at[which]!;
    const blur = evidence.blur[which]!;
    const end = evidence.runBegins[run + 1]!;
    for (let at = evidence.runBegins[run]!; at < end; at += 1) {
      const off = column[at]! - best;
      const bend = Math.sqrt(1 + (off * off + blur[at]!) / bends);
      const side = off > 0 ? size * tilt : size / tilt;
      times[at] = side * 2 * bends * (bend - 1);
      const steep = (side * 2 * off) / bend;
      slopes[at] = steep * steep * blur[at]!;
    }
  }

  private logOf(sums: RunSums, run: number): number {
    const { evidence, numbers } = this;
    const { runGroups, runTimes, runSpeeds } = evidence;
    let level = numbers[LEVEL]! + numbers[TREND]! * runTimes[run]!;
    if (runSpeeds) level += numbers[SPEED]! * runSpeeds[run]!;
    const names = runGroups[run]!;
    for (let place = 0; place < names.length; place += 1) level += numbers[this.groupsFrom + names[place]!]!;
    // a run of no lot that others share has its lot's part as its own
    const alone = names.length === 0 ? Math.exp(2 * numbers[GROUP_SPREAD]!) : 0;
    return logRun(evidence, sums, run, level, Math.exp(2 * numbers[RUN_SPREAD]!) + alone);
  }

  /** Of the prior density, the part that hangs on a number. */
  private prior(place: number): number {
    const { numbers, many, groupsFrom, shiftsFrom } = this;
    const value = numbers[place]!;
    if (place >= shiftsFrom) return square(value, WEIGHTS.lotMoves) + this.lookedAt(place);
    if (place >= groupsFrom) return square(value, Math.exp(numbers[GROUP_SPREAD]!));
    if (place >= COMMON + 2 * many) return square(value, WEIGHTS.tiltSpread);
    if (place >= COMMON + many) {
      const { facts } = this.evidence.scales[place - COMMON - many]!;
      return square(value - usualLogSize(facts), WEIGHTS.sizeSpread);
    }
    if (place >= COMMON) return this.priorBest(place - COMMON);
    if (place === LEVEL) return square(value - this.levelGuess, LEVEL_SPREAD);
    if (place === RUN_SPREAD) return square(value - Math.log(WEIGHTS.runSpread), LOG_SPREADS);
    if (place === TREND) return square(value, WEIGHTS.trendSpread);
    if (place === SPEED) return square(value, SPEED_SPREAD);
    let sum = square(value - Math.log(WEIGHTS.groupSpread), LOG_SPREADS) - (shiftsFrom - groupsFrom) * value;
    for (let group = groupsFrom; group < shiftsFrom; group += 1)
      sum += square(numbers[group]!, Math.exp(value));
    return sum;
  }

  private priorBest(which: number): number {
    const { numbers, many, evidence, shiftsFrom } = this;
    let sum = tableAt(evidence.scales[which]!.prior.logs, numbers[COMMON + which]!);
    for (let lot = 0; lot < evidence.lots; lot += 1) sum += this.lookedAt(shiftsFrom + lot * many + which);
    return sum;
  }

  /** What people's looks in a lot say of its best number. */
  private lookedAt(place: number): number {
    const { many, numbers, shiftsFrom, evidence } = this;
    const which = (place - shiftsFrom) % many;
    const logs = evidence.scales[which]!.prior.lotLogs.get(Math.floor((place - shiftsFrom) / many));
    return logs ? tableAt(logs, numbers[COMMON + which]! + numbers[place]!) : 0;
  }
}

function usualLogSize({ own }: ActingAdjustment): number {
  return Math.log(own ? WEIGHTS.sizeOwn : WEIGHTS.sizeOther);
}

function sumOf(column: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < column.length; at += 1) sum += column[at]!;
  return sum;
}

function square(off: number, spread: number): number {
  return -0.5 * (off / spread) ** 2;
}
