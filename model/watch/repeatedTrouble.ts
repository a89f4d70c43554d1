import { logBeta } from '../statistics/logGamma.ts';
import type { RejectsBy } from './repeated.ts';
import type { Level, UsualStops } from './repeatedUsual.ts';

/** One kind of trouble that a station may have, and how likely it is thought among all of them. */
export interface TroubleKind {
  /** So many times as many stops. */
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

export const KINDS: readonly TroubleKind[] = [
  ...TIMES.flatMap(([times, chance]) =>
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
  { times: 1, rejects: false, hard: true, chance: HARDER_ONLY },
];

/** Beyond this a logarithm is as good as certain, and three of them together are still a number. */
const LOG_MOST = 200;

const likelier = (log: number) => Math.exp(Math.min(LOG_MOST, log));

/** How much likelier so many among so many cartons are if the rate is so many times as high. */
export function moreRatio({ shape, cartons }: Level, count: number, of: number, times: number): number {
  const log = count * Math.log(times) - (shape + count) * Math.log((cartons + times * of) / (cartons + of));
  return likelier(log);
}

/** The same of rejects in a part of the run, after those before it; 1 where none are looked at. */
export function rejectsRatio(
  usual: Level | undefined,
  by: readonly RejectsBy[] | undefined,
  part: { readonly begun: number; readonly from: number; readonly to: number; readonly times: number },
): number {
  if (!usual || !by || by.length === 0) return 1;
  const [begun, before, now] = [part.begun, part.from, part.to].map((at) => rejectsAt(by, at)) as [
    number,
    number,
    number,
  ];
  const count = usual.shape + (before - begun) / UNEVEN;
  const cartons = usual.cartons + (part.from - part.begun) / UNEVEN;
  const shape = 1 / (1 / count + WANDER ** 2);
  const wide = { shape, cartons: (shape * cartons) / count };
  return moreRatio(wide, (now - before) / UNEVEN, (part.to - part.from) / UNEVEN, part.times);
}

/** Rejects by so many cartons: between two points as many as their distance tells, and none before the first carton. */
export function rejectsAt(by: readonly RejectsBy[], cartons: number): number {
  let [low, high] = [0, by.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (by[middle]!.cartons >= cartons) high = middle;
    else low = middle + 1;
  }
  const next = by[low];
  if (!next) return by.at(-1)?.rejects ?? 0;
  const last = by[low - 1] ?? { cartons: 0, rejects: 0 };
  const share = next.cartons > last.cartons ? (cartons - last.cartons) / (next.cartons - last.cartons) : 1;
  return last.rejects + share * (next.rejects - last.rejects);
}

/** How much likelier so many tries that went wrong again, and so many that did not, are where jams are hard to clear. */
export function hardRatio({ yes, no }: UsualStops['again'], again: number, cleared: number): number {
  const hard = logBeta(HARD.yes + again, HARD.no + cleared) - logBeta(HARD.yes, HARD.no);
  return likelier(hard - logBeta(yes + again, no + cleared) + logBeta(yes, no));
}
