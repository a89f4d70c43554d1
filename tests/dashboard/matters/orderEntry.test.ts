import { expect, it } from 'vitest';
import { orderEntry } from '../../../dashboard/matters/orderEntry.ts';
import { endedOrder } from '../views/orders.ts';

const chosen = { kind: 'order', number: '4470', size: 'sampler-12', blend: 'mixed', quantity: 5400 };

it('a chosen order is entered by the id of its size, and says nothing of a crew that nobody chose', () => {
  expect(orderEntry(endedOrder, 'whenEnded')).toStrictEqual({ ...chosen, starts: 'whenEnded' });
  expect(orderEntry(endedOrder, 'now', 3)).toStrictEqual({ ...chosen, starts: 'now', crew: 3 });
});
