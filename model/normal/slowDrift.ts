import { poissonReference } from '../statistics/countCusum.ts';
import { chancesOf } from './chances.ts';
import { type Counted, type Judgement, type StationEvidence, totalOf, type WorseAnswer } from './evidence.ts';
import { type Levels, levelsOf, spreadBy } from './levels.ts';
import { predicted } from './predicted.ts';
import type { KeptLimits } from './keptLimits.ts';
import { type LimitsAsked, type RunningSum, runningSums } from './runningLimits.ts';
import { scatterOf } from './scatter.ts';
import { falseAtALook, SETTINGS } from './settings.ts';
import { pastTooThin, unsaid } from './sinceChangeover.ts';

/**
 * [NW2] Rejects that rise in the course of a run: a running sum of its batches against what its own beginning and earlier runs
 * tell of its level. Undefined where nothing is charged to the station.
 */
export function driftOfRun(
  { station, earlier, looks }: StationEvidence,
  kept: KeptLimits,
): Judgement | undefined {
  const now = looks.flatMap(({ rejects }) => (rejects ? [rejects] : []));
  const past = earlier.flatMap(({ rejects }) => (rejects ? [rejects] : []));
  const first = looks[0];
  if (!first || now.length < looks.length || past.length < earlier.length) return undefined;
  const learning = batchesLearned(now);
  const after = now.slice(learning);
  const { count: seen, of } = totalOf(after);
  const since = (looks[learning] ?? looks.at(-1)!).from;
  const tooThin = pastTooThin(past) ?? runTooThin(now, after);
  const said = { rule: 'drift' as const, station, since, seen, of, tooThin };
  if (tooThin) return unsaid(said, now.length);
  const { uneven, spread } = scatterOf(earlier);
  const basis = { past, begun: totalOf(now.slice(0, learning)), uneven, spread };
  const spent = after.map((look, place) => ({
    of: look.of,
    wanted: falseAtALook(looks[learning + place]!),
  }));
  const {
    asked: { levels, ...sum },
    limits,
  } = kept.of('drift', JSON.stringify(basis), () => driftAsked(basis), spent);
  const sums = runningSums(after, sum);
  const rising = 1 + sums.lastIndexOf(0);
  const risen = totalOf(after.slice(rising));
  // while nothing rises, all that came after the beginning is told
  const shown =
    risen.of > 0 ? { since: looks[learning + rising]!.from, seen: risen.count, of: risen.of } : {};
  const usual = predicted(levels, { of: risen.of > 0 ? risen.of : of, uneven, share: SETTINGS.usual });
  const outside = [
    ...now.slice(0, learning).map(() => false),
    ...sums.map((value, look) => value >= limits[look]!),
  ];
  const seenFrom = seenFromOf(levels.mean, sum, after, limits.at(-1)!);
  return {
    answer: { ...said, ...shown, ...usual, most: undefined, seenFrom, outside: outside.at(-1)! },
    outside,
  };
}

interface Basis {
  readonly past: readonly Counted[];
  readonly begun: Counted;
  readonly uneven: number;
  readonly spread: number;
}

function driftAsked({ past, begun, uneven, spread }: Basis): LimitsAsked {
  const own = levelsOf(past.slice(-SETTINGS.runsMost), 'rejects');
  const levels = learnedLevels(own, begun, uneven, spread);
  return { levels, uneven, ...driftSum(levels.mean) };
}

/** A rise to so many times the usual, all through what came after the beginning, would be outside by now. */
function seenFromOf(mean: number, sum: RunningSum, after: readonly Counted[], limit: number): number {
  const taken = after.reduce((total, { of }) => total + sum.reference(of), 0);
  return (limit + taken) / (sum.parts * mean * totalOf(after).of);
}

/** How many batches tell the level that the run began with. */
function batchesLearned(batches: readonly Counted[]): number {
  let cartons = 0;
  const last = batches.findIndex(({ of }) => {
    cartons += of;
    return cartons >= SETTINGS.learned;
  });
  return last < 0 ? batches.length : last + 1;
}

function runTooThin(now: readonly Counted[], after: readonly Counted[]): WorseAnswer['tooThin'] {
  if (after.length > 0) return undefined;
  return { kind: 'run', cartons: totalOf(now).of, needed: SETTINGS.learned + SETTINGS.batch };
}

/** Takes off what lies between the usual and the drift that is looked for, so that it rises only beyond that. */
function driftSum(mean: number) {
  const { parts, drifted } = SETTINGS;
  const perCarton = poissonReference(mean, drifted * mean);
  return { parts, reference: (cartons: number) => Math.round(parts * perCarton * cartons) };
}

/** Levels after a run's beginning: made likelier or less by what it brought, then spread by how far runs wander in order. */
export function learnedLevels(levels: Levels, begun: Counted, uneven: number, spread: number): Levels {
  const seen = levels.chances.map((chance, place) => {
    const rate = levels.rates[place]!;
    return chance * (chancesOf(rate * begun.of, uneven * (1 - rate))[begun.count] ?? 0);
  });
  // a beginning that no level explains says nothing of it
  const likely = seen.some((chance) => chance > 0) ? seen : levels.chances;
  return spreadBy({ ...levels, chances: likely }, spread);
}
