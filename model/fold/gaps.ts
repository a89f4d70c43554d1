import { between, type Instant, MINUTE } from '../units/units.ts';
import { copyAccount, forgetGap, settle } from './account.ts';
import { isProduceMode } from './modes.ts';
import type { LineIndex } from './lineIndex.ts';
import { HEARTBEAT, linkMissing } from './missing.ts';
import type { FoldState, GapRecord, GapSpan, ShiftRecord } from './state.ts';
import type { Stepping } from './stepping.ts';
import { addLoss, openStop, payerOf } from './stops.ts';
import { ranUnseen, splitStop } from './unseenRuns.ts';

/** Gaps of one shift told one by one; more than that are joined to the last. */
const GAPS_KEPT = 400;

/** [CV1] Something needed to know what the line does, or makes, is missing from here on; `missing` names it. */
export function beginGap(stepping: Stepping, at: Instant, missing: string): void {
  const { state } = stepping;
  if (state.gap) {
    if (!state.gap.missing.includes(missing)) state.gap.missing.push(missing);
    return;
  }
  settle(state.shift.account, at);
  state.gap = {
    from: at,
    missing: [missing],
    lossy: false,
    reset: [],
    falls: [],
    tally: state.tally.slice(),
    before: copyAccount(state.shift.account),
    ended: [],
    stop: openStop(stepping)?.id ?? null,
    cycles: cyclesNow(stepping, missing),
    producedMode: isProduceMode(stepping),
    cartons: state.cartonsSinceRestart,
    lost: state.stops.findLast(({ id }) => id === state.shift.account.open?.stop)?.lost ?? null,
  };
  stepping.emit({ kind: 'GapBegan', at });
}

/** True while what the line does is not known; what it makes may be all that is missing. */
export function isBlind(index: LineIndex, { gap }: Readonly<FoldState>): boolean {
  return gap?.missing.some((name) => !index.countingGaps.has(name)) ?? false;
}

/** Whether a server is heard, and its program lives as far as a heartbeat tells. */
export function isHeard(index: LineIndex, state: Readonly<FoldState>, server: string): boolean {
  const link = index.linkAt.get(server);
  if (link !== undefined && state.values[link] === false) return false;
  return server !== index.paceServer || !state.gap?.missing.includes(HEARTBEAT);
}

/**
 * What was missing is back. `whole`: nothing of it was missed; where that holds of all that was missing, there was no gap
 * after all.
 */
export function endGap(stepping: Stepping, at: Instant, missing: string, whole: boolean): void {
  const { state } = stepping;
  const gap = state.gap;
  if (!gap?.missing.includes(missing)) return;
  gap.missing = gap.missing.filter((name) => name !== missing);
  gap.lossy ||= !whole;
  if (gap.missing.length > 0) return;
  settle(state.shift.account, at);
  state.gap = null;
  // [ST7] what cycled meanwhile is not known: looking begins again
  if (gap.lossy && stepping.index.stateSignal < 0 && state.lastCycle >= 0) state.lastCycle = at;
  const judged = !gap.lossy ? 'whole' : isolated(stepping, gap) ? 'isolated' : 'unknown';
  if (judged === 'unknown' && ranUnseen(stepping, gap, at)) splitStop(stepping, gap, at);
  for (const { record, before } of gap.ended) {
    close(stepping, record, before, { from: later(gap.from, record.from), to: record.until }, judged);
    stepping.emit({ kind: 'ShiftEnded', at: record.until, record });
  }
  close(stepping, state.shift, gap.before, { from: later(gap.from, state.shift.from), to: at }, judged);
  if (judged === 'unknown') forgetLosses(stepping, gap);
  const gained = state.tally.map((counted, place) => counted - gap.tally[place]!);
  state.lastGap =
    judged === 'whole' ? null : { from: gap.from, to: at, kind: judged, gained: gained.slice(), counted: at };
  stepping.emit({ kind: 'GapEnded', at, from: gap.from, judged, gained });
}

/** [CO5] A counter that was last read before the newest gap is told just after it: what it gained belongs to that gap. */
export function countedInGap(
  { state, emit }: Stepping,
  signal: number,
  place: number,
  gained: number,
  at: Instant,
): void {
  const { lastGap, gap } = state;
  // later it may as well have been made since
  if (!lastGap || gap || state.ats[signal]! > lastGap.from || between(lastGap.to, at) > MINUTE) return;
  lastGap.gained[place]! += gained;
  lastGap.counted = at;
  emit({ kind: 'GapCounted', at, gap: { ...lastGap, gained: lastGap.gained.slice() } });
}

/** [ST10] It began inside a stop that still lasts, and no cycle was made: it stood, inferred from counters. */
export function isolated(stepping: Stepping, gap: GapRecord): boolean {
  if (gap.stop === null || openStop(stepping)?.id !== gap.stop) return false;
  return gap.cycles !== null && cyclesNow(stepping) === gap.cycles;
}

/** What the cycle counter shows; null where it is not known, and so says nothing. `lost`: what has just been lost. */
function cyclesNow({ state, index }: Stepping, lost?: string): FoldState['values'][number] {
  const { cycleSignal, line } = index;
  const signal = line.signals[cycleSignal];
  if (!signal || state.known[cycleSignal] === 0) return null;
  const link = index.linkAt.get(signal.server);
  const dark = link !== undefined && state.values[link] === false && lost !== linkMissing(signal.server);
  return dark ? null : (state.values[cycleSignal] ?? null);
}

/** The account of the open gap's shift as it is to be shown now: all of the gap so far is unknown. */
export function forgetOpenGap(stepping: Stepping, gap: GapRecord, record: ShiftRecord): void {
  forgetGap(record.account, gap.before, payerBefore(stepping, gap.before), stepping.index);
}

function close(
  stepping: Stepping,
  record: ShiftRecord,
  before: GapRecord['before'],
  { from, to }: { from: Instant; to: Instant },
  judged: 'whole' | 'isolated' | 'unknown',
): void {
  if (judged !== 'whole' && to > from) keepGap(record, { from, to, kind: judged });
  if (judged === 'unknown') forgetGap(record.account, before, payerBefore(stepping, before), stepping.index);
  const left = record.account.open;
  if (left && record !== stepping.state.shift) {
    const stop = stepping.state.stops.findLast((candidate) => candidate.id === left.stop);
    const payer = stop ? payerOf(stepping, stop) : { key: stepping.index.stoppedNoneKey, pause: false };
    record.account.charged[payer.key]! += left.net - (payer.pause ? left.freeable : 0);
    if (payer.pause) record.account.possible -= left.freeable;
    record.account.open = null;
  }
}

/** What stops were charged for time in the gap is nobody's any more. */
function forgetLosses(stepping: Stepping, { from, before, lost }: GapRecord): void {
  const { stops, shift } = stepping.state;
  for (let place = stops.length - 1; place >= 0 && stops[place]!.begin > from; place -= 1) {
    const stop = stops[place]!;
    if (stop.lost !== null && stop.lost !== 0) addLoss(stepping, stop, -stop.lost);
  }
  const { open } = before;
  const stop = open && stops.findLast(({ id }) => id === open.stop);
  if (!stop || shift.account.open?.stop === stop.id) return;
  const known = (lost ?? 0) + open.net - (payerOf(stepping, stop).pause ? open.freeable : 0);
  addLoss(stepping, stop, known - (stop.lost ?? 0));
}

function keepGap(record: ShiftRecord, span: GapSpan): void {
  const last = record.gaps.at(-1);
  if (record.gaps.length >= GAPS_KEPT && last) last.to = span.to;
  else record.gaps.push(span);
}

function payerBefore(stepping: Stepping, before: GapRecord['before']): { key: number; pause: boolean } {
  const stop = stepping.state.stops.findLast((candidate) => candidate.id === before.open?.stop);
  return stop ? payerOf(stepping, stop) : { key: stepping.index.stoppedNoneKey, pause: false };
}

function later(a: Instant, b: Instant): Instant {
  return a > b ? a : b;
}
