import type { RecentStop, RejectsBy } from './repeated.ts';
import { type Evidence, evidenceOf } from './repeatedEvidence.ts';
import type { UsualStops } from './repeatedUsual.ts';

/** It is over after so many cartons without a stop as the trouble itself would leave with a smaller chance than this. */
const QUIET = 1 / 20;
/** What speaks less than this for trouble is none that could be over. */
const TROUBLE_LEAST = 4;
/** As if one stop more had been seen at a rate so many times the usual: two stops tell a rate hardly themselves. */
const TIMES_FIRST = 8;
/** And one that was hard to clear, as if it were two. */
const STOPS_LEAST = 2;

export interface RunSoFar {
  readonly recent: readonly RecentStop[];
  readonly nowCartons: number;
  readonly rejects?: readonly RejectsBy[] | undefined;
}

/** The part of a run since trouble was last over: what came before says nothing of what comes after. */
export interface RunPart {
  readonly begun: number;
  readonly stops: readonly RecentStop[];
  readonly evidence: Evidence;
}

/** [NO2] Trouble is over after so many cartons without a stop as its own rate leaves with a chance below 1 in 20. */
export function partOf(usual: UsualStops, { recent, nowCartons, rejects }: RunSoFar): RunPart {
  let [begun, first] = [0, 0];
  const at = (cartons: number, next: number) =>
    evidenceOf(usual, {
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

/** A rate known as a gamma distribution by these stops; in so many cartons there is none with the chance `QUIET`. */
function quietNeeded({ stops }: UsualStops, told: readonly RecentStop[]): number {
  const shape = Math.max(STOPS_LEAST, told.length);
  const came = stops.cartons / stops.shape / TIMES_FIRST + told.at(-1)!.cartons - told[0]!.cartons;
  return came * (QUIET ** (-1 / shape) - 1);
}
