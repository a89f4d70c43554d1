import type { ActingAdjustment, EstimateAsked, KnownSetting, SettledStretch } from './estimate.ts';
import { typicalWidth, type WeakPrior, weakPrior } from './estimatePrior.ts';
import { WEIGHTS } from './estimateWeights.ts';

/** What was seen, as columns that a chain runs over: settings in widths from the middle of each adjustment. */
export interface Evidence {
  readonly scales: readonly Scale[];
  readonly stretches: number;
  readonly runs: number;
  readonly groups: number;
  /** By adjustment, then stretch. */
  readonly at: readonly Float64Array[];
  /** Variance of where it really stood about what is known, and of how lots move what is best. */
  readonly blur: readonly Float64Array[];
  readonly cartons: Float64Array;
  readonly counts: Float64Array;
  /** Stretches of a run lie beside one another: it begins here; one more at the end. */
  readonly runBegins: Int32Array;
  readonly runCartons: Float64Array;
  readonly runCounts: Float64Array;
  /** Lots and parts that a run is of, by number; only those of more than one run. */
  readonly runGroups: readonly (readonly number[])[];
  /** Of these, the first so many are lots, which also move what is best. */
  readonly lots: number;
  /** When a run was, from −1 to 1. */
  readonly runTimes: Float64Array;
  /** Logarithm of its speed beside the mean; undefined where nobody knows, or it was always the same. */
  readonly runSpeeds: Float64Array | undefined;
}

/** How an adjustment's settings are counted in the chain. */
export interface Scale {
  readonly facts: ActingAdjustment;
  readonly middle: number;
  /** About so far off a station's risk is twice its least: a first guess. */
  readonly width: number;
  readonly prior: WeakPrior;
}

export function evidenceOf(asked: EstimateAsked): Evidence {
  const runs = [...new Set(asked.stretches.map(({ run }) => run))];
  const ordered = runs.flatMap((run) => asked.stretches.filter((one) => one.run === run && one.cartons > 0));
  const present = [...new Set(ordered.map(({ run }) => run))];
  const begins = present.map((run) => ordered.findIndex((one) => one.run === run));
  const firsts = begins.map((first) => ordered[first]!);
  const groups = groupsOf(firsts);
  const lotOf = groups.runGroups.map((own) => own.find((group) => group < groups.lots));
  const lots = new Map(present.map((run, place) => [run, lotOf[place]]));
  const scales = asked.adjustments.map((facts, place) => scaleOf(facts, place, ordered, lots, asked));
  const sumsOf = (of: (one: SettledStretch) => number) =>
    Float64Array.from(present, (run) =>
      ordered.reduce((sum, one) => (one.run === run ? sum + of(one) : sum), 0),
    );
  const countOf = ({ spoiled, stops }: SettledStretch) => spoiled + stops;
  return {
    scales,
    ...{ stretches: ordered.length, runs: present.length, ...groups },
    at: scales.map((scale, place) => Float64Array.from(ordered, (one) => atOf(scale, one.settings[place]))),
    blur: scales.map((scale, place) =>
      Float64Array.from(ordered, (one) =>
        blurOf(scale, one.settings[place], lots.get(one.run) === undefined),
      ),
    ),
    cartons: Float64Array.from(ordered, ({ cartons }) => cartons),
    counts: Float64Array.from(ordered, countOf),
    runBegins: Int32Array.from([...begins, ordered.length]),
    runCartons: sumsOf(({ cartons }) => cartons),
    runCounts: sumsOf(countOf),
    runTimes: Float64Array.from(present, (_, place) =>
      present.length > 1 ? (2 * place) / (present.length - 1) - 1 : 0,
    ),
    runSpeeds: speedsOf(firsts),
  };
}

function scaleOf(
  facts: ActingAdjustment,
  place: number,
  stretches: readonly SettledStretch[],
  lots: ReadonlyMap<string, number | undefined>,
  asked: EstimateAsked,
): Scale {
  const known = stretches.flatMap(({ settings }) => settings[place]?.value ?? []);
  const middle = facts.book ?? (known.length > 0 ? median(known) : (facts.min + facts.max) / 2);
  const width = typicalWidth(facts, middle, known);
  const prior = weakPrior({
    ...{ place, middle, width, stretches, lots },
    others: asked.otherSizes?.[facts.number] ?? [],
  });
  return { facts, middle, width, prior };
}

/** Where nobody knows it stands where people mostly end, with a wide blur. */
function atOf({ middle, width, prior }: Scale, setting: KnownSetting | undefined): number {
  return setting ? (setting.value - middle) / width : prior.usual;
}

/**
 * Who sets to the book's number writes that number, and his eye errs; who moves it by what he sees reads off what came of it. A lot
 * that other runs share moves the best number by itself; one that a run has alone blurs it.
 */
function blurOf({ middle }: Scale, setting: KnownSetting | undefined, alone: boolean): number {
  const { standsAbout, lotMoves } = WEIGHTS;
  const typed = setting?.value === middle ? standsAbout.left : standsAbout.moved;
  const spread = !setting
    ? standsAbout.unknown
    : setting.known === 'typed'
      ? typed
      : standsAbout[setting.known];
  return spread ** 2 + (alone ? lotMoves ** 2 : 0);
}

function groupsOf(firsts: readonly SettledStretch[]): Pick<Evidence, 'groups' | 'lots' | 'runGroups'> {
  const names = firsts.map(({ lot, parts }) => [
    ...(lot === null ? [] : [`lot ${lot}`]),
    ...(parts === null ? [] : [`parts ${parts}`]),
  ]);
  const many = new Map<string, number>();
  for (const name of names.flat()) many.set(name, (many.get(name) ?? 0) + 1);
  // what all runs share is the level, and what one run has alone is the run's own
  const shared = [...many].filter(([, runs]) => runs > 1 && runs < firsts.length).map(([name]) => name);
  const lots = shared.filter((name) => name.startsWith('lot '));
  const ordered = [...lots, ...shared.filter((name) => !lots.includes(name))];
  const numbers = new Map(ordered.map((name, place) => [name, place]));
  return {
    groups: ordered.length,
    lots: lots.length,
    runGroups: names.map((own) => own.flatMap((name) => numbers.get(name) ?? [])),
  };
}

function speedsOf(firsts: readonly SettledStretch[]): Float64Array | undefined {
  const known = firsts.flatMap(({ speed }) => (speed !== undefined && speed > 0 ? [speed] : []));
  if (known.length < 2 || Math.max(...known) < 1.02 * Math.min(...known)) return undefined;
  const mean = known.reduce((sum, speed) => sum + Math.log(speed), 0) / known.length;
  return Float64Array.from(firsts, ({ speed }) =>
    speed !== undefined && speed > 0 ? Math.log(speed) - mean : 0,
  );
}

export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
