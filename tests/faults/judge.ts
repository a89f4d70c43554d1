import { SECOND, type Instant } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { FaultedRun } from './faultedRun.ts';
import { countedOf, goodsOf, wrongCounts } from './judgeCounts.ts';
import { judgeGaps } from './judgeGaps.ts';
import { wrongMoments } from './judgeMoments.ts';
import { pressesMade, stopsMade, wrongPresses, wrongStops } from './judgeStops.ts';
import { Seen } from './seen.ts';

/** What a run through faults was found to be: figures, and every way in which it is not as it has to be. */
export interface Judgement {
  readonly good: number;
  readonly counted: number;
  readonly unknownSeconds: number;
  readonly allowedSeconds: number;
  readonly stops: number;
  readonly presses: number;
  readonly wrong: readonly string[];
}

/**
 * Every figure equals the ledger or lies in a declared gap: every counter minute by minute, cartons by size and by order,
 * stops, presses, sizes, orders, changeovers and openings of guards, each by its moment. Each gap is no longer than what
 * made it, and whatever nobody was told lies in one. `start`: where the faults' times count from.
 */
export function judge(run: FaultedRun, faults: readonly Fault[], start: Instant): Judgement {
  const seen = new Seen(run, faults, start);
  const gaps = judgeGaps(seen);
  return {
    good: goodsOf(seen),
    counted: countedOf(seen),
    unknownSeconds: Math.round(gaps.unknown / SECOND),
    allowedSeconds: Math.round(gaps.allowed / SECOND),
    stops: stopsMade(seen).length,
    presses: pressesMade(seen).length,
    wrong: [
      ...wrongCounts(seen),
      ...wrongMoments(seen),
      ...wrongStops(seen),
      ...wrongPresses(seen),
      ...gaps.wrong,
    ],
  };
}
