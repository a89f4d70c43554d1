import type { ChangeoverKind, OrderRecord } from '../fold/state.ts';
import { tenthsFor } from '../fold/target.ts';
import { type EpochMs, type Millis, millis, type Span } from '../units/units.ts';
import { ms, type Seen } from './seen.ts';
import type { CrewView, OrderView } from './view.ts';

/** What a kind of changeover usually takes is said from this many on. */
const USUAL_LEAST = 2;

/** Orders known, the running one first, then the next, then as listed, then the ended ones. */
export function ordersView(seen: Seen): OrderView[] {
  const rank = { running: 0, next: 1, open: 2, ended: 3 } as const;
  return seen.state.orders
    .map((order) => orderView(seen, order))
    .sort((a, b) => rank[a.state] - rank[b.state]);
}

export function orderView(seen: Seen, order: OrderRecord): OrderView {
  const { state, index } = seen;
  const running = state.orders.find((candidate) => candidate.number === state.order);
  const size = index.sizeById.get(order.size);
  const change = order.size !== state.size ? 'size' : order.blend !== running?.blend ? 'artwork' : 'none';
  const due = order.due === undefined || order.due === '' ? Number.NaN : Date.parse(order.due);
  return {
    number: order.number,
    size: size?.name ?? order.size,
    sizeId: order.size,
    blend: order.blend,
    quantity: order.quantity,
    due: Number.isNaN(due) ? undefined : (due as EpochMs),
    state:
      order.number === state.order
        ? 'running'
        : order.number === state.orderNext
          ? 'next'
          : order.endedAt === null
            ? 'open'
            : 'ended',
    ended: ms(order.endedAt),
    good: order.good,
    perCase: size?.perCase,
    cases: size?.perCase === undefined ? undefined : Math.floor(order.good / size.perCase),
    change,
    usual: change === 'none' ? undefined : usualChangeover(seen, change, state.size, order.size),
    handedOver: order.handedOver ?? undefined,
    apart: order.handedOver === null ? undefined : order.handedOver - order.good,
    crew: order.crew ?? undefined,
  };
}

export function crewsView(seen: Seen): CrewView[] {
  const { line } = seen.index;
  return line.loading.crews.map(({ people, note }) => ({
    people,
    note,
    targets: Object.fromEntries(
      line.sizes.map((size) => [size.id, tenthsFor(size, people, seen.state.targets) / 10]),
    ),
    now: people === seen.state.crew,
  }));
}

/** The middle one of earlier changeovers of the same kind and, for a size, the same pair. */
export function usualChangeover(
  { state }: Pick<Seen, 'state'>,
  kind: ChangeoverKind,
  from: string | null,
  to: string | null,
): Millis | undefined {
  const alike = state.changeovers
    .filter((one) => one.kind === kind && (kind !== 'size' || (one.from === from && one.to === to)))
    .map((one) => one.lasted)
    .sort((a, b) => a - b);
  const middle = alike[Math.floor(alike.length / 2)];
  return alike.length < USUAL_LEAST || middle === undefined ? undefined : millis(middle as Span);
}
