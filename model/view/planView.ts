import { pausesOf } from '../calendar/calendar.ts';
import { CARTON } from '../fold/account.ts';
import { type Instant, MINUTE, millis, type Span } from '../units/units.ts';
import { orderView } from './ordersView.ts';
import { targetNow } from './rateView.ts';
import { isUncounted, ms, type Seen } from './seen.ts';
import type { PlanView } from './view.ts';

/** Good cartons are added up over blocks of this many planned minutes. */
const BLOCK = 10;
/** Blocks looked back on, and the least that must have been seen. */
const BLOCKS_MOST = 18;
const BLOCKS_LEAST = 6;
/** Two-sided 90 % of a normal spread of block sums. */
const SPREAD = 1.645;

/** [PL1] [PL2] What was planned, what is made, and how the shift will end if it goes on as it went. */
export function planView(seen: Seen): PlanView {
  const { state, account, index } = seen;
  const { planShare } = index.line.settings;
  const shift = state.shift.shift;
  const possible = account.possible / CARTON;
  const good = account.good;
  const restMinutes = plannedRest(seen) / MINUTE;
  const target = targetNow(seen) ?? 0;
  const order = state.orders.find((candidate) => candidate.number === state.order);
  const byCalendar = (possible + restMinutes * target) * planShare;
  const more = state.orders.some((other) => other !== order && other.endedAt === null);
  const byOrder = order && !more ? good + Math.max(0, order.quantity - order.good) : Number.POSITIVE_INFINITY;
  const planned = Math.floor(Math.min(byCalendar, byOrder));
  const plannedSoFar = Math.min(planned, Math.floor(possible * planShare));
  const pause = nextPause(seen);
  const finish = finishOf(seen, planned, restMinutes, byOrder <= byCalendar);
  return {
    shift: shift ? { name: shift.name, from: ms(shift.from), to: ms(shift.to) } : undefined,
    order: order && orderView(seen, order),
    good,
    planned,
    plannedSoFar,
    possible: Math.floor(possible),
    behind: plannedSoFar - good,
    finish,
    needed: finish && Math.max(0, Math.round((10 * (planned - good)) / restMinutes) / 10),
    nextPause: pause && {
      name: pause.name,
      at: ms(pause.from),
      allowance: millis(pause.left),
    },
  };
}

/** Shift time still to come without the pauses still to come. */
function plannedRest(seen: Seen): Span {
  const shift = seen.state.shift.shift;
  if (!shift) return 0 as Span;
  let rest = Math.max(0, shift.to - seen.until);
  for (const pause of pausesLeft(seen)) rest -= pause.left;
  return Math.max(0, rest) as Span;
}

interface PauseLeft {
  readonly name: string;
  readonly from: Instant;
  readonly left: Span;
  /** It is being taken now. */
  readonly isTaken: boolean;
}

/** The pause that is still to begin; since its window's beginning where that is past. */
function nextPause(seen: Seen): PauseLeft | undefined {
  return pausesLeft(seen).find((pause) => !pause.isTaken);
}

/**
 * Pauses of this shift still to come or being taken, with what is left of each. One of which more than half was taken,
 * and after which production is back, is over: its rest is time to produce in. A short stop in its window is not yet it.
 */
function pausesLeft(seen: Seen): PauseLeft[] {
  const { state, index, openStop } = seen;
  const shift = state.shift.shift;
  if (!shift) return [];
  return pausesOf(index.line.calendar, index.line.zone, shift)
    .filter((window) => window.to > seen.until)
    .flatMap((window) => {
      const used = state.shift.pausesUsed.find((pause) => pause.rule === window.rule)?.used ?? 0;
      const isTaken = openStop?.class === 'pause' && openStop.pauseRule === window.rule;
      if (!isTaken && 2 * used > window.allowance) return [];
      const running = isTaken ? seen.until - openStop.begin : 0;
      const left = Math.max(0, window.allowance - used - running) as Span;
      return left > 0 ? [{ name: window.name, from: window.from, left, isTaken }] : [];
    });
}

/** `ends`: the order is the plan, and nothing follows it, so that no more than it can be made. */
function finishOf(seen: Seen, planned: number, restMinutes: number, ends: boolean): PlanView['finish'] {
  const held = seen.state.presses.some((press) => press.known !== 'count' && press.released === null);
  if (isUncounted(seen) || held || restMinutes <= 0) return undefined;
  const blocks = goodBlocks(seen);
  if (blocks.length < BLOCKS_LEAST) return undefined;
  const mean = blocks.reduce((a, b) => a + b, 0) / blocks.length;
  const variance = blocks.reduce((total, block) => total + (block - mean) ** 2, 0) / (blocks.length - 1);
  const coming = restMinutes / BLOCK;
  const spread = SPREAD * Math.sqrt(variance * (coming + coming ** 2 / blocks.length));
  const short = planned - seen.account.good - mean * coming;
  const round = (cartons: number) => Math.round((ends ? Math.max(0, cartons) : cartons) / 10) * 10;
  return { short: round(short), shortLow: round(short - spread), shortHigh: round(short + spread) };
}

/** Good cartons of whole blocks of planned time that was seen, newest last: stops count, pauses and changeovers do not. */
function goodBlocks(seen: Seen): number[] {
  const { state } = seen;
  const start = state.shift.shift?.from ?? state.shift.from;
  const last = Math.floor((seen.until - start) / MINUTE);
  const first = Math.ceil((state.shift.from - start) / MINUTE);
  const blocks: number[] = [];
  let minutesInBlock = 0;
  let block = 0;
  for (let minute = last - 1; minute >= first && blocks.length < BLOCKS_MOST; minute -= 1) {
    if (isLeftOut(seen, (start + minute * MINUTE) as Instant)) continue;
    block += state.shift.minutes[minute] ?? 0;
    minutesInBlock += 1;
    if (minutesInBlock < BLOCK) continue;
    blocks.unshift(block);
    block = 0;
    minutesInBlock = 0;
  }
  return blocks;
}

function isLeftOut(seen: Seen, minute: Instant): boolean {
  const end = minute + MINUTE;
  const { gap } = seen.state;
  if (gap && gap.from < end) return true;
  // isolated time was a stop like another; what was not seen says nothing
  if (seen.state.shift.gaps.some(({ kind, from, to }) => kind === 'unknown' && from < end && to > minute))
    return true;
  const middle = minute + MINUTE / 2;
  return seen.state.stops.some(
    (stop) =>
      (stop.class === 'pause' || stop.class === 'changeover') &&
      stop.begin <= middle &&
      middle < (stop.end ?? Number.POSITIVE_INFINITY),
  );
}
