import { logBeta } from '../statistics/logGamma.ts';
import type { RejectsBy } from './repeated.ts';
import type { Level, UsualStops } from './repeatedUsual.ts';

/** One kind of trouble that a station may have, and how likely it is thought among all of them. */
export interface TroubleKind {
  /** So many times as many stops: which of `TIMES_AS_MANY`. */
  readonly times: number;
  /** As many times as many rejects. */
  readonly rejects: boolean;
  /** Jams are harder to clear. */
  readonly hard: boolean;
  readonly chance: number;
}

/** Trouble makes so many times as many stops, with these chances (chosen; twice as many or half as many tell hardly differently). */
const TIMES = [
  [2, 0.2],
  [4, 0.3],
  [8, 0.25],
  [16, 0.15],
  [48, 0.1],
] as const;
/** Half of troubles make more rejects too; a quarter make jams harder to clear; a tenth do only that. */
const REJECTS_TOO = 0.5;
const HARDER_TOO = 0.25;
const HARDER_ONLY = 0.1;
/** Where jams are hard to clear any share of tries goes wrong again, about a half most likely. */
const HARD = { yes: 2, no: 2 };
/** Rejects of a part of a run in order are so far from its level, and vary so many times as much as by chance. */
const WANDER = 0.2;
const UNEVEN = 1.3;

export const TIMES_AS_MANY: readonly number[] = [...TIMES.map(([times]) => times), 1];

export const KINDS: readonly TroubleKind[] = [
  ...TIMES.flatMap(([, chance], times) =>
    [false, true].flatMap((rejects) =>
      [false, true].map((hard) => ({
        ...{ times, rejects, hard },
        chance:
          (1 - HARDER_ONLY) *
          chance *
          (rejects ? REJECTS_TOO : 1 - REJECTS_TOO) *
          (hard ? HARDER_TOO : 1 - HARDER_TOO),
      })),
    ),
  ),
  { times: TIMES.length, rejects: false, hard: true, chance: HARDER_ONLY },
];

/** Beyond this a logarithm is as good as certain, and three of them together are still a number. */
const LOG_MOST = 200;

const likelier = (log: number) => Math.exp(Math.min(LOG_MOST, log));

const LOGS = TIMES_AS_MANY.map((times) => Math.log(times));

/** How much likelier so many among so many cartons are if the rate is so many times as high: which of `TIMES_AS_MANY`. */
export function moreRatio({ shape, cartons }: Level, count: number, of: number, times: number): number {
  const log =
    count * LOGS[times]! -
    (shape + count) * Math.log((cartons + TIMES_AS_MANY[times]! * of) / (cartons + of));
  return likelier(log);
}

/** Rejects of a part of the run, and how they are thought to come in it after those before it. */
export interface RejectsSeen {
  readonly level: Level;
  readonly count: number;
  readonly of: number;
}

/** By where in the run the part begins, in cartons; undefined where no rejects are looked at. */
export function rejectsFrom(
  usual: Level | undefined,
  by: readonly RejectsBy[] | undefined,
  part: { readonly begun: number; readonly to: number },
): ((from: number) => RejectsSeen) | undefined {
  if (!usual || !by || by.length === 0) return undefined;
  const [begun, now] = [rejectsAt(by, part.begun), rejectsAt(by, part.to)];
  return (from) => {
    const before = rejectsAt(by, from);
    const count = usual.shape + (before - begun) / UNEVEN;
    const cartons = usual.cartons + (from - part.begun) / UNEVEN;
    const shape = 1 / (1 / count + WANDER ** 2);
    return {
      level: { shape, cartons: (shape * cartons) / count },
      count: (now - before) / UNEVEN,
      of: (part.to - from) / UNEVEN,
    };
  };
}

/** Rejects by so many cartons: between two points as many as their distance tells, and none before the first carton. */
export function rejectsAt(by: readonly RejectsBy[], cartons: number): number {
  const place = firstFrom(by, cartons);
  const next = by[place];
  if (!next) return by.at(-1)?.rejects ?? 0;
  const last = by[place - 1] ?? { cartons: 0, rejects: 0 };
  const share = next.cartons > last.cartons ? (cartons - last.cartons) / (next.cartons - last.cartons) : 1;
  return last.rejects + share * (next.rejects - last.rejects);
}

/** The place of the first point at so many cartons or later; as many as there are where none is. */
export function firstFrom(by: readonly RejectsBy[], cartons: number): number {
  let [low, high] = [0, by.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (by[middle]!.cartons >= cartons) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** How much likelier so many tries that went wrong again, and so many that did not, are where jams are hard to clear. */
export function hardRatio({ yes, no }: UsualStops['again'], again: number, cleared: number): number {
  const hard = logBeta(HARD.yes + again, HARD.no + cleared) - logBeta(HARD.yes, HARD.no);
  return likelier(hard - logBeta(yes + again, no + cleared) + logBeta(yes, no));
}
