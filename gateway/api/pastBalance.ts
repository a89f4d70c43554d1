import type { Router } from 'express';
import type { z } from 'zod';
import { flowTold } from '../../model/fold/flow.ts';
import type { BalanceAnswer } from '../../model/past/balanceAnswer.ts';
import { balancePast } from '../../model/past/balancePast.ts';
import type { Minute } from '../../model/past/knownFlow.ts';
import { orderBalances } from '../../model/past/orderBalance.ts';
import type { PastAsked } from '../../model/past/past.ts';
import type { Stretch } from '../../model/past/stretches.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { HOUR, type Instant } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, periodQuery, recordsIn } from './pastAsked.ts';
import { talliesOf } from './pastTallies.ts';

export const balanceQuery = periodQuery;

/** An order that ran in a stretch is looked at from so long before it on: it may have begun earlier. */
const ORDERS_BEFORE = 31 * 24 * HOUR;

/** `/balance`: what was picked in a stretch, what became of it, and what was handed over of its orders. */
export function balanceRoutes(router: Router, { past, read }: Doors): void {
  router.get('/balance', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(balanceOf(records, live, read(balanceQuery, request.query)));
  });
}

export function balanceOf(
  records: RecordsRead,
  live: LineRead,
  query: z.infer<typeof balanceQuery>,
): BalanceAnswer {
  const asked = askedOf(records, live, query);
  const of = recordsIn(records, live.line.id, asked);
  const gaps = [...of('gap'), ...openGap(live, asked)];
  return {
    ...balancePast({
      ...asked,
      counted: live.fold().state.flow !== null,
      begun: begunOf(records, live, asked),
      gaps,
      entries: of('entry', { from: asked.from, to: (asked.to + 1) as Instant }),
      ...minutesOf(records, live, asked),
    }),
    orders: ordersOf(records, live, asked, gaps),
  };
}

/** A gap that lasts is told as a record only when it is over. */
function openGap(live: LineRead, { to }: PastAsked): readonly RecordBodies['gap'][] {
  const { gap } = live.fold().state;
  return gap && gap.from < to ? [{ from: gap.from, to, kind: 'unknown' }] : [];
}

/** Minutes as they were kept, and at the end of a stretch that goes on until now what is told now. */
function minutesOf(records: RecordsRead, live: LineRead, { to }: PastAsked) {
  const line = live.line.id;
  const { flow, at: newest } = live.fold().state;
  const known = new Map<Instant, Minute | undefined>();
  const minuteAt = (at: Instant): Minute | undefined => {
    if (at >= newest && newest <= to) return { at, flow: flow && flowTold(flow) };
    if (!known.has(at)) known.set(at, records.last(line, 'minute', (at + 1) as Instant));
    return known.get(at);
  };
  const minutesIn = (stretch: Stretch): readonly Minute[] =>
    records.ask({
      line,
      kind: 'minute',
      from: (stretch.from + 1) as Instant,
      to: (stretch.to + 1) as Instant,
    });
  return { minuteAt, minutesIn };
}

function ordersOf(
  records: RecordsRead,
  live: LineRead,
  asked: PastAsked,
  gaps: readonly RecordBodies['gap'][],
): BalanceAnswer['orders'] {
  const line = live.line.id;
  const now = live.now();
  const since = { from: Math.max(0, asked.from - ORDERS_BEFORE) as Instant, to: (now + 1) as Instant };
  const of = recordsIn(records, line, since);
  return orderBalances({
    ...asked,
    now,
    gaps,
    orders: of('order'),
    sizes: of('size'),
    entries: of('entry', { from: asked.from, to: since.to }),
    kept: live.fold().state.orders,
    tallyAt: talliesOf(records, live, now),
    tallyFrom: (from, to) => records.ask({ line, kind: 'minute', from, to })[0]?.tally,
  });
}
