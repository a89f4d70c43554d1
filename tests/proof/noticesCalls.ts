import type { EarlierStops, StrongestWindow } from '../../model/watch/repeated.ts';
import { isBackToNormal, judgeStops } from '../../model/watch/repeatedStops.ts';
import { NEEDED } from '../../model/watch/repeatedUsual.ts';
import type { Seconds } from '../../simulator/fast/options.ts';
import { askedAt, type WatchedRun } from './noticesRuns.ts';

/** A new call of a station: what was called before is over, or it is another run. */
export interface Call {
  readonly at: Seconds;
  readonly cartons: number;
  /** Stops, first tries only, of the run by then. */
  readonly stops: number;
  /** What was told of it is what is counted anew from the run's stops. */
  readonly true: boolean;
}

export function isJudged(earlier: readonly EarlierStops[]): boolean {
  const past = earlier.filter(({ of }) => of > 0);
  return past.length >= NEEDED.runs && past.reduce((sum, { of }) => sum + of, 0) >= NEEDED.cartons;
}

/**
 * New calls of a station in a run, for each of some strengths: a false one in so many of its shifts. As a watch would make them
 * that looks at every try and at every point of the station's rejects.
 */
export function callsOf(
  run: WatchedRun,
  earlier: readonly EarlierStops[],
  station: string,
  onceInShifts: readonly number[],
): readonly (readonly Call[])[] {
  const calls = onceInShifts.map((): Call[] => []);
  const on = onceInShifts.map(() => false);
  if (run.tries.get(station)!.length < 2) return calls;
  for (const look of looksOf(run, station)) {
    const asked = askedAt(run, earlier, station, look);
    const said = judgeStops(asked);
    if (said.kind !== 'judged') return calls;
    onceInShifts.forEach((once, place) => {
      if (said.window && said.onceInShifts >= once) {
        const { at, cartons } = look;
        const call = { at, cartons, stops: asked.recent.length, true: isTrue(said.window, asked) };
        if (!on[place]) calls[place]!.push(call);
        on[place] = true;
      } else if (on[place]) on[place] = !isBackToNormal(asked);
    });
  }
  return calls;
}

interface Look {
  readonly at: Seconds;
  readonly cartons: number;
  readonly tries: number;
  readonly points: number;
}

/** From the second try on: before it nothing is ever told. */
function looksOf(run: WatchedRun, station: string): readonly Look[] {
  const own = run.tries.get(station)!;
  const points = run.rejects.get(station) ?? [];
  const before = (at: Seconds) => points.filter((point) => point.at <= at).length;
  const atTries = own.map(({ at, cartons }, place) => ({
    at,
    cartons,
    tries: place + 1,
    points: before(at),
  }));
  const atPoints = points.map(({ at, cartons }, place) => ({
    at,
    cartons,
    tries: own.filter((one) => one.at <= at).length,
    points: place + 1,
  }));
  return [...atTries, ...atPoints].filter(({ tries }) => tries >= 2).sort((a, b) => a.at - b.at);
}

function isTrue(window: StrongestWindow, { recent, nowCartons }: ReturnType<typeof askedAt>): boolean {
  const within = recent.filter(({ at }) => at >= window.since);
  const cartons = Math.max(1, nowCartons - within[0]!.cartons);
  const retries = within.reduce((sum, { tries }) => sum + tries - 1, 0);
  return within.length === window.stops && retries === window.retries && cartons === window.cartons;
}
