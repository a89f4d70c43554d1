import { type Counted, totalOf } from '../../normal/evidence.ts';
import { chiSquareQuantile } from '../../statistics/chiSquare.ts';
import { holm } from '../../statistics/holm.ts';
import { compareOverdispersed, dispersion } from '../../statistics/overdispersed.ts';
import { compareRates } from '../../statistics/poissonRate.ts';
import { fisherExact } from '../../statistics/twoProportions.ts';

/** Two counts of one kind, and what earlier shifts counted of it: stops in a time, or rejects among cartons. */
export interface Question {
  readonly of: 'stops' | 'rejects';
  readonly here: Counted;
  readonly there: Counted;
  readonly earlier: readonly Counted[];
}

/** Whether two counts are of one rate, as far as they can tell. */
export type Verdict =
  | { readonly kind: 'real'; readonly more: 'here' | 'there'; readonly chance: number }
  | { readonly kind: 'notEnough'; readonly chance: number }
  | {
      readonly kind: 'cannotTell';
      /** So many earlier shifts, and of it in them, of those that are needed. */
      readonly shifts: number;
      readonly counted: number;
    }
  /** One of the two has no time, or no cartons. */
  | { readonly kind: 'nothing' };

/** All that is said at one look calls a difference where there is none in one of so many looks at most. */
export const FALSE_ONCE_IN = 20;
/** Fewer earlier shifts, or fewer of it in all of them, do not tell how unlike shifts are. */
export const NEEDED = { shifts: 8, counted: 10 } as const;
/** How unlike shifts are is known only from as many as there were: it is taken at the end that is wrong so seldom. */
const FACTOR_WRONG = 0.1;

/**
 * [RP12] Two counts differ really where both being of one rate would bring so unlike a split too seldom: exactly, given how many
 * came in all, and with as much more scatter than chance as earlier shifts had among them. All of one look are judged together.
 */
export function differences(questions: readonly Question[]): readonly Verdict[] {
  const chances = questions.map(chanceOf);
  const told = chances.flatMap((chance, place) => (typeof chance === 'number' ? [{ chance, place }] : []));
  const adjusted = new Map(
    holm(told.map(({ chance }) => chance)).map((chance, rank) => [told[rank]!.place, chance]),
  );
  return chances.map((chance, place): Verdict => {
    if (typeof chance !== 'number') return chance;
    const all = adjusted.get(place)!;
    if (all >= 1 / FALSE_ONCE_IN) return { kind: 'notEnough', chance: all };
    const { here, there } = questions[place]!;
    const more = here.count / here.of > there.count / there.of ? 'here' : 'there';
    return { kind: 'real', more, chance: all };
  });
}

/** How many of the questions can be answered at all: so many chances share the level. */
export function answerable(verdicts: readonly Verdict[]): number {
  return verdicts.filter(({ kind }) => kind === 'real' || kind === 'notEnough').length;
}

function chanceOf({ of, here, there, earlier }: Question): number | Verdict {
  if (!(here.of > 0 && there.of > 0)) return { kind: 'nothing' };
  const some = earlier.filter((shift) => shift.of > 0);
  const factor = factorOf(some, Math.max(here.of, there.of));
  if (factor === undefined) return { kind: 'cannotTell', shifts: some.length, counted: totalOf(some).count };
  const [first, second] = [here, there].map(({ count, of: time }) => ({ count, time }));
  const rate = (here.count + there.count) / (here.of + there.of);
  const uneven = rate > 0 ? compareOverdispersed(first!, second!, { rate, factor })! : 1;
  // as if cartons and stops came one by one: never surer than that
  const even =
    of === 'rejects'
      ? fisherExact({ count: here.count, trials: here.of }, { count: there.count, trials: there.of })
      : compareRates(first!, second!, 0.95)!.chance;
  return Math.max(uneven, even);
}

/**
 * How many times as much as by chance counts of as much as one of them looks at vary from shift to shift, at most. Where shifts
 * have rates of their own, what is beyond chance grows with how much is looked at.
 */
function factorOf(earlier: readonly Counted[], longest: number): number | undefined {
  const all = totalOf(earlier);
  if (earlier.length < NEEDED.shifts || all.count < NEEDED.counted) return undefined;
  const found = dispersion(earlier.map(({ count, of }) => ({ count, time: of })))!;
  const degrees = earlier.length - 1;
  const most = Math.max(1, (found.factor * degrees) / chiSquareQuantile(FACTOR_WRONG, degrees));
  const longer = Math.max(1, (longest * earlier.length) / all.of);
  return 1 + (most - 1) * longer;
}
