import type { LineIndex } from '../fold/lineIndex.ts';
import type { OrderRecord } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, HOUR, type Instant, MINUTE, type Span } from '../units/units.ts';
import type { PastAsked } from './past.ts';
import type { Stretch } from './stretches.ts';

/** A count that is known to lie between two numbers; they are the same where it is known exactly. */
export interface Bounds {
  readonly least: number;
  readonly most: number;
}

/** [OR3] What an order made that ran in the stretch, all of it, and what was handed over of it. */
export interface OrderBalance {
  readonly number: string;
  readonly size: string | undefined;
  readonly blend: string | undefined;
  /** When it ran first, and when another one took its place; undefined while it runs. */
  readonly from: EpochMs;
  readonly to: EpochMs | undefined;
  /** Counted as good. Counters are kept by the minute: one in which an order began while the line ran is shared by two. */
  readonly counted: Bounds;
  /** Undefined where nobody entered it. */
  readonly handedOver: number | undefined;
  /** Handed over less counted. */
  readonly apart: Bounds | undefined;
}

export interface OrdersAsked extends PastAsked {
  readonly now: Instant;
  /** Order and size records from long enough before the stretch, up to now. */
  readonly orders: readonly RecordBodies['order'][];
  readonly sizes: readonly RecordBodies['size'][];
  readonly entries: readonly RecordBodies['entry'][];
  readonly gaps: readonly RecordBodies['gap'][];
  /** Orders that the line still keeps, with their own count. */
  readonly kept: readonly OrderRecord[];
  /** What each counter had counted by the end of the last minute up to a moment. */
  readonly tallyAt: (at: Instant) => readonly number[];
  /** And by the end of the first minute from a moment on, no further than another. */
  readonly tallyFrom: (at: Instant, to: Instant) => readonly number[] | undefined;
}

interface OrderRun extends Stretch {
  readonly order: string;
}

export const ORDERS_MOST = 60;
/** A number that comes again so long after its order ended is another order's. */
const APART = (7 * 24 * HOUR) as Span;

/** Orders that ran in the stretch, the newest first. */
export function orderBalances(asked: OrdersAsked): {
  readonly list: readonly OrderBalance[];
  readonly further: number;
} {
  const runs: readonly OrderRun[] = asked.orders.map(({ at, order }, place) => ({
    order,
    from: at,
    to: asked.orders[place + 1]?.at ?? asked.now,
  }));
  const ran = ordersOf(runs)
    .filter((order) => order.runs.some(({ from, to }) => from < asked.to && to > asked.from))
    .reverse();
  return {
    list: ran.slice(0, ORDERS_MOST).map((order) => balanceOf(asked, order)),
    further: Math.max(0, ran.length - ORDERS_MOST),
  };
}

/** Runs of one order, in the order of time; another order of the same number may have come long after. */
interface OrderRuns {
  readonly runs: readonly OrderRun[];
  /** When the next order of its number began. */
  readonly until: Instant | undefined;
}

/** Orders by when each began last. */
function ordersOf(runs: readonly OrderRun[]): readonly OrderRuns[] {
  const orders: OrderRun[][] = [];
  for (const run of runs) {
    const same = orders.findLast((one) => one[0]!.order === run.order);
    if (same && run.from - same.at(-1)!.to < APART) same.push(run);
    else orders.push([run]);
  }
  return orders
    .map((own, place) => ({
      runs: own,
      until: orders.find((one, later) => later > place && one[0]!.order === own[0]!.order)?.[0]?.from,
    }))
    .sort((a, b) => a.runs.at(-1)!.from - b.runs.at(-1)!.from);
}

function balanceOf(asked: OrdersAsked, { runs, until }: OrderRuns): OrderBalance {
  const { index, entries, kept, sizes } = asked;
  const number = runs[0]!.order;
  const first = runs[0]!.from;
  const last = runs.at(-1)!.to;
  // what the line keeps of a number is of the order that had it last
  const own = until === undefined ? kept.find((order) => order.number === number) : undefined;
  const counted = exactly(boundsOf(asked, runs), own?.good);
  const said = entries.findLast(
    ({ at, entry }) =>
      entry.kind === 'handedOver' &&
      entry.order === number &&
      at >= first &&
      (until === undefined || at < until),
  );
  const handedOver = said?.entry.kind === 'handedOver' ? said.entry.cartons : (own?.handedOver ?? undefined);
  const size = own?.size ?? sizes.findLast(({ at }) => at < last)?.size;
  return {
    number,
    size: index.sizeById.get(size ?? '')?.name,
    blend: own?.blend === '' ? undefined : own?.blend,
    from: epochMs(first),
    to: last === asked.now ? undefined : epochMs(last),
    counted,
    handedOver,
    apart:
      handedOver === undefined
        ? undefined
        : { least: handedOver - counted.most, most: handedOver - counted.least },
  };
}

/** The line's own count is exact, where it is of all that the order made: one that became known late lacks some of it. */
function exactly(bounds: Bounds, good: number | undefined): Bounds {
  return good !== undefined && good >= bounds.least && good <= bounds.most
    ? { least: good, most: good }
    : bounds;
}

function boundsOf(asked: OrdersAsked, runs: readonly OrderRun[]): Bounds {
  let least = 0;
  let most = 0;
  for (const { from, to } of runs) {
    const [begin, end] = [goodBy(asked, from), goodBy(asked, to)];
    least += Math.max(0, end.least - begin.most);
    most += Math.max(0, end.most - begin.least);
  }
  return { least, most };
}

/** Good cartons by a moment: those of the last minute before it, and of the first one after it. */
function goodBy({ index, gaps, now, tallyAt, tallyFrom }: OrdersAsked, at: Instant): Bounds {
  const least = goodOf(index, tallyAt(at));
  if (at >= now) return { least, most: least };
  // what a gap hid is told when it is over
  const seen = Math.max(at, ...gaps.filter(({ from, to }) => from <= at && to > at).map(({ to }) => to));
  const after = tallyFrom(at, Math.min(now, seen + 2 * MINUTE) as Instant);
  return { least, most: after ? Math.max(least, goodOf(index, after)) : least };
}

function goodOf({ line, tallied }: LineIndex, tally: readonly number[]): number {
  return tallied.reduce(
    (sum, signal, place) => sum + (line.signals[signal]!.role === 'goodCount' ? (tally[place] ?? 0) : 0),
    0,
  );
}
