import type { SizeId } from '../lines/cartoner.ts';
import { stream, whole } from './random.ts';

export interface PlannedOrder {
  readonly number: string;
  readonly size: SizeId;
  readonly blend: string;
  readonly quantity: number;
}

/** The orders of `simulator/lines/orders.csv`. */
export const bundledOrders: readonly PlannedOrder[] = [
  { number: '4468', size: 'sampler-12', blend: 'mixed', quantity: 5_400 },
  { number: '4471', size: 'sachet-48', blend: 'mint', quantity: 18_480 },
  { number: '4472', size: 'sachet-48', blend: 'lemon', quantity: 12_000 },
  { number: '4475', size: 'sachet-20', blend: 'mint', quantity: 26_400 },
];

const cycle: readonly { readonly size: SizeId; readonly blend: string }[] = [
  { size: 'sampler-12', blend: 'mixed' },
  { size: 'sachet-48', blend: 'mint' },
  { size: 'sachet-48', blend: 'lemon' },
  { size: 'sachet-20', blend: 'mint' },
];

/** The order at a place in the plan: from the list, then on through the sizes in the same round with numbers that follow. */
export function orderAt(planned: readonly PlannedOrder[], seed: number, place: number): PlannedOrder {
  const listed = planned[place];
  if (listed) return listed;
  const { size, blend } = cycle[place % cycle.length] as (typeof cycle)[number];
  const last = Math.max(4_400, ...planned.map(({ number }) => Number(number) || 0));
  const draw = stream(seed, `order ${place}`);
  return {
    number: String(last + 1 + place - planned.length),
    size,
    blend,
    quantity: whole(draw, 45, 190) * 120,
  };
}

/** An order list as `number,size,blend,quantity,due`, with no due dates: what a gateway may be given to read. */
export function ordersText(orders: readonly PlannedOrder[]): string {
  const rows = orders.map(({ number, size, blend, quantity }) => `${number},${size},${blend},${quantity},`);
  return `number,size,blend,quantity,due\n${rows.join('\n')}\n`;
}
