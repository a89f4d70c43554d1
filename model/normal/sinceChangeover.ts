import {
  type Counted,
  type Judgement,
  type Look,
  type Rule,
  type StationEvidence,
  type TooThin,
  totalOf,
  type WorseAnswer,
} from './evidence.ts';
import { type Kind, levelsOf, spreadBy } from './levels.ts';
import { predicted } from './predicted.ts';
import type { KeptLimits } from './keptLimits.ts';
import { runningSums } from './runningLimits.ts';
import { scatterOf } from './scatter.ts';
import { falseAtALook, SETTINGS } from './settings.ts';

/** [NW1] Rejects since the changeover against earlier runs of the size. Undefined where nothing is charged to the station. */
export function rejectsOfRun(
  { station, earlier, looks }: StationEvidence,
  kept: KeptLimits,
): Judgement | undefined {
  const now = looks.flatMap(({ rejects }) => (rejects ? [rejects] : []));
  const past = earlier.flatMap(({ rejects }) => (rejects ? [rejects] : []));
  if (now.length < looks.length || past.length < earlier.length) return undefined;
  return answerOf({
    rule: 'run',
    kind: 'rejects',
    station,
    looks,
    kept,
    now,
    past,
    // a run's first cartons may be farther from its own past than all of it
    ...scatterOf(earlier),
  });
}

/** [NW3] Stops since the changeover for as many cartons as were made, against earlier runs of the size. */
export function stopsOfRun(
  { station, earlier, looks }: StationEvidence,
  kept: KeptLimits,
): Judgement | undefined {
  return answerOf({
    rule: 'stops',
    kind: 'stops',
    station,
    looks,
    kept,
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
  readonly looks: readonly Look[];
  readonly kept: KeptLimits;
  readonly now: readonly Counted[];
  readonly past: readonly Counted[];
  readonly uneven: number;
  readonly spread: number;
}

function answerOf(asked: Asked): Judgement | undefined {
  const { rule, station, looks, now, past, uneven } = asked;
  const since = looks[0]?.from;
  if (since === undefined) return undefined;
  const { count: seen, of } = totalOf(now);
  const tooThin = pastTooThin(past);
  const said = { rule, station, since, seen, of, tooThin };
  if (tooThin) return unsaid(said, now.length);
  const {
    asked: { levels },
    limits,
  } = limitsOf(asked);
  const outside = runningSums(now, adding).map((value, look) => value >= limits[look]!);
  const usual = predicted(levels, { of, uneven, share: SETTINGS.usual });
  const least = limits.at(-1)!;
  return {
    answer: {
      ...said,
      ...usual,
      most: least - 1,
      seenFrom: least / usual.expected,
      outside: outside.at(-1)!,
    },
    outside,
  };
}

const adding = { parts: 1, reference: () => 0 };

function limitsOf({ rule, kind, looks, kept, now, past, uneven, spread }: Asked) {
  const begin = () => {
    const own = levelsOf(past.slice(-SETTINGS.runsMost), kind);
    return { levels: spread > 0 ? spreadBy(own, spread) : own, uneven, ...adding };
  };
  const spent = now.map(({ of }, place) => ({ of, wanted: falseAtALook(looks[place]!) }));
  return kept.of(rule, JSON.stringify([past, uneven, spread]), begin, spent);
}

/** Too few to say: nothing is expected, and nothing is outside. */
export function unsaid(
  said: Pick<WorseAnswer, 'rule' | 'station' | 'since' | 'seen' | 'of' | 'tooThin'>,
  looks: number,
): Judgement {
  const nothing = {
    expected: undefined,
    interval: undefined,
    most: undefined,
    seenFrom: undefined,
    outside: false,
  };
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
