import { describe, expect, it } from 'vitest';
import { unevenness } from '../../model/normal/scatter.ts';
import { chiSquareAbove } from '../../model/statistics/chiSquare.ts';
import { fisherExact } from '../../model/statistics/twoProportions.ts';
import { fastRuns } from '../../simulator/fast/fast.ts';
import type { FastRun, FastStop } from '../../simulator/fast/line.ts';
import { SHIFT_SECONDS } from '../../simulator/fast/options.ts';
import { type BatchedRun, batched } from '../proof/fastEvidence.ts';
import { fullRuns } from './fullRuns.ts';

/*
 * Equal in distribution: 72 shifts of the full simulator beside 1,000 of the fast one, both with guides that work loose. Seeds
 * are fixed, so each test gives the same chance every time; it fails where that is below 1 in 1,000.
 */
const LEVEL = 0.001;
const full = Array.from({ length: 6 }, (_, place) => fullRuns(301 + place, 8 * 12).map(told)).flat();
const fast = Array.from({ length: 10 }, (_, place) => fastFor(401 + place, 100).map(told)).flat();
const judged = ['pick', 'bottom-major', 'loading', 'top-major', 'tuck-cam', 'discharge'];

function fastFor(seed: number, shifts: number): FastRun[] {
  const runs: FastRun[] = [];
  for (const run of fastRuns({ seed, levels: { kind: 'machine', loose: true } })) {
    if (run.to > shifts * SHIFT_SECONDS) break;
    runs.push(run);
  }
  return runs;
}

/** Two-sided chance of samples so unlike, or unliker, if both came of one distribution (Kolmogorov and Smirnov, asymptotic). */
function smirnov(first: readonly number[], second: readonly number[]): number {
  const [a, b] = [[...first].sort((x, y) => x - y), [...second].sort((x, y) => x - y)];
  let [apart, i, j] = [0, 0, 0];
  while (i < a.length && j < b.length) {
    const value = Math.min(a[i]!, b[j]!);
    while (i < a.length && a[i]! <= value) i += 1;
    while (j < b.length && b[j]! <= value) j += 1;
    apart = Math.max(apart, Math.abs(i / a.length - j / b.length));
  }
  const root = Math.sqrt((a.length * b.length) / (a.length + b.length));
  const lambda = (root + 0.12 + 0.11 / root) * apart;
  let chance = 0;
  for (let k = 1; k < 100; k += 1) chance += 2 * (-1) ** (k - 1) * Math.exp(-2 * (k * lambda) ** 2);
  return lambda < 0.2 ? 1 : Math.min(1, Math.max(0, chance));
}

interface Told extends BatchedRun {
  readonly run: FastRun;
}
function told(run: FastRun): Told {
  return { ...batched(run), run };
}

const cartonsOf = (run: BatchedRun) => run.all.stops.get('pick')!.of;
const long = (runs: readonly BatchedRun[]) => runs.filter((run) => cartonsOf(run) >= 3000);
const ratesAt = (runs: readonly BatchedRun[], station: string) =>
  long(runs).map(({ all }) => {
    const { count, of } = all.rejects.get(station)!;
    return (1000 * count) / of;
  });
const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0);
const mean = (numbers: readonly number[]) => sum(numbers) / numbers.length;
const variance = (numbers: readonly number[]) => {
  const middle = mean(numbers);
  return sum(numbers.map((one) => (one - middle) ** 2)) / (numbers.length - 1);
};
const stopsOf = (runs: readonly Told[]) => runs.flatMap(({ run }) => run.stops);
const lasted = (runs: readonly Told[], belongs: (stop: FastStop) => boolean) =>
  stopsOf(runs)
    .filter(belongs)
    .map(({ begin, end }) => end - begin);

describe('the fast simulator beside the full one', () => {
  it('has as many rejects in 1,000 from run to run, at every station that is judged', () => {
    expect(full.length).toBeGreaterThan(50);
    for (const station of judged) {
      const [ours, theirs] = [ratesAt(fast, station), ratesAt(full, station)];
      expect(smirnov(ours, theirs), station).toBeGreaterThan(LEVEL);
      const error = Math.sqrt(variance(ours) / ours.length + variance(theirs) / theirs.length);
      expect(Math.abs(mean(ours) - mean(theirs)), station).toBeLessThan(3.3 * error);
    }
  });

  it('has levels that differ as much from run to run, beyond what chance alone makes of them', () => {
    for (const station of judged) {
      const spread = (runs: readonly BatchedRun[]) => {
        const rates = ratesAt(runs, station);
        const chance = mean(rates) * mean(long(runs).map((run) => 1000 / cartonsOf(run)));
        return Math.sqrt(Math.max(0, variance(rates) - chance)) / mean(rates);
      };
      // of some sixty runs a spread is known to about a quarter of itself, one of none to a tenth or so
      expect(Math.abs(spread(fast) - spread(full)), station).toBeLessThan(0.15 + 0.4 * spread(fast));
    }
  });

  it('is as uneven within a run, from batch to batch and from half to half', () => {
    for (const station of judged) {
      const uneven = (runs: readonly BatchedRun[]) =>
        long(runs).map(({ batches }) => unevenness([batches.map(({ rejects }) => rejects.get(station)!)]));
      const halves = (runs: readonly BatchedRun[]) =>
        long(runs).map((run) => {
          const [first, second] = run.halves.map(({ rejects }) => rejects.get(station)!);
          return Math.log(((second!.count + 0.5) * first!.of) / ((first!.count + 0.5) * second!.of));
        });
      expect(smirnov(uneven(fast), uneven(full)), station).toBeGreaterThan(LEVEL);
      expect(smirnov(halves(fast), halves(full)), station).toBeGreaterThan(LEVEL);
    }
  });

  it('stops as often for as many cartons at every station and from every cause', () => {
    const name = ({ station, kind }: FastStop) => `${station ?? 'none'} ${kind}`;
    const first = (runs: readonly Told[]) => stopsOf(runs).filter(({ attempt }) => attempt === 1);
    const names = [...new Set(first(fast).map(name))].filter((one) => !one.endsWith('changeover'));
    const share = sum(full.map(cartonsOf)) / sum(fast.map(cartonsOf));
    let [square, degrees] = [0, 0];
    for (const one of names) {
      const theirs = first(full).filter((stop) => name(stop) === one).length;
      const expected = share * first(fast).filter((stop) => name(stop) === one).length;
      if (expected < 3) continue;
      // stops of one run have its level in common: at stations that fold, counts vary about twice as much as by chance
      square += (theirs - expected) ** 2 / (expected * (one.endsWith('machine') ? 2 : 1));
      degrees += 1;
    }
    expect(degrees).toBeGreaterThan(12);
    expect(chiSquareAbove(square, degrees)).toBeGreaterThan(LEVEL);
  });

  it('has the same share of jams that are jams again', () => {
    const counted = (runs: readonly Told[]) => {
      const jams = stopsOf(runs).filter(({ kind }) => kind === 'machine');
      return { count: jams.filter(({ attempt }) => attempt > 1).length, trials: jams.length };
    };
    expect(counted(full).count).toBeGreaterThan(30);
    expect(fisherExact(counted(full), counted(fast))).toBeGreaterThan(LEVEL);
  });

  it.each([
    ['a jam', ({ kind, attempt }: FastStop) => kind === 'machine' && attempt === 1],
    ['a jam again', ({ kind, attempt }: FastStop) => kind === 'machine' && attempt > 1],
    ['starved', ({ kind }: FastStop) => kind === 'starved'],
    ['blocked', ({ kind }: FastStop) => kind === 'blocked'],
    ['stopped by people', ({ kind }: FastStop) => kind === 'operator'],
    ['a stop device or a guard', ({ kind }: FastStop) => kind === 'safety'],
    ['a break', ({ kind }: FastStop) => kind === 'pause'],
  ] as const)('stands as long: %s', (_name, belongs) => {
    expect(smirnov(lasted(fast, belongs), lasted(full, belongs))).toBeGreaterThan(LEVEL);
  });

  it('has runs of as many cartons that last as long, and brings as many cartons a minute', () => {
    expect(smirnov(fast.map(cartonsOf), full.map(cartonsOf))).toBeGreaterThan(LEVEL);
    expect(
      smirnov(
        fast.map(({ from, to }) => to - from),
        full.map(({ from, to }) => to - from),
      ),
    ).toBeGreaterThan(LEVEL);
    const perMinute = (runs: readonly Told[]) =>
      sum(runs.map(cartonsOf)) / sum(runs.map(({ run }) => run.minutes.length));
    expect(Math.abs(perMinute(fast) / perMinute(full) - 1)).toBeLessThan(0.02);
  });

  it('gives the same runs for the same options, and others for another seed', () => {
    expect(fastFor(7, 6)).toEqual(fastFor(7, 6));
    expect(fastFor(7, 6)).not.toEqual(fastFor(8, 6));
  });
});
