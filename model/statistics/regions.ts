import { severity } from '../status/status.ts';
import type { Instant, Span } from '../units/units.ts';

/** What was told of a signal: it holds until the next one. */
export interface Sample<Value> {
  readonly at: Instant;
  readonly value: Value;
  readonly status: number;
}

/** The interval asked about, [from, to), and until when the signal was heard at all: nothing is known from then on. */
export interface Window {
  readonly from: Instant;
  readonly to: Instant;
  readonly knownUntil: Instant;
}

/** A part of an interval in which one sample holds. Undefined where none was told yet. */
export interface Region<Value> {
  readonly from: Instant;
  readonly to: Instant;
  readonly sample: Sample<Value> | undefined;
  readonly next: Sample<Value> | undefined;
}

/**
 * An interval divided at its samples, as OPC 10000-13, 5.4.3.2.1 does it: the first region has the last sample at or before
 * its start. Samples are in rising order of time; of several at one moment the last holds. Ends where knowledge ends.
 */
export function regionsOf<Value>(samples: readonly Sample<Value>[], window: Window): Region<Value>[] {
  const end = Math.min(window.to, window.knownUntil) as Instant;
  const regions: Region<Value>[] = [];
  let place = lastAtOrBefore(samples, window.from);
  let from = window.from;
  while (from < end) {
    const next = samples[place + 1];
    const to = next && next.at < end ? next.at : end;
    if (to > from) regions.push({ from, to, sample: samples[place], next });
    from = to;
    place += 1;
  }
  return regions;
}

/** −1 where there is none. */
function lastAtOrBefore<Value>(samples: readonly Sample<Value>[], at: Instant): number {
  let [low, high] = [0, samples.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (samples[middle]!.at <= at) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** Whether a value counts. The standard's default takes uncertain ones for bad. */
export function usable({ status }: { readonly status: number }, uncertainIsBad: boolean): boolean {
  const grade = severity(status);
  return grade === 'good' || (grade === 'uncertain' && !uncertainIsBad);
}

/** How large a share of an interval has to be bad, or good, for the whole to be called so. 1 and 1 unless a server says other. */
export interface QualityShares {
  readonly bad: number;
  readonly good: number;
}

/**
 * The quality of a figure by time: good where nothing is bad, bad or good where that share is reached, uncertain between. Where
 * the shares leave no room between them, the good one decides (OPC 10000-13, 5.4.3.2.1, with the correction of 2021 for 1.05).
 */
export function qualityByTime(
  usableTime: Span,
  badTime: Span,
  shares: QualityShares = { bad: 1, good: 1 },
): 'good' | 'uncertain' | 'bad' {
  const all = usableTime + badTime;
  if (usableTime <= 0) return 'bad';
  if (badTime <= 0) return 'good';
  if (shares.good !== 1 - shares.bad && badTime / all >= shares.bad) return 'bad';
  return usableTime / all >= shares.good ? 'good' : 'uncertain';
}
