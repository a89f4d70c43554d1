import { severity } from '../status/status.ts';
import type { Instant, Span } from '../units/units.ts';
import {
  qualityByTime,
  type QualityShares,
  type Region,
  regionsOf,
  type Sample,
  usable,
  type Window,
} from './regions.ts';

export interface TimeAverage {
  readonly mean: number;
  readonly quality: 'good' | 'uncertain' | 'bad';
}

export interface AverageOptions {
  /** Whether the signal moves evenly from one value to the next, or holds each until the next. */
  readonly sloped: boolean;
  /** The standard's default: uncertain values count as bad. */
  readonly uncertainIsBad?: boolean;
  readonly shares?: QualityShares;
}

/**
 * Mean of a signal over the time it is known, as the aggregate TimeAverage2 (OPC 10000-13, 5.4.3.7): time with an unusable value
 * is left out and nothing is made up for it, so it suits reports. Before an unusable value the last one is held. Undefined where
 * no time is left.
 */
export function timeAverage(
  samples: readonly Sample<number>[],
  window: Window,
  { sloped, uncertainIsBad = true, shares }: AverageOptions,
): TimeAverage | undefined {
  const regions = regionsOf(samples, window);
  const counted = regions.filter(({ sample }) => sample && usable(sample, uncertainIsBad));
  const time = lengthOf(counted);
  if (time <= 0) return undefined;
  const area = counted.reduce(
    (sum, region) =>
      sum + areaOf(region, sloped && region.next !== undefined && usable(region.next, uncertainIsBad)),
    0,
  );
  return {
    mean: area / time,
    quality: qualityByTime(time, (lengthOf(regions) - time) as Span, shares),
  };
}

/**
 * The same with what is missing drawn through, as the aggregate TimeAverage (OPC 10000-13, 5.4.3.6): straight from the last usable
 * value to the next, and the last of all held on. It suits the line of a trend and says nothing of what was; where anything was
 * drawn through or is uncertain, so is the mean. Undefined before the first usable value.
 */
export function timeAverageBridged(
  samples: readonly Sample<number>[],
  window: Window,
  { sloped, uncertainIsBad = true }: AverageOptions,
): TimeAverage | undefined {
  const kept = samples.filter((sample) => usable(sample, uncertainIsBad));
  const regions = regionsOf(kept, { ...window, knownUntil: window.to });
  const counted = regions.filter(({ sample }) => sample);
  const time = lengthOf(counted);
  if (time <= 0) return undefined;
  const area = counted.reduce((sum, region) => sum + areaOf(region, sloped && region.next !== undefined), 0);
  const whole = counted.every((region) => drawnFromGood(region, samples, sloped, window.knownUntil));
  return { mean: area / time, quality: whole ? 'good' : 'uncertain' };
}

function drawnFromGood(
  { sample, next, to }: Region<number>,
  samples: readonly Sample<number>[],
  sloped: boolean,
  knownUntil: Instant,
): boolean {
  const ends = sloped && next ? [sample!, next] : [sample!];
  if (ends.some(({ status }) => severity(status) !== 'good') || to > knownUntil) return false;
  const until = sloped && next ? next.at : to;
  return !samples.some(({ at, status }) => sample!.at < at && at < until && severity(status) !== 'good');
}

function areaOf({ from, to, sample, next }: Region<number>, toNext: boolean): number {
  const valueAt = (at: Instant) =>
    toNext
      ? sample!.value + ((next!.value - sample!.value) * (at - sample!.at)) / (next!.at - sample!.at)
      : sample!.value;
  return ((valueAt(from) + valueAt(to)) / 2) * (to - from);
}

function lengthOf(regions: readonly Region<number>[]): Span {
  return regions.reduce((sum, { from, to }) => sum + to - from, 0) as Span;
}
