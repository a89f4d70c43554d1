import type { Learned } from '../past/setPointsPast.ts';
import type { CostAt } from './estimate.ts';

/** What a number costs, beside the recommended one: cartons more that a usual run loses there. */
export interface CostAgainst extends CostAt {
  readonly more: number;
}

/**
 * [BK2] Each number against the recommended one, whatever the station loses at that. Empty where runs do not tell which number is
 * best: then there is nothing to hold one against.
 */
export function costAgainst({ cost, recommended, sure }: Learned): readonly CostAgainst[] {
  if (recommended === undefined || sure === 'neverVaried' || sure === 'cannotSay' || cost.length < 2)
    return [];
  const least = lostAt(cost, recommended);
  return cost.map((one) => ({ ...one, more: Math.max(0, one.lostPerRun - least) }));
}

/** Between two numbers of the scale it is as far between what they lose. */
function lostAt(cost: readonly CostAt[], at: number): number {
  const after = cost.findIndex((one) => one.at >= at - 1e-9);
  const right = cost[after] ?? cost.at(-1)!;
  const left = cost[after - 1] ?? right;
  if (right.at <= left.at) return right.lostPerRun;
  const share = Math.min(1, (at - left.at) / (right.at - left.at));
  return left.lostPerRun + share * (right.lostPerRun - left.lostPerRun);
}
