import type { Signs, Strength } from '../../../model/diagnosis/symptoms.ts';
import { SYMPTOMS } from '../../../model/diagnosis/symptoms.ts';
import {
  chance,
  type Draw,
  lognormal,
  normal,
  pick,
  stream,
  uniform,
} from '../../../simulator/machine/random.ts';
import type { Machine } from './machine.ts';

/**
 * What is true of one line, drawn around what its people wrote, and of other forms than the model assumes: what shows is wrong in
 * places, what a deviation costs is no square, and runs and counts vary otherwise.
 */
export interface World {
  readonly machine: Machine;
  readonly manner: Manner;
  /** How a trouble really divides itself, by cause. */
  readonly shows: (cause: string) => Shown;
  readonly adjustments: ReadonlyMap<string, TrueAdjustment>;
  /** Usual counts in a carton, in the order of the machine's reasons. */
  readonly usual: readonly number[];
  /** Spread of the logarithm of a run's level. */
  readonly runSpread: number;
  /** How many more come with one that came. */
  readonly clump: number;
}

/** How far the world is from what its people wrote and think. Weights were set on the usual manner alone. */
export interface Manner {
  /** Of all words of the file, so many are wrong; and of all adjustments, so many have their sides the wrong way round. */
  readonly wrongWords: number;
  readonly swapped: number;
  /** How exactly people set, in parts of what shows. */
  readonly setTo: number;
  /** The best numbers are so many times as far off as they are thought to be. */
  readonly bestOff: number;
  /** Of all that people say they see, so much is a mistake. */
  readonly saidWrongly: number;
  /** How far what is thought to be usual is off, and how unlike runs are: spreads of logarithms. */
  readonly usualOff: number;
  readonly runs: readonly [number, number];
}

export const MANNERS = {
  usual: {
    wrongWords: 0.12,
    swapped: 0.1,
    setTo: 0.35,
    bestOff: 1,
    saidWrongly: 0.25,
    usualOff: 0.15,
    runs: [0.2, 0.5],
  },
  strange: {
    wrongWords: 0.33,
    swapped: 0.2,
    setTo: 0.6,
    bestOff: 1.5,
    saidWrongly: 0.45,
    usualOff: 0.3,
    runs: [0.4, 0.7],
  },
} as const satisfies Readonly<Record<string, Manner>>;
export type MannerName = keyof typeof MANNERS;

export interface Shown {
  readonly reasons: readonly number[];
  readonly symptoms: readonly number[];
}

export interface TrueAdjustment {
  /** The number at which it is really best. */
  readonly best: number;
  /** What is thought to be best, and how sure one is of it; undefined where nobody knows. */
  readonly thought: { readonly value: number; readonly sd: number } | undefined;
  /** How many times the usual it brings, so far off. */
  readonly excess: (far: number) => number;
  readonly cost: { readonly perSquare: number; readonly sd: number } | undefined;
  readonly book: number;
}

const CURVES = ['power', 'deadZone', 'saturating'] as const;

export function worldOf(machine: Machine, seed: number, name: MannerName): World {
  const manner = MANNERS[name];
  const draw = stream(seed, 'world');
  const usual = machine.reasons.map(({ kind }) =>
    kind === 'reject'
      ? lognormal(draw, 0.0014, 0.6, 0.0003, 0.006)
      : lognormal(draw, 0.0006, 0.6, 0.0001, 0.003),
  );
  const shown = new Map<string, Shown>();
  for (const { number, high, low, stations } of machine.knowledge.adjustments) {
    const swapped = chance(draw, manner.swapped);
    shown.set(`${number} high`, drawnShown(draw, { machine, manner }, swapped ? low : high, stations));
    shown.set(`${number} low`, drawnShown(draw, { machine, manner }, swapped ? high : low, stations));
  }
  for (const { id, signs, stations } of machine.knowledge.causes)
    shown.set(id, drawnShown(draw, { machine, manner }, signs, stations));
  return {
    ...{ machine, manner, usual },
    shows: (cause) => shown.get(cause)!,
    adjustments: new Map(
      machine.knowledge.adjustments.map(({ number, shows }) => [
        number,
        drawnAdjustment(draw, shows, manner),
      ]),
    ),
    runSpread: uniform(draw, manner.runs[0], manner.runs[1]),
    clump: uniform(draw, 0.1, 0.7),
  };
}

/** Signs of something that nobody wrote down: any of the station's reasons, and any symptom. */
export function unknownShown(draw: Draw, machine: Machine, station: string): Shown {
  return {
    reasons: shared(
      machine.reasons.map((one) => (nearTo(machine, one, [station]) ? -Math.log(1 - draw()) : 0.02 * draw())),
    ),
    symptoms: shared(SYMPTOMS.map(() => -Math.log(1 - draw()))),
  };
}

function drawnShown(
  draw: Draw,
  { machine, manner }: Pick<World, 'machine' | 'manner'>,
  signs: Signs,
  stations: readonly string[],
): Shown {
  const reasons = machine.reasons.map((reason) => {
    const said =
      reason.kind === 'reject' ? signs.rejects.get(String(reason.id)) : signs.stops.get(Number(reason.id));
    return drawnWeight(draw, said, nearTo(machine, reason, stations), manner);
  });
  return {
    reasons: shared(reasons),
    symptoms: shared(SYMPTOMS.map((symptom) => drawnWeight(draw, signs.symptoms.get(symptom), true, manner))),
  };
}

/** A stop of one of these stations, or a reject that some adjustment of theirs is said to bring. */
function nearTo(
  machine: Machine,
  { kind, id, station }: Machine['reasons'][number],
  stations: readonly string[],
): boolean {
  if (kind === 'stop') return stations.includes(station);
  return machine.knowledge.adjustments.some(
    (one) =>
      one.stations.some((at) => stations.includes(at)) &&
      (one.high.rejects.has(String(id)) || one.low.rejects.has(String(id))),
  );
}

/** Some words of the file are wrong, one in twenty things that show is not in it, and none is exact. */
function drawnWeight(draw: Draw, said: Strength | undefined, near: boolean, { wrongWords }: Manner): number {
  const any: readonly (Strength | undefined)[] = ['often', 'sometimes', 'seldom', undefined];
  const wrong = said === undefined ? near && chance(draw, 0.05) : chance(draw, wrongWords);
  const strength = wrong ? pick(draw, any, () => 1) : said;
  const [low, high] = {
    often: [3, 9],
    sometimes: [0.8, 3.5],
    seldom: [0.1, 1],
    none: near ? [0, 0.4] : [0, 0.02],
  }[strength ?? 'none'] as [number, number];
  return uniform(draw, low, high) * Math.exp(0.4 * normal(draw));
}

function drawnAdjustment(draw: Draw, written: number, { bestOff }: Manner): TrueAdjustment {
  const shows = written * Math.exp(0.35 * normal(draw));
  const excess = drawnCurve(draw, shows);
  const best = uniform(draw, 10, 40);
  // of a size that seldom ran the book is all there is, and it is little
  const known = chance(draw, 0.85);
  const sd = written * (known ? uniform(draw, 0.2, 0.8) : uniform(draw, 0.9, 1.6));
  // one in seven is much further from the truth than it is thought to be
  const off = bestOff * sd * normal(draw) * (chance(draw, 0.15) ? 2.2 : 1);
  const perSquare = (excess(1.5 * shows) + excess(-1.5 * shows)) / 2 / (1.5 * shows) ** 2;
  const costKnown = known && chance(draw, 0.5);
  const part = uniform(draw, 0.3, 0.8);
  const thought = known || chance(draw, 0.8) ? { value: best + off, sd } : undefined;
  return {
    ...{ best, thought, excess },
    cost: costKnown
      ? { perSquare: perSquare * Math.exp(0.4 * normal(draw)), sd: part * perSquare }
      : undefined,
    book: best + off + 0.3 * written * normal(draw),
  };
}

/** Steeper to one side than to the other, and of three forms, none of which is a square. */
function drawnCurve(draw: Draw, shows: number): (far: number) => number {
  const form = pick(draw, CURVES, () => 1);
  const steeper = Math.exp(0.35 * normal(draw));
  const power = pick(draw, [1.2, 1.6, 2.6, 3.2], () => 1);
  const most = uniform(draw, 6, 20);
  return (far) => {
    const z = Math.abs(far / shows) * (far > 0 ? steeper : 1 / steeper);
    if (form === 'power') return Math.min(25, z ** power);
    if (form === 'deadZone') return Math.min(25, 2 * Math.max(0, z - 0.5));
    return most / (1 + Math.exp(-1.6 * (z - 2.2))) - most / (1 + Math.exp(3.52));
  };
}

export function shared(weights: readonly number[]): readonly number[] {
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / all);
}
