import type { ActingAdjustment, KnownSetting, OtherSize, SettledStretch } from './estimate.ts';
import { WEIGHTS } from './estimateWeights.ts';

/** What is thought of a best number before counts are looked at, in widths from the middle. */
export interface WeakPrior {
  /** Where it is thought to be, and the standard deviation of that. */
  readonly mean: number;
  readonly spread: number;
  /** Where people mostly end. */
  readonly usual: number;
  /** Logarithm of the density, from −`REACH` on, `PER_WIDTH` a width. */
  readonly logs: Float64Array;
  /** What was looked at in each lot says of where it is best in that lot; undefined of a lot in which nobody looked. */
  readonly lotLogs: ReadonlyMap<number, Float64Array>;
}

const REACH = 5;
const PER_WIDTH = 20;

/** Logarithm of a density at a place, up to a constant; straight between places of its table. */
export function tableAt(logs: Float64Array, at: number): number {
  const place = (at + REACH) * PER_WIDTH;
  if (place <= 0 || place >= logs.length - 1) return -1e6;
  const below = Math.floor(place);
  return logs[below]! + (place - below) * (logs[below + 1]! - logs[below]!);
}

export interface PriorAsked {
  readonly place: number;
  readonly middle: number;
  readonly width: number;
  readonly stretches: readonly SettledStretch[];
  /** The lot of a run, by number; undefined where no other run shares it. */
  readonly lots: ReadonlyMap<string, number | undefined>;
  readonly others: readonly OtherSize[];
}

/** What other sizes say of the scale, and where people left it and moved it to: they look at cartons. */
export function weakPrior(asked: PriorAsked): WeakPrior {
  const looks = looksOf(asked);
  const [offset, variance] = fromOthers(asked.others, asked.width);
  // habits are shared by all looks: many of them say no more than so much
  const tempered = 1 / (1 + looks.length * WEIGHTS.looksAlike);
  const sumOf = (some: readonly Look[], at: number) =>
    some.reduce((sum, look) => sum + tempered * logLook(look, at), 0);
  const base = tableOf((at) => (-0.5 * (at - offset) ** 2) / variance);
  const alone = looks.filter(({ lot }) => lot === undefined);
  const lotLogs = new Map<number, Float64Array>();
  for (const { lot } of looks)
    if (lot !== undefined && !lotLogs.has(lot)) {
      const own = looks.filter((look) => look.lot === lot);
      lotLogs.set(
        lot,
        tableOf((at) => sumOf(own, at)),
      );
    }
  const all = [...lotLogs.values()].reduce((sum, logs) => sum.map((log, step) => log + logs[step]!), base);
  const logs = tableOf((at, step) => base[step]! + sumOf(alone, at));
  const ends = looks.map(({ end }) => Math.min(2.5, Math.max(-2.5, end)));
  const usual = ends.length > 0 ? ends.reduce((sum, end) => sum + end, 0) / ends.length : 0;
  return { ...moments(all), usual, logs, lotLogs };
}

function tableOf(log: (at: number, step: number) => number): Float64Array {
  return Float64Array.from({ length: 2 * REACH * PER_WIDTH + 1 }, (_, step) =>
    log(step / PER_WIDTH - REACH, step),
  );
}

/** Where an adjustment stood at the end of a run, and where it had been begun from, as far as that is known. */
interface Look {
  readonly end: number;
  readonly begun: readonly number[];
  readonly known: KnownSetting['known'];
  readonly lot: number | undefined;
}

function looksOf({ place, middle, width, stretches, lots }: PriorAsked): readonly Look[] {
  const looks: Look[] = [];
  let before = 0;
  for (const run of new Set(stretches.map((one) => one.run))) {
    const settings = stretches
      .filter((one) => one.run === run)
      .flatMap(({ settings: all }) => all[place] ?? []);
    const ends = settings.map(({ value }) => (value - middle) / width);
    const end = ends.at(-1);
    if (end === undefined) continue;
    const moved = ends.find((one) => Math.abs(one - end) > 1e-9);
    const { known } = settings.at(-1)!;
    looks.push({ end, begun: moved === undefined ? [0, before] : [moved], known, lot: lots.get(run) });
    before = end;
  }
  return looks;
}

/**
 * Left where it was begun it is likely not far off; moved, it is likely moved to near the right place. What a person set to a number
 * and left is told as that number; what a sensor reads, or is read back, stands about it, and may be either.
 */
function logLook({ end, begun, known, lot }: Look, best: number): number {
  if (known === 'confirmed') return Math.log(1 - WEIGHTS.tappedTrue * movedChance(end - best));
  if (known === 'typed' && begun.some((from) => Math.abs(from - end) < 1e-9))
    return Math.log(1 - movedChance(end - best));
  // of a lot that no other run shares, nobody knows how it moves what is best
  const well = Math.hypot(WEIGHTS.movedTo, lot === undefined ? WEIGHTS.lotMoves : 0);
  const share = WEIGHTS.movedWrongShare;
  const to = (1 - share) * bell(end - best, well) + share * bell(end - best, WEIGHTS.movedWrong);
  const left = (known === 'sensor' ? 1 : WEIGHTS.readAgain) * (1 - movedChance(end - best));
  const chance = begun.reduce(
    (sum, from) => sum + movedChance(from - best) * to + left * bell(end - from, WEIGHTS.standsAbout.left),
    0,
  );
  return Math.log(chance / begun.length + 1e-9);
}

function bell(off: number, spread: number): number {
  return Math.exp(-0.5 * (off / spread) ** 2) / spread;
}

/** How likely somebody moves what is so far off. */
function movedChance(off: number): number {
  const { movesLeast, movesMost, movesFrom, movesWithin } = WEIGHTS;
  return movesLeast + (movesMost - movesLeast) / (1 + Math.exp((movesFrom - Math.abs(off)) / movesWithin));
}

function moments(logs: Float64Array): { readonly mean: number; readonly spread: number } {
  const most = logs.reduce((sum, one) => Math.max(sum, one), -Infinity);
  const sums = [0, 0, 0];
  logs.forEach((log, step) => {
    const weight = Math.exp(log - most);
    const at = step / PER_WIDTH - REACH;
    for (const power of [0, 1, 2]) sums[power]! += weight * at ** power;
  });
  const mean = sums[1]! / sums[0]!;
  return { mean, spread: Math.sqrt(Math.max(1e-4, sums[2]! / sums[0]! - mean * mean)) };
}

/** Other sizes show what is wrong with the scale itself. */
function fromOthers(others: readonly OtherSize[], width: number): readonly [mean: number, variance: number] {
  let precision = 1 / WEIGHTS.offShared ** 2;
  let sum = 0;
  for (const { offset, spread } of others) {
    const weight = 1 / (WEIGHTS.offOwn ** 2 + (spread / width) ** 2);
    precision += weight;
    sum += (weight * offset) / width;
  }
  return [sum / precision, 1 / precision + WEIGHTS.offOwn ** 2];
}

/** By the scale's step, as fine as somebody found worth reading; and by how far settings lie about the middle, the more the more there are. */
export function typicalWidth(
  { step }: Pick<ActingAdjustment, 'step'>,
  middle: number,
  known: readonly number[],
): number {
  const byStep = WEIGHTS.widthByTenth * (step / 0.1) ** 0.5;
  const offs = known.map((value) => Math.min(4 * byStep, Math.abs(value - middle)));
  const about = Math.sqrt(offs.reduce((sum, off) => sum + off ** 2, 0) / Math.max(1, offs.length));
  if (about < step / 2) return byStep;
  const weight = known.length / (known.length + WEIGHTS.widthRuns);
  return byStep ** (1 - weight) * Math.max(2 * step, WEIGHTS.widthBySpread * about) ** weight;
}
