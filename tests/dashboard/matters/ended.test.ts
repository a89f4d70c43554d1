import { expect, it } from 'vitest';
import { lastEnded } from '../../../dashboard/matters/ended.ts';
import { t } from '../views/build.ts';
import { endedOrder, openOrders, runningOrder } from '../views/orders.ts';

it('the order handed over is the one that ended last, in whatever order they are listed', () => {
  const earlier = { ...endedOrder, number: '4466', ended: t('12:00:00', 16) };
  const orders = [runningOrder(10), ...openOrders];
  expect(lastEnded([...orders, endedOrder, earlier])).toBe(endedOrder);
  expect(lastEnded([...orders, earlier, endedOrder])).toBe(endedOrder);
  expect(lastEnded(orders)).toBeUndefined();
});
