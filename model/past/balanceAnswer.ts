import type { BalancePast } from './balancePast.ts';
import type { orderBalances } from './orderBalance.ts';

/** What is answered of blanks and cartons in a stretch. */
export interface BalanceAnswer extends BalancePast {
  readonly orders: ReturnType<typeof orderBalances>;
}
