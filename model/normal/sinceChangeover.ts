import type { Instant } from '../units/units.ts';
import {
  type Counted,
  type Judgement,
  type Rule,
  type StationEvidence,
  type TooThin,
  totalOf,
  type WorseAnswer,
} from './evidence.ts';
import { type Kind, levelsOf, spreadBy } from './levels.ts';
import { predicted } from './predicted.ts';
import { runningLimits, runningSums } from './runningLimits.ts';
import { unevenness, wander } from './scatter.ts';
import { FALSE_AT_A_LOOK, SETTINGS } from './settings.ts';

/** [NW1] Rejects since the changeover against earlier runs of the size. Undefined where nothing is charged to the station. */
export function rejectsOfRun({ station, earlier, looks }: StationEvidence): Judgement | undefined {
  const now = looks.flatMap(({ rejects }) => (rejects ? [rejects] : []));
  const past = earlier.flatMap(({ rejects }) => (rejects ? [rejects] : []));
  if (now.length < looks.length || past.length < earlier.length) return undefined;
  const uneven = unevenness(earlier.map(({ batches }) => batches));
  const halves = earlier.flatMap((run) => (run.halves ? [run.halves] : []));
  return answerOf({
    rule: 'run',
    kind: 'rejects',
    station,
    since: looks[0]?.from,
    now,
    past,
    uneven,
    // a run's first cartons may be farther from its own past than all of it
    spread: wander(halves, uneven),
  });
}

/** [NW3] Stops since the changeover for as many cartons as were made, against earlier runs of the size. */
export function stopsOfRun({ station, earlier, looks }: StationEvidence): Judgement | undefined {
  return answerOf({
    rule: 'stops',
    kind: 'stops',
    station,
    since: looks[0]?.from,
    now: looks.map(({ stops }) => stops),
    past: earlier.map(({ stops }) => stops),
    uneven: 1,
    spread: 0,
  });
}

interface Asked {
  readonly rule: Rule;
  readonly kind: Kind;
  readonly station: string;
  readonly since: Instant | undefined;
  readonly now: readonly Counted[];
  readonly past: readonly Counted[];
  readonly uneven: number;
  readonly spread: number;
}

function answerOf(asked: Asked): Judgement | undefined {
  const { rule, station, since, now, past, uneven } = asked;
  if (since === undefined) return undefined;
  const { count: seen, of } = totalOf(now);
  const tooThin = pastTooThin(past);
  const said = { rule, station, since, seen, of, tooThin };
  if (tooThin) return unsaid(said, now.length);
  const own = levelsOf(past.slice(-SETTINGS.runsMost), asked.kind);
  const levels = asked.spread > 0 ? spreadBy(own, asked.spread) : own;
  const sum = { parts: 1, reference: () => 0 };
  const limits = runningLimits(
    { levels, uneven, wanted: FALSE_AT_A_LOOK, ...sum },
    now.map((look) => look.of),
  );
  const outside = runningSums(now, sum).map((value, look) => value >= limits[look]!);
  const usual = predicted(levels, { of, uneven, share: SETTINGS.usual });
  return {
    answer: { ...said, ...usual, most: limits.at(-1)! - 1, outside: outside.at(-1)! },
    outside,
  };
}

/** Too few to say: nothing is expected, and nothing is outside. */
export function unsaid(
  said: Pick<WorseAnswer, 'rule' | 'station' | 'since' | 'seen' | 'of' | 'tooThin'>,
  looks: number,
): Judgement {
  const nothing = { expected: undefined, interval: undefined, most: undefined, outside: false };
  return { answer: { ...said, ...nothing }, outside: Array.from({ length: looks }, () => false) };
}

/** [NW4] Whether too little of a past is there to say what is normal. */
export function pastTooThin(past: readonly Counted[]): TooThin | undefined {
  const runs = past.filter(({ of }) => of > 0).length;
  const cartons = totalOf(past).of;
  return runs >= SETTINGS.earlierRuns && cartons >= SETTINGS.earlierCartons
    ? undefined
    : { kind: 'past', runs, cartons };
}
