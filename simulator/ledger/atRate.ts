import type { Line } from '../../model/line/line.ts';
import { between, type Instant, minutes } from '../../model/units/units.ts';
import { targetAt } from './account.ts';
import type { ChangeoverEntry } from './entries.ts';
import type { Ledger } from './ledger.ts';

/** A changeover with its end: when the line was at rate again (CH2); undefined when it was not by then. */
export interface CompleteChangeover extends ChangeoverEntry {
  readonly firstGood?: Instant;
  readonly atRate?: Instant;
}

/** Changeovers that began before `to`, each completed by the good cartons counted before `to`. */
export function changeoversAtRate(ledger: Ledger, line: Line, to: Instant): CompleteChangeover[] {
  const goods = ledger.cartons
    .filter(({ at, fate, mode }) => fate === 'good' && mode === 'produce' && at < to)
    .map(({ at }) => at);
  const known = ledger.changeovers.filter(({ begin }) => begin < to);
  return known.map((changeover, index) => {
    const next = known[index + 1]?.begin ?? to;
    const own = goods.filter((at) => at > (changeover.returned ?? to) && at < next);
    const atRate = own.find((_, place) => complete(ledger, line, own, place));
    return {
      ...changeover,
      ...(own[0] === undefined ? {} : { firstGood: own[0] }),
      ...(atRate === undefined ? {} : { atRate }),
    };
  });
}

/** Whether the good carton at this place completes the share of target within the last minutes. */
function complete(ledger: Ledger, line: Line, goods: readonly Instant[], place: number): boolean {
  const at = goods[place] as Instant;
  const target = targetAt(ledger.targets, at);
  const rate = line.sizes.find(({ id }) => id === target?.size)?.targets.get(target?.crew ?? 0);
  if (rate === undefined) return false;
  const { atRateShare, atRateMinutes } = line.settings;
  const needed = Math.ceil(Number((atRateShare * rate * atRateMinutes).toFixed(6)));
  const first = goods[place - needed + 1];
  return first !== undefined && between(first, at) <= minutes(atRateMinutes);
}
