import { drawsFrom } from '../statistics/draws.ts';
import { type Density, metropolis } from '../statistics/metropolis.ts';
import type { ActingAdjustment } from './estimate.ts';
import type { Evidence } from './estimateEvidence.ts';
import { priorAt } from './estimatePrior.ts';
import { copySums, emptySums, type RunSums, sumRuns, logRun } from './estimateRuns.ts';
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

/** What being off by so many widths, squared with its blur, adds to one. */
export function added(off: number, blur: number, logSize: number, tilt: number): number {
  const bends = WEIGHTS.straightFrom ** 2;
  const side = off > 0 ? tilt : -tilt;
  return Math.exp(logSize + side) * 2 * bends * (Math.sqrt(1 + (off * off + blur) / bends) - 1);
}

/** So many steps of the chain, over all its numbers: what a second of a gateway allows. */
const KEEP_EVERY = 2;

export function drawChain(evidence: Evidence): readonly Drawn[] {
  const columns = new Columns(evidence);
  const SWEEPS = WEIGHTS.sweeps;
  const BURN_IN = SWEEPS / 4;
  const kept = metropolis(columns.density(), {
    sweeps: SWEEPS,
    burnIn: BURN_IN,
    keepEvery: KEEP_EVERY,
    draw: drawsFrom(WEIGHTS.seed),
  });
  const many = evidence.scales.length;
  return kept.map((numbers) => {
    const best = numbers.slice(COMMON, COMMON + many);
    const logSize = numbers.slice(COMMON + many, COMMON + 2 * many);
    const tilt = numbers.slice(COMMON + 2 * many, COMMON + 3 * many);
    return { logLevel: numbers[LEVEL]! - logMeanOf(evidence, { best, logSize, tilt }), best, logSize, tilt };
  });
}

/** Logarithm of what all adjustments as they stood multiply the least risk by, over all cartons. */
function logMeanOf({ at, blur, cartons }: Evidence, drawn: Omit<Drawn, 'logLevel'>): number {
  let sum = 0;
  let all = 0;
  for (let stretch = 0; stretch < cartons.length; stretch += 1) {
    let factor = 1;
    for (let place = 0; place < at.length; place += 1) {
      const off = at[place]![stretch]! - drawn.best[place]!;
      factor += added(off, blur[place]![stretch]!, drawn.logSize[place]!, drawn.tilt[place]!);
    }
    sum += cartons[stretch]! * factor;
    all += cartons[stretch]!;
  }
  return all > 0 ? Math.log(sum / all) : 0;
}

/**
 * Places of the numbers that are not of an adjustment or a group. The level is that of all cartons as they ran, not of the best numbers: so
 * it hardly depends on where those are, and the chain moves freely.
 */
const LEVEL = 0;
const RUN_SPREAD = 1;
const GROUP_SPREAD = 2;
const TREND = 3;
const SPEED = 4;
const COMMON = 5;
const FIRST_STEPS = [0.1, 0.3, 0.3, 0.15, 0.5] as const;

/** What follows from the numbers of all adjustments: kept, so that a change of one leaves the others as they are. */
interface Worked {
  /** One and all that being off adds, by stretch; and the squared slopes with their blur. */
  readonly times: Float64Array;
  readonly slopes: Float64Array;
  readonly sums: RunSums;
}

/** The only place here where anything is overwritten: the numbers as they stand, and what one tried change would make of them. */
class Columns {
  private readonly evidence: Evidence;
  private readonly many: number;
  private readonly numbers: Float64Array;
  /** What each adjustment adds by itself. */
  private readonly own: readonly { readonly times: Float64Array; readonly slopes: Float64Array }[];
  private readonly triedOwn: { readonly times: Float64Array; readonly slopes: Float64Array };
  private readonly stands: Worked;
  private readonly would: Worked;
  private readonly logRuns: Float64Array;
  private readonly triedLogRuns: Float64Array;
  private readonly groupRuns: readonly (readonly number[])[];
  private levelGuess = 0;
  private place = 0;
  private value = 0;

  constructor(evidence: Evidence) {
    this.evidence = evidence;
    const { scales, groups, stretches, runs } = evidence;
    this.many = scales.length;
    this.numbers = new Float64Array(COMMON + 3 * this.many + groups);
    const column = () => new Float64Array(stretches);
    this.own = scales.map(() => ({ times: column(), slopes: column() }));
    this.triedOwn = { times: column(), slopes: column() };
    this.stands = { times: column().fill(1), slopes: column(), sums: emptySums(runs) };
    this.would = { times: column(), slopes: column(), sums: emptySums(runs) };
    this.logRuns = new Float64Array(runs);
    this.triedLogRuns = new Float64Array(runs);
    this.groupRuns = Array.from({ length: groups }, (_, group) =>
      evidence.runGroups.flatMap((names, run) => (names.includes(group) ? [run] : [])),
    );
    this.begin();
  }

  density(): Density {
    const rest = Array.from({ length: this.numbers.length - COMMON }, (_, at) =>
      at < 3 * this.many ? 0.5 : 0.15,
    );
    return {
      start: [...this.numbers],
      scales: [...FIRST_STEPS, ...rest],
      tried: (place, value) => this.tried(place, value),
      take: () => this.take(),
    };
  }

  private begin(): void {
    const { evidence, stands, numbers, many } = this;
    numbers[RUN_SPREAD] = Math.log(WEIGHTS.runSpread);
    numbers[GROUP_SPREAD] = Math.log(WEIGHTS.groupSpread);
    evidence.scales.forEach(({ prior, facts }, place) => {
      numbers[COMMON + place] = prior.mean;
      numbers[COMMON + many + place] = usualLogSize(facts);
      const own = this.own[place]!;
      this.reckon(place, own);
      for (let at = 0; at < stands.times.length; at += 1) {
        stands.times[at]! += own.times[at]!;
        stands.slopes[at]! += own.slopes[at]!;
      }
    });
    sumRuns(evidence, stands.times, stands.slopes, stands.sums);
    const sum = (column: Float64Array) => column.reduce((total, one) => total + one, 0);
    this.levelGuess = Math.log((sum(evidence.runCounts) + 0.5) / Math.max(1, sum(evidence.runCartons)));
    numbers[LEVEL] = this.levelGuess;
    this.logAll(stands.sums, this.logRuns);
  }

  private tried(place: number, value: number): number {
    const { numbers, many, stands, would, triedLogRuns } = this;
    this.place = place;
    this.value = value;
    const before = numbers[place]!;
    numbers[place] = value;
    const of = place - COMMON;
    if (of >= 3 * many) {
      triedLogRuns.set(this.logRuns);
      for (const run of this.groupRuns[of - 3 * many]!) triedLogRuns[run] = this.logOf(stands.sums, run);
    } else if (of >= 0) {
      this.work(of % many);
      this.logAll(would.sums, triedLogRuns);
    } else if (place !== SPEED || this.evidence.runSpeeds) this.logAll(stands.sums, triedLogRuns);
    let sum = this.prior();
    for (let run = 0; run < triedLogRuns.length; run += 1) sum += triedLogRuns[run]!;
    numbers[place] = before;
    return sum;
  }

  private take(): void {
    const { many, stands, would } = this;
    const of = this.place - COMMON;
    this.numbers[this.place] = this.value;
    this.logRuns.set(this.triedLogRuns);
    if (of < 0 || of >= 3 * many) return;
    const own = this.own[of % many]!;
    own.times.set(this.triedOwn.times);
    own.slopes.set(this.triedOwn.slopes);
    stands.times.set(would.times);
    stands.slopes.set(would.slopes);
    copySums(would.sums, stands.sums);
  }

  private work(which: number): void {
    const { stands, would, triedOwn } = this;
    const own = this.own[which]!;
    this.reckon(which, triedOwn);
    for (let at = 0; at < would.times.length; at += 1) {
      would.times[at] = stands.times[at]! - own.times[at]! + triedOwn.times[at]!;
      would.slopes[at] = stands.slopes[at]! - own.slopes[at]! + triedOwn.slopes[at]!;
    }
    sumRuns(this.evidence, would.times, would.slopes, would.sums);
  }

  /** What one adjustment adds in each stretch, and the square of how steeply, by its blur. */
  private reckon(which: number, { times, slopes }: Pick<Worked, 'times' | 'slopes'>): void {
    const { numbers, many } = this;
    const best = numbers[COMMON + which]!;
    const size = Math.exp(numbers[COMMON + many + which]!);
    const tilt = Math.exp(numbers[COMMON + 2 * many + which]!);
    const bends = WEIGHTS.straightFrom ** 2;
    const up = size * tilt;
    const down = size / tilt;
    const at = this.evidence.at[which]!;
    const blur = this.evidence.blur[which]!;
    for (let place = 0; place < times.length; place += 1) {
      const off = at[place]! - best;
      const bend = Math.sqrt(1 + (off * off + blur[place]!) / bends);
      const side = off > 0 ? up : down;
      times[place] = side * 2 * bends * (bend - 1);
      const steep = (side * 2 * off) / bend;
      slopes[place] = steep * steep * blur[place]!;
    }
  }

  private logAll(sums: RunSums, into: Float64Array): void {
    for (let run = 0; run < into.length; run += 1) into[run] = this.logOf(sums, run);
  }

  private logOf(sums: RunSums, run: number): number {
    const { evidence, numbers, many } = this;
    const { runGroups, runTimes, runSpeeds } = evidence;
    let level = numbers[LEVEL]! - sums.logMean + numbers[TREND]! * runTimes[run]!;
    if (runSpeeds) level += numbers[SPEED]! * runSpeeds[run]!;
    const names = runGroups[run]!;
    for (let place = 0; place < names.length; place += 1)
      level += numbers[COMMON + 3 * many + names[place]!]!;
    // a run of no lot that others share has its lot's part as its own
    const alone = names.length === 0 ? Math.exp(2 * numbers[GROUP_SPREAD]!) : 0;
    return logRun(evidence, sums, run, level, Math.exp(2 * numbers[RUN_SPREAD]!) + alone);
  }

  private prior(): number {
    const { numbers, evidence, many } = this;
    let sum =
      square(numbers[LEVEL]! - this.levelGuess, LEVEL_SPREAD) +
      square(numbers[RUN_SPREAD]! - Math.log(WEIGHTS.runSpread), LOG_SPREADS) +
      square(numbers[GROUP_SPREAD]! - Math.log(WEIGHTS.groupSpread), LOG_SPREADS) +
      square(numbers[TREND]!, WEIGHTS.trendSpread) +
      square(numbers[SPEED]!, SPEED_SPREAD);
    for (let place = 0; place < many; place += 1) {
      const { prior, facts } = evidence.scales[place]!;
      sum +=
        priorAt(prior, numbers[COMMON + place]!) +
        square(numbers[COMMON + many + place]! - usualLogSize(facts), WEIGHTS.sizeSpread) +
        square(numbers[COMMON + 2 * many + place]!, WEIGHTS.tiltSpread);
    }
    const spread = Math.exp(numbers[GROUP_SPREAD]!);
    for (let place = COMMON + 3 * many; place < numbers.length; place += 1)
      sum += square(numbers[place]!, spread);
    return sum - evidence.groups * numbers[GROUP_SPREAD]!;
  }
}

function usualLogSize({ own }: ActingAdjustment): number {
  return Math.log(own ? WEIGHTS.sizeOwn : WEIGHTS.sizeOther);
}

function square(off: number, spread: number): number {
  return -0.5 * (off / spread) ** 2;
}
