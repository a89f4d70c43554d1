import { onceInStops } from './falseRate.ts';
import type { RepeatedStops, StopsAsked, StrongestWindow } from './repeated.ts';
import { type Beginning, learned } from './repeatedEvidence.ts';
import { partBegins, partOf, type RunPart } from './repeatedPart.ts';
import { rejectsAt } from './repeatedTrouble.ts';
import { cartonsOf, NEEDED, type UsualStops, usualStops } from './repeatedUsual.ts';

/** Nothing is told as seldomer than once in so many shifts: no simulation vouches for more. */
export const ONCE_MOST = 1_000_000;

/** [NO1] Stops of a station in this run against its own normal with this size, as of now. */
export function judgeStops(asked: StopsAsked): RepeatedStops {
  const { earlier, cartonsPerShift } = asked;
  const past = earlier.filter(({ of }) => of > 0);
  const usual = usualStops(earlier);
  if (!usual) return { kind: 'tooThin', runs: past.length, cartons: cartonsOf(past), needs: NEEDED };
  const usualCartons = usual.stops.cartons / usual.stops.shape;
  const part = partOf(usual, asked, asked.kept);
  const { sum, strongest, by } = part.evidence;
  const stops = onceInStops(sum, {
    shape: usual.stops.shape,
    stopsPerRun: cartonsOf(past) / past.length / usualCartons,
  });
  return {
    kind: 'judged',
    onceInShifts: strongest ? Math.min(ONCE_MOST, (stops * usualCartons) / cartonsPerShift) : 0,
    usualCartons,
    window: strongest && windowOf(usual, asked, part, strongest),
    by,
  };
}

/**
 * [NO2] Whether the trouble that was last told is over: so many cartons came without a stop as its own rate would leave with a
 * chance below 1 in 20. Stops before that say nothing of what comes after it.
 */
export function isBackToNormal(asked: StopsAsked): boolean {
  const usual = usualStops(asked.earlier);
  return usual === undefined || partBegins(usual, asked, asked.kept).first === asked.recent.length;
}

function windowOf(
  usual: UsualStops,
  { nowCartons, rejects }: StopsAsked,
  { begun, stops }: RunPart,
  { from, before }: Beginning,
): StrongestWindow {
  const after = stops.slice(before);
  const first = after[0]!;
  const cartons = Math.max(1, Math.round(nowCartons - first.cartons));
  const then = learned(usual.stops, before, from - begun);
  const seen = rejects && rejects.length > 0 && usual.rejects;
  return {
    since: first.at,
    stops: after.length,
    retries: after.reduce((sum, { tries }) => sum + tries - 1, 0),
    cartons,
    expected: (then.shape * cartons) / then.cartons,
    rejects: seen
      ? {
          seen: Math.round(rejectsAt(rejects, nowCartons) - rejectsAt(rejects, from)),
          expected: (seen.shape * (nowCartons - from)) / seen.cartons,
        }
      : undefined,
  };
}
