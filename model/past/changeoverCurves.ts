import {
  type EpochMs,
  epochMs,
  type Instant,
  type Millis,
  MINUTE,
  millis,
  minutes,
  type Span,
} from '../units/units.ts';
import { type ChangeoversAsked, reachOf } from './changeover.ts';
import { goodBetween, type Measured } from './changeoverMeasure.ts';
import { afterWithout, lengthWithout } from './stretches.ts';

/** Good cartons since each began, without idle time: this one and the earlier ones, the oldest first. */
export interface ChangeoverCurves {
  readonly until: Millis;
  readonly goodMax: number;
  readonly target: number;
  readonly curves: readonly ChangeoverCurve[];
}

export interface ChangeoverCurve {
  readonly id: string;
  readonly at: EpochMs;
  readonly lasted: Millis;
  readonly opened: boolean;
  /** Cartons are undefined where nobody looked: the curve ends there, and is not joined. */
  readonly points: readonly { readonly after: Millis; readonly good: number | undefined }[];
  readonly atRate: { readonly after: Millis; readonly good: number } | undefined;
}

/** Points of a curve: each a fortieth of its length apart. */
const POINTS = 41;
const [SHORTEST, LONGEST, TENS] = [minutes(20), minutes(180), minutes(10)];
export function curvesOf(
  asked: ChangeoversAsked,
  own: Measured,
  earlier: readonly Measured[],
  until: Span,
): ChangeoverCurves {
  const curves = [...earlier.map((one) => earlierCurve(asked, one, until)), curveOf(asked, own, until, true)];
  const most = curves.flatMap(({ points }) => points.map(({ good }) => good ?? 0));
  return {
    until: millis(until),
    goodMax: Math.max(1, (own.target.perMinute * until) / MINUTE, ...most),
    target: own.target.perMinute,
    curves,
  };
}

/** One that is whole is drawn once, until what it was measured by changes. */
function earlierCurve(asked: ChangeoversAsked, measured: Measured, until: Span): ChangeoverCurve {
  const { record, over, idle } = measured;
  const make = () => curveOf(asked, measured, until, false);
  const whole = afterWithout(record.begin, until, idle) <= asked.now;
  return whole ? asked.remember(`curve ${record.begin} ${until}`, reachOf(over, until), make) : make();
}

function curveOf(
  { index, now }: ChangeoversAsked,
  measured: Measured,
  until: Span,
  opened: boolean,
): ChangeoverCurve {
  const { record, idle, unseen } = measured;
  const goodAt = (at: Instant) =>
    unseen.some(({ from, to }) => at > from && at < to)
      ? undefined
      : goodBetween(index, measured, record.begin, at);
  const points = Array.from({ length: POINTS }, (_, n) => {
    const after = ((until * n) / (POINTS - 1)) as Span;
    return { after, at: afterWithout(record.begin, after, idle) };
  }).filter(({ at }) => at <= now);
  const good = record.atRate === null ? undefined : goodAt(record.atRate);
  return {
    id: String(epochMs(record.begin)),
    at: epochMs(record.begin),
    lasted: millis(measured.lasted),
    opened,
    points: points.map(({ after, at }) => ({ after: millis(after), good: goodAt(at) })),
    atRate:
      record.atRate === null || good === undefined
        ? undefined
        : { after: millis(lengthWithout({ from: record.begin, to: record.atRate }, idle)), good },
  };
}

/** Up to when curves are drawn: a fifth longer than the longest, in tens of minutes, within bounds. */
export function horizon(longest: Span): Span {
  const tens = (Math.ceil((longest * 1.2) / TENS) * TENS) as Span;
  return Math.min(LONGEST, Math.max(SHORTEST, tens)) as Span;
}
