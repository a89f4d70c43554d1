import type { OrderView } from '../../model/view/view.ts';

/** The order that ended last: the one whose cartons are being handed over. */
export function lastEnded(orders: readonly OrderView[]): OrderView | undefined {
  return orders
    .filter(({ ended }) => ended !== undefined)
    .reduce<OrderView | undefined>(
      (last, order) => (last?.ended === undefined || order.ended! > last.ended ? order : last),
      undefined,
    );
}
