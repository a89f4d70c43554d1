import type { ChangeoverRecord } from '../fold/state.ts';
import { type Millis, millis, type Span } from '../units/units.ts';
import {
  alikeBefore,
  type ChangeoversAsked,
  measuredIn,
  type PastChangeover,
  pastChangeover,
} from './changeover.ts';
import { type ChangeoverCurves, curvesOf, horizon } from './changeoverCurves.ts';
import type { ChangeoverNumbers } from './changeoverNumbers.ts';
import type { LostCartons, Measured } from './changeoverMeasure.ts';
import { type ChangeoverStrip, stripOf } from './changeoverStrip.ts';

/** One changeover, beside the earlier ones of its kind and pair. */
export interface OpenedChangeover {
  readonly changeover: PastChangeover;
  /** Earlier ones that are compared: the newest of them. */
  readonly earlier: number;
  /** What is usual: the middle one of the earlier ones. Undefined where there are too few of them. */
  readonly usual: UsualChangeover | undefined;
  readonly strip: ChangeoverStrip;
  readonly curves: ChangeoverCurves;
  readonly parts: LostParts | undefined;
  readonly numbers: ChangeoverNumbers;
}

export interface UsualChangeover {
  readonly lasted: Millis;
  readonly untilTrial: Millis;
  readonly trial: Millis | undefined;
  readonly runUp: Millis | undefined;
  readonly shortest: Millis;
  readonly longest: Millis;
  readonly parts: LostParts | undefined;
}

/** Whole cartons lost; the four add up to `all`. */
export interface LostParts {
  readonly all: number;
  readonly stood: number;
  readonly stops: number;
  readonly spoiled: number;
  /** Below zero where it ran faster than its target. */
  readonly slow: number;
}

/** Earlier ones that tell what is usual, and of these so many as curves. */
export const EARLIER_MOST = 20;
const CURVES_MOST = 7;
/** Fewer say nothing of what is usual. */
const USUAL_LEAST = 3;

export function openedChangeover(asked: ChangeoversAsked, record: ChangeoverRecord): OpenedChangeover {
  const records = alikeBefore(asked.alike(record), record).slice(-EARLIER_MOST);
  const lengths = [record, ...records.slice(-CURVES_MOST)].map((one) => measuredIn(asked, one).lasted);
  const until = horizon(Math.max(...lengths) as Span);
  const [own, ...earlier] = [record, ...records].map((one) => measuredIn(asked, one, until));
  const compared = earlier.slice(-CURVES_MOST);
  return {
    changeover: pastChangeover(asked.index, own!),
    earlier: earlier.length,
    usual: earlier.length < USUAL_LEAST ? undefined : usualOf(earlier),
    strip: stripOf(asked, own!),
    curves: curvesOf(asked, own!, compared, until),
    parts: own!.lost && wholeParts(own!.lost),
    numbers: asked.numbers(record, own!.over),
  };
}

function usualOf(earlier: readonly Measured[]): UsualChangeover {
  const lengths = earlier.map(({ lasted }) => lasted);
  const middle = (of: (one: Measured) => Span | undefined) => {
    const value = middleOf(earlier.flatMap((one) => of(one) ?? []));
    return value === undefined ? undefined : millis(value as Span);
  };
  const lost = earlier.flatMap((one) => (one.lost ? [one.lost] : []));
  const part = (key: keyof LostCartons) => Math.round(middleOf(lost.map((one) => one[key])) ?? 0);
  return {
    lasted: middle((one) => one.lasted)!,
    untilTrial: middle((one) => one.untilTrial)!,
    trial: middle((one) => one.trial),
    runUp: middle((one) => one.runUp),
    shortest: millis(Math.min(...lengths) as Span),
    longest: millis(Math.max(...lengths) as Span),
    parts:
      lost.length < USUAL_LEAST
        ? undefined
        : {
            all: part('all'),
            stood: part('stood'),
            stops: part('stops'),
            spoiled: part('spoiled'),
            slow: part('slow'),
          },
  };
}

/** The middle one; of an even number the later of the two in the middle, as the orders on the Line screen have it. */
function middleOf(values: readonly number[]): number | undefined {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

/** Whole cartons of parts: what is largest after the point is rounded up until the whole sum is met. */
export function wholeParts({ all, ...parts }: LostCartons): LostParts {
  const names = ['stood', 'stops', 'spoiled', 'slow'] as const;
  const whole = { ...parts };
  for (const name of names) whole[name] = Math.floor(parts[name]);
  const sum = names.reduce((total, name) => total + whole[name], 0);
  const byRest = [...names].sort((a, b) => parts[b] - whole[b] - (parts[a] - whole[a]));
  for (const name of byRest.slice(0, Math.round(all) - sum)) whole[name] += 1;
  return { all: Math.round(all), ...whole };
}
