import { drawsFrom } from '../statistics/draws.ts';
import { logRise } from '../statistics/logRise.ts';
import { type Density, metropolis } from '../statistics/metropolis.ts';
import type { Evidence } from './estimateEvidence.ts';
import { priorAt } from './estimatePrior.ts';
import { WEIGHTS } from './estimateWeights.ts';

/** One draw: a level, and for each adjustment where it is best, what being off adds, and how much more to one side. */
export interface Drawn {
  readonly logLevel: number;
  readonly best: Float64Array;
  readonly logSize: Float64Array;
  readonly tilt: Float64Array;
}

const SPEED_SPREAD = 1;
const LEVEL_SPREAD = 2;
const LOG_SPREADS = 0.5;
const SHAPE_MOST = 2_000;

/** What being off by so many widths, squared with its blur, adds to one. */
export function added(off: number, blur: number, logSize: number, tilt: number): number {
  const bends = WEIGHTS.straightFrom ** 2;
  const side = off > 0 ? tilt : -tilt;
  return Math.exp(logSize + side) * 2 * bends * (Math.sqrt(1 + (off * off + blur) / bends) - 1);
}

/** So many steps of the chain, over all its numbers: what a second of a gateway allows. */
const SWEEPS = 1_600;
const BURN_IN = 500;
const KEEP_EVERY = 2;

export function drawChain(evidence: Evidence): readonly Drawn[] {
  const columns = new Columns(evidence);
  const kept = metropolis(columns.density(), {
    sweeps: SWEEPS,
    burnIn: BURN_IN,
    keepEvery: KEEP_EVERY,
    draw: drawsFrom(7_919),
  });
  const many = evidence.scales.length;
  return kept.map((numbers) => ({
    logLevel: numbers[0]!,
    best: numbers.slice(COMMON, COMMON + many),
    logSize: numbers.slice(COMMON + many, COMMON + 2 * many),
    tilt: numbers.slice(COMMON + 2 * many, COMMON + 3 * many),
  }));
}

/** Places of the numbers that are not of an adjustment or a group: level, spread of runs, spread of groups, trend, speed. */
const LEVEL = 0;
const RUN_SPREAD = 1;
const GROUP_SPREAD = 2;
const TREND = 3;
const SPEED = 4;
const COMMON = 5;

/** Keeps what one changed number leaves as it is: the only place here where anything is overwritten. */
class Columns {
  private readonly evidence: Evidence;
  private readonly numbers: Float64Array;
  private readonly rises: Float64Array[];
  private readonly slopes: Float64Array[];
  private readonly triedRise: Float64Array;
  private readonly triedSlope: Float64Array;
  /** One and all rises; all squared slopes with their blur. */
  private readonly times: Float64Array;
  private readonly blurred: Float64Array;
  private readonly logRuns: Float64Array;
  private readonly triedLogRuns: Float64Array;
  private readonly groupRuns: readonly (readonly number[])[];
  private levelGuess = 0;
  private place = 0;
  private value = 0;

  constructor(evidence: Evidence) {
    this.evidence = evidence;
    const { scales, groups, stretches, runs } = evidence;
    this.numbers = new Float64Array(COMMON + 3 * scales.length + groups);
    const column = () => new Float64Array(stretches);
    this.rises = scales.map(column);
    this.slopes = scales.map(column);
    this.triedRise = column();
    this.triedSlope = column();
    this.times = column().fill(1);
    this.blurred = column();
    this.logRuns = new Float64Array(runs);
    this.triedLogRuns = new Float64Array(runs);
    this.groupRuns = Array.from({ length: groups }, (_, group) =>
      evidence.runGroups.flatMap((own, run) => (own.includes(group) ? [run] : [])),
    );
    this.begin();
  }

  density(): Density {
    const many = this.evidence.scales.length;
    const scales = [0.1, 0.3, 0.3, 0.15, 0.5];
    for (let place = COMMON; place < this.numbers.length; place += 1)
      scales.push(place < COMMON + 3 * many ? 0.5 : 0.15);
    return {
      start: [...this.numbers],
      scales,
      tried: (place, value) => this.tried(place, value),
      take: () => this.take(),
    };
  }

  private begin(): void {
    const { scales, cartons, counts } = this.evidence;
    const sum = (column: Float64Array) => column.reduce((total, one) => total + one, 0);
    this.numbers[RUN_SPREAD] = Math.log(WEIGHTS.runSpread);
    this.numbers[GROUP_SPREAD] = Math.log(WEIGHTS.groupSpread);
    scales.forEach(({ prior, facts }, place) => {
      this.numbers[COMMON + place] = prior.mean;
      this.numbers[COMMON + scales.length + place] = facts.own
        ? Math.log(WEIGHTS.sizeOwn)
        : Math.log(WEIGHTS.sizeOther);
      this.reckon(place, this.rises[place]!, this.slopes[place]!);
      for (let at = 0; at < this.times.length; at += 1) {
        this.times[at]! += this.rises[place]![at]!;
        this.blurred[at]! += this.slopes[place]![at]!;
      }
    });
    const expected = cartons.reduce((total, one, at) => total + one * this.times[at]!, 0);
    this.levelGuess = Math.log((sum(counts) + 0.5) / Math.max(1, expected));
    this.numbers[LEVEL] = this.levelGuess;
    for (let run = 0; run < this.logRuns.length; run += 1)
      this.logRuns[run] = this.logRun(run, this.times, this.blurred);
  }

  private tried(place: number, value: number): number {
    this.place = place;
    this.value = value;
    const before = this.numbers[place]!;
    this.numbers[place] = value;
    let sum = this.prior();
    const of = place - COMMON;
    const many = this.evidence.scales.length;
    this.triedLogRuns.set(this.logRuns);
    if (of >= 3 * many) {
      for (const run of this.groupRuns[of - 3 * many]!)
        this.triedLogRuns[run] = this.logRun(run, this.times, this.blurred);
    } else if (of >= 0) this.tryAdjustment(of % many);
    else if (place !== GROUP_SPREAD)
      for (let run = 0; run < this.logRuns.length; run += 1)
        this.triedLogRuns[run] = this.logRun(run, this.times, this.blurred);
    this.numbers[place] = before;
    for (let run = 0; run < this.triedLogRuns.length; run += 1) sum += this.triedLogRuns[run]!;
    return sum;
  }

  private readonly newTimes: { column: Float64Array; slopes: Float64Array } = {
    column: new Float64Array(0),
    slopes: new Float64Array(0),
  };

  private tryAdjustment(which: number): void {
    const { times, blurred, triedRise, triedSlope, newTimes } = this;
    if (newTimes.column.length !== times.length) {
      newTimes.column = new Float64Array(times.length);
      newTimes.slopes = new Float64Array(times.length);
    }
    this.reckon(which, triedRise, triedSlope);
    const rises = this.rises[which]!;
    const slopes = this.slopes[which]!;
    for (let at = 0; at < times.length; at += 1) {
      newTimes.column[at] = times[at]! - rises[at]! + triedRise[at]!;
      newTimes.slopes[at] = blurred[at]! - slopes[at]! + triedSlope[at]!;
    }
    for (let run = 0; run < this.logRuns.length; run += 1)
      this.triedLogRuns[run] = this.logRun(run, newTimes.column, newTimes.slopes);
  }

  private take(): void {
    const of = this.place - COMMON;
    const many = this.evidence.scales.length;
    this.numbers[this.place] = this.value;
    this.logRuns.set(this.triedLogRuns);
    if (of < 0 || of >= 3 * many) return;
    this.rises[of % many]!.set(this.triedRise);
    this.slopes[of % many]!.set(this.triedSlope);
    this.times.set(this.newTimes.column);
    this.blurred.set(this.newTimes.slopes);
  }

  /** What one adjustment adds in each stretch, and the square of how steeply, by its blur. */
  private reckon(which: number, rises: Float64Array, slopes: Float64Array): void {
    const many = this.evidence.scales.length;
    const best = this.numbers[COMMON + which]!;
    const size = Math.exp(this.numbers[COMMON + many + which]!);
    const tilt = Math.exp(this.numbers[COMMON + 2 * many + which]!);
    const bends = WEIGHTS.straightFrom ** 2;
    const [up, down] = [size * tilt, size / tilt];
    const at = this.evidence.at[which]!;
    const blur = this.evidence.blur[which]!;
    for (let place = 0; place < rises.length; place += 1) {
      const off = at[place]! - best;
      const bend = Math.sqrt(1 + (off * off + blur[place]!) / bends);
      const own = off > 0 ? up : down;
      rises[place] = own * 2 * bends * (bend - 1);
      const steep = (own * 2 * off) / bend;
      slopes[place] = steep * steep * blur[place]!;
    }
  }

  /** Counts of a run, whose level varies as a gamma distribution: all its stretches share it. */
  private logRun(run: number, times: Float64Array, slopes: Float64Array): number {
    const { runBegins, cartons, counts, runGroups, runTimes, runSpeeds } = this.evidence;
    const { numbers } = this;
    const groupsFrom = COMMON + 3 * this.evidence.scales.length;
    let level = numbers[LEVEL]! + numbers[TREND]! * runTimes[run]!;
    if (runSpeeds) level += numbers[SPEED]! * runSpeeds[run]!;
    const own = runGroups[run]!;
    for (let place = 0; place < own.length; place += 1) level += numbers[groupsFrom + own[place]!]!;
    let expected = 0;
    let log = 0;
    let count = 0;
    let all = 0;
    let varies = 0;
    for (let at = runBegins[run]!; at < runBegins[run + 1]!; at += 1) {
      const factor = times[at]!;
      expected += cartons[at]! * factor;
      log += counts[at]! * Math.log(factor);
      count += counts[at]!;
      all += cartons[at]!;
      varies += (cartons[at]! * slopes[at]!) / (factor * factor);
    }
    expected *= Math.exp(level);
    // a run of no lot that others share has its lot's part as its own
    const alone = own.length === 0 ? Math.exp(2 * numbers[GROUP_SPREAD]!) : 0;
    const shape = Math.min(SHAPE_MOST, 1 / (Math.exp(2 * numbers[RUN_SPREAD]!) + alone + varies / all));
    return (
      log +
      count * level +
      logRise(shape, count) +
      shape * Math.log(shape) -
      (shape + count) * Math.log(shape + expected)
    );
  }

  private prior(): number {
    const { numbers, evidence } = this;
    const { scales, groups } = evidence;
    const many = scales.length;
    let sum =
      square(numbers[LEVEL]! - this.levelGuess, LEVEL_SPREAD) +
      square(numbers[RUN_SPREAD]! - Math.log(WEIGHTS.runSpread), LOG_SPREADS) +
      square(numbers[GROUP_SPREAD]! - Math.log(WEIGHTS.groupSpread), LOG_SPREADS) +
      square(numbers[TREND]!, WEIGHTS.trendSpread) +
      square(numbers[SPEED]!, SPEED_SPREAD);
    for (let place = 0; place < many; place += 1) {
      const { prior, facts } = scales[place]!;
      const usual = facts.own ? Math.log(WEIGHTS.sizeOwn) : Math.log(WEIGHTS.sizeOther);
      sum +=
        priorAt(prior, numbers[COMMON + place]!) +
        square(numbers[COMMON + many + place]! - usual, WEIGHTS.sizeSpread) +
        square(numbers[COMMON + 2 * many + place]!, WEIGHTS.tiltSpread);
    }
    const spread = Math.exp(numbers[GROUP_SPREAD]!);
    for (let place = COMMON + 3 * many; place < numbers.length; place += 1)
      sum += square(numbers[place]!, spread);
    return sum - groups * numbers[GROUP_SPREAD]!;
  }
}

function square(off: number, spread: number): number {
  return -0.5 * (off / spread) ** 2;
}
