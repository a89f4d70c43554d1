import type { RecentStop, RejectsBy, RunSoFar } from '../../../model/watch/repeated.ts';
import type { Beginning, Evidence, RunSeen } from '../../../model/watch/repeatedEvidence.ts';
import type { RunPart } from '../../../model/watch/repeatedPart.ts';
import { hardRatio, rejectsAt, type TroubleKind } from '../../../model/watch/repeatedTrouble.ts';
import type { Level, UsualStops } from '../../../model/watch/repeatedUsual.ts';

/** The rule worked out as it is written, each time anew and from the run's beginning: what the quick way has to come to, to the last digit. */
const QUIET = 1 / 20;
const TROUBLE_LEAST = 4;
const TIMES_FIRST = 8;
const STOPS_LEAST = 2;
const STOPS_APART = 14;
const EDGES = [0, 0.5, 0.75, 0.875, 0.95, 0.98, 1] as const;
const LOG_MOST = 200;
const TIMES = [
  [2, 0.2],
  [4, 0.3],
  [8, 0.25],
  [16, 0.15],
  [48, 0.1],
] as const;
const REJECTS_TOO = 0.5;
const HARDER_TOO = 0.25;
const HARDER_ONLY = 0.1;
const WANDER = 0.2;
const UNEVEN = 1.3;

const KINDS: readonly TroubleKind[] = [
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

export function partPlainly(usual: UsualStops, { recent, nowCartons, rejects }: RunSoFar): RunPart {
  let [begun, first] = [0, 0];
  const at = (cartons: number, next: number) =>
    evidencePlainly(usual, {
      recent: recent.slice(first, next),
      ...{ begunCartons: begun, nowCartons: cartons, rejects },
    });
  recent.forEach((stop, place) => {
    const { sum, strongest } = at(stop.cartons, place + 1);
    if (!strongest || sum < TROUBLE_LEAST) return;
    const over = stop.cartons + quietNeeded(usual, recent.slice(first + strongest.before, place + 1));
    if ((recent[place + 1]?.cartons ?? nowCartons) < over) return;
    [begun, first] = [over, place + 1];
  });
  // a stop may be read some cartons ahead of the run's own count
  const now = Math.max(nowCartons, recent.at(-1)?.cartons ?? 0);
  return { begun, stops: recent.slice(first), evidence: at(now, recent.length) };
}

function quietNeeded({ stops }: UsualStops, told: readonly RecentStop[]): number {
  const shape = Math.max(STOPS_LEAST, told.length);
  const came = stops.cartons / stops.shape / TIMES_FIRST + told.at(-1)!.cartons - told[0]!.cartons;
  return came * (QUIET ** (-1 / shape) - 1);
}

function evidencePlainly(usual: UsualStops, seen: RunSeen): Evidence {
  const perCarton = usual.stops.shape / usual.stops.cartons;
  const alike = new Map<number, number>();
  let [sum, most] = [0, 0];
  let told: Pick<Evidence, 'strongest' | 'by'> = { strongest: undefined, by: 'stops' };
  for (const strongest of beginnings(seen)) {
    const { more, harder } = ratioOf(usual, seen, strongest, alike);
    sum += perCarton * strongest.cartons * (more + harder);
    if (more + harder <= most) continue;
    most = more + harder;
    told = { strongest, by: harder > more ? 'tries' : 'stops' };
  }
  return { sum, ...told };
}

function beginnings({ recent, begunCartons }: RunSeen): readonly Beginning[] {
  const first = Math.max(0, recent.length - STOPS_APART);
  return recent.slice(first).flatMap((stop, place) => {
    const start = place === 0 ? begunCartons : recent[first + place - 1]!.cartons;
    const between = Math.max(0, stop.cartons - start);
    return EDGES.slice(1).map((edge, at) => {
      const from = start + (between * (edge + EDGES[at]!)) / 2;
      const before = place === 0 ? recent.filter(({ cartons }) => cartons <= from).length : first + place;
      return { from, cartons: between * (edge - EDGES[at]!), before };
    });
  });
}

function ratioOf(
  usual: UsualStops,
  { recent, nowCartons, begunCartons, rejects }: RunSeen,
  { from, before }: Beginning,
  alike: Map<number, number>,
): { more: number; harder: number } {
  const after = recent.slice(before);
  const retries = after.reduce((sum, { tries }) => sum + tries - 1, 0);
  const ratio = { more: 0, harder: 0 };
  if (after.length + retries < STOPS_LEAST) return ratio;
  const then = learned(usual.stops, before, from - begunCartons);
  const hard = hardRatio(usual.again, retries, after.length - 1);
  const stopsMore = (times: number) => moreRatio(then, after.length, nowCartons - from, times);
  const rejectsToo = (times: number) =>
    rejectsRatio(usual.rejects, rejects, { begun: begunCartons, from, to: nowCartons, times });
  alike.clear();
  const remembered = (kind: TroubleKind) => {
    const key = kind.rejects ? -kind.times : kind.times;
    const known = alike.get(key);
    if (known !== undefined) return known;
    const found = stopsMore(kind.times) * (kind.rejects ? rejectsToo(kind.times) : 1);
    alike.set(key, found);
    return found;
  };
  for (const kind of KINDS) {
    const likelier = kind.chance * remembered(kind) * (kind.hard ? hard : 1);
    if (kind.hard) ratio.harder += likelier;
    else ratio.more += likelier;
  }
  return ratio;
}

function learned({ shape, cartons }: Level, count: number, of: number): Level {
  return { shape: shape + count, cartons: cartons + of };
}

const likelier = (log: number) => Math.exp(Math.min(LOG_MOST, log));

function moreRatio({ shape, cartons }: Level, count: number, of: number, times: number): number {
  const log = count * Math.log(times) - (shape + count) * Math.log((cartons + times * of) / (cartons + of));
  return likelier(log);
}

function rejectsRatio(
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
