import type { RecentStop, RejectsBy, RunSoFar } from './repeated.ts';
import { type Evidence, evidenceOf, STOPS_LEAST } from './repeatedEvidence.ts';
import { KeptPart, type PartBegins } from './repeatedKept.ts';
import { firstFrom } from './repeatedTrouble.ts';
import type { UsualStops } from './repeatedUsual.ts';

/** It is over after so many cartons without a stop as the trouble itself would leave with a smaller chance than this. */
const QUIET = 1 / 20;
/** What speaks less than this for trouble is none that could be over. */
const TROUBLE_LEAST = 4;
/** As if one stop more had been seen at a rate so many times the usual: two stops tell a rate hardly themselves. */
const TIMES_FIRST = 8;
/** And one that was hard to clear, as if it were two. */
const SHAPE_LEAST = 2;

/** The part of a run since trouble was last over: what came before says nothing of what comes after. */
export interface RunPart {
  readonly begun: number;
  readonly stops: readonly RecentStop[];
  readonly evidence: Evidence;
}

/** The part that is still looked at, with what it says. `kept`: what looks before came to, which this one goes on from. */
export function partOf(usual: UsualStops, run: RunSoFar, kept?: KeptPart): RunPart {
  const { begun, first } = partBegins(usual, run, kept);
  const stops = run.recent.slice(first);
  // a stop may be read some cartons ahead of the run's own count
  const nowCartons = Math.max(run.nowCartons, run.recent.at(-1)?.cartons ?? 0);
  const evidence = evidenceOf(usual, {
    ...{ recent: stops, begunCartons: begun, nowCartons, rejects: run.rejects },
  });
  return { begun, stops, evidence };
}

/** [NO2] Trouble is over after so many cartons without a stop as its own rate leaves with a chance below 1 in 20. */
export function partBegins(usual: UsualStops, run: RunSoFar, kept = new KeptPart()): PartBegins {
  const { recent } = run;
  const known = kept.of(usual, run);
  let part: PartBegins = known;
  let keeps = true;
  for (let place = known.stops; place < recent.length; place += 1) {
    const came = cameToAt(usual, run, part, place);
    part = came.part;
    keeps &&= came.points !== undefined;
    if (keeps) kept.goOn(run, came.points!, part);
  }
  return part;
}

interface CameTo {
  readonly part: PartBegins;
  /** What it came out of: so many points of the rejects. Undefined where one more may still tell otherwise. */
  readonly points: number | undefined;
}

function cameToAt(
  usual: UsualStops,
  { recent, nowCartons, rejects }: RunSoFar,
  part: PartBegins,
  place: number,
): CameTo {
  const { begun, first } = part;
  const { cartons } = recent[place]!;
  const quietTo = recent[place + 1]?.cartons ?? nowCartons;
  // most stops come too soon after one another for any trouble to be over, and need no evidence for that
  if (!mayBeOver(usual, recent, { first, place, quietTo })) return { part, points: 0 };
  const { sum, strongest } = evidenceOf(usual, {
    recent: recent.slice(first, place + 1),
    ...{ begunCartons: begun, nowCartons: cartons, rejects },
  });
  const points = pointsBy(usual, rejects, cartons);
  if (!strongest || sum < TROUBLE_LEAST) return { part, points };
  const over = cartons + quietNeeded(usual, recent, first + strongest.before, place);
  return { part: quietTo < over ? part : { begun: over, first: place + 1 }, points };
}

/** Whether trouble that began at any of the stops could be over. */
function mayBeOver(
  usual: UsualStops,
  recent: readonly RecentStop[],
  { first, place, quietTo }: { readonly first: number; readonly place: number; readonly quietTo: number },
): boolean {
  let came = 0;
  for (let from = place; from >= first; from -= 1) {
    came += recent[from]!.tries;
    if (came >= STOPS_LEAST && quietTo >= recent[place]!.cartons + quietNeeded(usual, recent, from, place))
      return true;
  }
  return false;
}

/** A rate known as a gamma distribution by these stops; in so many cartons there is none with the chance `QUIET`. */
function quietNeeded({ stops }: UsualStops, recent: readonly RecentStop[], from: number, to: number): number {
  const shape = Math.max(SHAPE_LEAST, to + 1 - from);
  const came = stops.cartons / stops.shape / TIMES_FIRST + recent[to]!.cartons - recent[from]!.cartons;
  return came * (QUIET ** (-1 / shape) - 1);
}

/** Between two points rejects are told by both: they stay what they are once there is one at so many cartons or later. */
function pointsBy(
  { rejects: usual }: UsualStops,
  by: readonly RejectsBy[] | undefined,
  cartons: number,
): number | undefined {
  if (!usual) return 0;
  const next = by ? firstFrom(by, cartons) : 0;
  return by && next < by.length ? next + 1 : undefined;
}
