import type { Instant } from '../units/units.ts';
import { type SetAt, setAt } from './history.ts';

/** One run of a size: from when its sheet or its size began, whichever was first, what people say is of it. */
export interface SetRun {
  readonly from: Instant;
  readonly to: Instant;
  readonly saidSince: Instant;
  readonly lot: string | null;
  readonly parts: string | null;
}

/** [SP8] A stretch of a run in which nothing that acts on a station is known to have moved. */
export interface Settled {
  readonly run: SetRun;
  readonly from: Instant;
  readonly to: Instant;
  /** In the order of the adjustments that were asked for; undefined where nobody knows. */
  readonly sets: readonly (SetAt | undefined)[];
}

/**
 * Runs cut where an adjustment that acts on the station moved. What was said late in a run, and nothing before it in that run, is
 * taken to have held from the run's beginning: it was read, and not moved; a move is said as a change, or by a sensor. [SP10] Where it
 * was moved from what its scale read, that held until then.
 */
export function settledStretches(
  runs: readonly SetRun[],
  histories: readonly (readonly SetAt[])[],
): readonly Settled[] {
  return runs.flatMap((run) => {
    const firsts = histories.map((history) => firstSaid(history, run));
    const cuts = new Set<Instant>();
    histories.forEach((history, place) => {
      const first = firsts[place];
      for (const { at } of history)
        if (at > run.from && at < run.to && (at !== first?.at || wasMoved(first))) cuts.add(at);
    });
    const moments = [run.from, ...[...cuts].sort((a, b) => a - b), run.to];
    return moments.slice(0, -1).map((from, place): Settled => {
      const sets = histories.map((history, which) => {
        const first = firsts[which];
        if (first === undefined || first.at <= from) return setAt(history, from, run.saidSince);
        return wasMoved(first) ? { ...first, value: first.found } : setAt(history, first.at, run.saidSince);
      });
      return { run, from, to: moments[place + 1]!, sets };
    });
  });
}

/** When a number was first said in a run that had none from its setting; undefined where it had one, or a sensor. */
function firstSaid(history: readonly SetAt[], run: SetRun): SetAt | undefined {
  if (setAt(history, run.from, run.saidSince)) return undefined;
  return history.find(
    ({ at, known, value }) => at > run.from && at < run.to && known !== 'sensor' && value !== undefined,
  );
}

function wasMoved({ value, found }: SetAt): boolean {
  return found !== undefined && found !== value;
}
