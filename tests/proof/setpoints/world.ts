/**
 * A line whose truth is known: where each adjustment would be best for each size, what being off costs, and how the
 * people are who set it. Everything that a curve can be is a table, so that worlds made elsewhere need no code of ours.
 */
export interface World {
  readonly name: string;
  readonly seed: number;
  readonly cartonsPerRun: Between;
  readonly lostPerReject: number;
  readonly lostPerStop: number;
  /** How a station's risk comes from what its adjustments each multiply it by: excesses added up, or factors multiplied. */
  readonly combine: 'add' | 'times';
  readonly stations: readonly WorldStation[];
  readonly adjustments: readonly WorldAdjustment[];
  readonly crossEffects: readonly CrossEffect[];
  readonly interactions: readonly Interaction[];
  /** Pairs that setters always move by as much. */
  readonly movedTogether: readonly (readonly [string, string])[];
  readonly sizes: readonly WorldSize[];
  readonly lots: readonly WorldLot[];
  readonly runsPerLot: Between;
  readonly setters: readonly Setter[];
  readonly wear: Wear;
}

export interface Between {
  readonly from: number;
  readonly to: number;
}

/** Rows of deviation (in the adjustment's own unit, ascending) and what it multiplies the risk by; straight between, level or straight on beyond. */
export type CurveTable = readonly (readonly [deviation: number, times: number])[];

export interface WorldStation {
  readonly id: string;
  /** Where every number is best, in a usual run. */
  readonly rejectsPerThousand: number;
  readonly stopsPerThousand: number;
  /** Standard deviation of the logarithm of a run's level. */
  readonly runSpread: number;
  readonly badDay: { readonly chance: number; readonly times: number };
  /** Of what the risk grows by, stops grow by so much: 1 as rejects do. */
  readonly stopsFollow: number;
  /** Share of its rejects that is charged to it; the rest goes to the station before. */
  readonly charged: number;
}

export interface WorldAdjustment {
  readonly number: string;
  readonly station: string;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** By how much it may be off before it shows: what setters' errors are measured in. */
  readonly tolerance: number;
  readonly sensor: boolean;
  readonly curve: CurveTable;
}

/** An adjustment that also spoils cartons of another station, and is best for that one a little elsewhere. */
export interface CrossEffect {
  readonly adjustment: string;
  readonly station: string;
  readonly offset: number;
  readonly curve: CurveTable;
}

/** What counts is the first one's deviation and so much of the second's together. */
export interface Interaction {
  readonly station: string;
  readonly first: string;
  readonly second: string;
  readonly per: number;
  readonly curve: CurveTable;
}

export interface WorldSize {
  readonly id: string;
  /** Of all runs, so many are of it. */
  readonly weight: number;
  readonly book: Readonly<Record<string, number>>;
  readonly best: Readonly<Record<string, number>>;
}

export interface WorldLot {
  readonly id: string;
  /** What it multiplies every station's risk by. */
  readonly level: number;
  /** By how much it moves the best number of an adjustment; none where it is not named. */
  readonly shifts: Readonly<Record<string, number>>;
}

/** Chances are of one adjustment in one changeover; lengths are in tolerances. */
export interface Setter {
  readonly name: string;
  readonly weight: number;
  /** Error of the eye when setting to a number, and when reading one off; its form is `errors`. */
  readonly eye: number;
  readonly misreads: number;
  readonly errors: 'normal' | 'uniform' | 'doubleExponential';
  /** Sets by so much above the number, always. */
  readonly habit: number;
  /** Chance of going by the number of the last run of the size instead of the book's. */
  readonly keepsOwn: number;
  /** Chance of taking the number from another line of the sheet. */
  readonly slips: number;
  /** After trial cartons: what is off by more than this is moved with this chance, to the right place with this error. */
  readonly correctsFrom: number;
  readonly corrects: number;
  /** Whether that chance is there from a deviation on, or grows from none at half of it to all of it at one and a half. */
  readonly notices: 'at once' | 'more and more';
  /** Of the way to the right place, a correction goes so much. */
  readonly correctionGoes: number;
  readonly correctionError: number;
  /** Chance that a correction is made at another adjustment of the station, or the wrong way. */
  readonly correctsWrong: number;
  /** Chance that the number is said by one tap, and that the tap is made although it was corrected since. */
  readonly tapsAsBook: number;
  readonly tapsUntrue: number;
  readonly saysNothing: number;
  /** Chance that what is said is read off the scale, and not the number that was to be set. */
  readonly readsOff: number;
  /** Chance that each of the two that are asked for again is read. */
  readonly readsBack: number;
  /** Chance of one move while the run goes on. */
  readonly movesInRun: number;
}

export interface Wear {
  /** Of the logarithm of every station's level, in each run of any size. */
  readonly perRun: number;
  readonly replacedEvery: number;
}

/** What a deviation multiplies the risk by. */
export function timesAt(curve: CurveTable, deviation: number): number {
  let place = 1;
  while (place < curve.length - 1 && curve[place]![0] < deviation) place += 1;
  const [x0, y0] = curve[place - 1]!;
  const [x1, y1] = curve[place]!;
  return Math.max(0.05, y0 + ((y1 - y0) * (deviation - x0)) / (x1 - x0));
}

/** What the deviations of the adjustments multiply a station's risk by. */
export function riskTimes(world: World, station: string, deviations: ReadonlyMap<string, number>): number {
  const factors: number[] = [];
  for (const { number, station: own, curve } of world.adjustments)
    if (own === station) factors.push(timesAt(curve, deviations.get(number)!));
  for (const { adjustment, station: other, offset, curve } of world.crossEffects)
    if (other === station) factors.push(timesAt(curve, deviations.get(adjustment)! - offset));
  for (const { station: where, first, second, per, curve } of world.interactions)
    if (where === station)
      factors.push(timesAt(curve, deviations.get(first)! + per * deviations.get(second)!));
  const times =
    world.combine === 'times'
      ? factors.reduce((product, factor) => product * factor, 1)
      : factors.reduce((sum, factor) => sum + factor - 1, 1);
  return Math.min(40, Math.max(0.1, times));
}

export function onStep({ min, max, step }: Pick<WorldAdjustment, 'min' | 'max' | 'step'>, value: number) {
  const bounded = Math.min(max, Math.max(min, value));
  return Number((Math.round(bounded / step) * step).toFixed(6));
}
