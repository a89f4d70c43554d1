import type { LineView, OrderView } from '../../../model/view/view.ts';
import { ms, t } from './build.ts';

const SIZES: { readonly [id: string]: string } = {
  'sachet-20': 'Sachet 20',
  'sachet-48': 'Sachet 48',
  'sampler-12': 'Sampler 12',
};

/** An order as listed, of which nothing is made yet; `more` is what else is known of it. */
function order(
  number: string,
  sizeId: string,
  blend: string,
  quantity: number,
  more: Partial<OrderView>,
): OrderView {
  const perCase = sizeId === 'sachet-20' ? 36 : 24;
  return {
    number,
    sizeId,
    size: SIZES[sizeId] ?? sizeId,
    blend,
    quantity,
    due: undefined,
    state: 'open',
    good: 0,
    perCase,
    cases: Math.floor((more.good ?? 0) / perCase),
    change: 'size',
    usual: undefined,
    ended: undefined,
    crew: undefined,
    handedOver: undefined,
    apart: undefined,
    ...more,
  };
}

/** The order that the line makes, of which `good` cartons are made. */
export function runningOrder(good: number): OrderView {
  return order('4471', 'sachet-48', 'mint', 18_480, {
    due: t('14:00:00'),
    state: 'running',
    change: 'none',
    good,
  });
}

/** What waits: the same size with another blend, and two other sizes. */
export const openOrders: readonly OrderView[] = [
  order('4472', 'sachet-48', 'lemon', 12_000, { due: t('02:00:00', 18), change: 'artwork' }),
  order('4475', 'sachet-20', 'mint', 26_400, { due: t('14:00:00', 18), usual: ms(41) }),
  order('4468', 'sampler-12', 'mixed', 5_400, { due: t('06:00:00', 19), usual: ms(52) }),
];

/** Ended the evening before; nobody has said yet how many cartons were handed over. */
export const endedOrder: OrderView = order('4470', 'sampler-12', 'mixed', 5_400, {
  state: 'ended',
  good: 5_412,
  due: t('22:00:00', 16),
  usual: ms(52),
  ended: t('21:46:00', 16),
});

/** The same order with the cartons counted: fourteen fewer than were counted as good. */
export const handedOrder: OrderView = { ...endedOrder, handedOver: 5_398, apart: -14 };

/** Who may load it, and the target that each crew gives. */
export const crews: LineView['crews'] = [
  {
    people: 1,
    note: 'one position',
    targets: { 'sachet-20': 30, 'sachet-48': 26, 'sampler-12': 20 },
    now: false,
  },
  {
    people: 2,
    note: 'front and back',
    targets: { 'sachet-20': 52, 'sachet-48': 44, 'sampler-12': 36 },
    now: true,
  },
  {
    people: 3,
    note: 'one relieves the others',
    targets: { 'sachet-20': 52, 'sachet-48': 44, 'sampler-12': 36 },
    now: false,
  },
];
