import type { Signal } from '../signals/signals.ts';
import { between, type Instant, type Span, seconds } from '../units/units.ts';
import { keepFinding } from './findings.ts';
import { isBlind, isHeard } from './gaps.ts';
import { active } from './lineIndex.ts';
import type { OpenMatter, WatchRecord } from './state.ts';
import type { Stepping } from './stepping.ts';

/** How long a line may run on with a guard open or a stop device pressed before that is a finding of its own. */
const RUN_ON = seconds(2);
/** So long after a gap a value may be one that is read again. */
const READ_AGAIN = seconds(5);

/** [PS5] A guard reads open or closed. */
export function guardMoved(stepping: Stepping, signal: Signal, open: boolean, at: Instant): void {
  const { state, index } = stepping;
  const before = state.values[signal.index]!;
  if (before !== null && active(signal, before) === open) return;
  const guard = index.line.guards.find((candidate) => candidate.id === signal.of);
  if (!guard) return;
  if (before !== null) {
    state.happenings.push({
      at,
      kind: open ? 'guardOpened' : 'guardClosed',
      name: guard.name,
      station: null,
    });
  }
  stepping.emit({
    kind: 'GuardMoved',
    at,
    guard: guard.id,
    open,
    ran: before === null || mayRun(stepping, at),
  });
}

/**
 * The line ran just then; or it is not known, as after a gap, when what is read again may have happened before: a shift
 * does not know of gaps that ended before it began.
 */
function mayRun({ state, index }: Stepping, at: Instant): boolean {
  const lookedSince = state.shift.gaps.at(-1)?.to ?? state.shift.from;
  const unseen = state.gap !== null || between(lookedSince, at) <= READ_AGAIN;
  return unseen || !state.judged || state.producing || between(state.since, at) <= index.orderCertain;
}

/** [PS5] While a guard reads open, or a stop device pressed, the time that the line runs is added up. */
export function watchReading(stepping: Stepping, signal: number, isOpen: boolean, at: Instant): void {
  const { state } = stepping;
  const known = state.watched.find((watched) => watched.signal === signal);
  if (isOpen && !known) state.watched.push({ signal, from: null, to: at, spent: 0 as Span, until: at });
  if (isOpen || !known) return;
  conclude(stepping, known);
  state.watched = state.watched.filter((watched) => watched !== known);
}

/** The line left production: what was open until now may be a finding, and begins anew with the next production. */
export function productionMoved(stepping: Stepping): void {
  if (stepping.state.producing) return;
  for (const watched of stepping.state.watched) conclude(stepping, watched);
}

/** [PS5] Time passes, up to a change that is not stepped yet: it is added up as it passes, as the line stood in it. */
export function passWatched(stepping: Stepping, at: Instant): void {
  const { watched } = stepping.state;
  for (let place = 0; place < watched.length; place += 1) {
    const record = watched[place]!;
    const next = passed(stepping, record, at);
    if (next !== record) watched[place] = next;
  }
}

/** [PS5] What has run on for too long and still reads open or pressed at a moment, as a finding that has no end yet. */
export function findingsNow(stepping: Stepping, at: Instant): OpenMatter[] {
  return stepping.state.watched.flatMap((record) => {
    const now = passed(stepping, record, at);
    return now.from !== null && now.spent > RUN_ON
      ? [{ ...findingOf(stepping, now, now.from), to: null }]
      : [];
  });
}

function passed(stepping: Stepping, record: WatchRecord, at: Instant): WatchRecord {
  const { state, index } = stepping;
  // seen from its cycles alone, a line is known to have run up to the last of them
  const derived = index.stateSignal < 0 && state.producing && !isBlind(index, state);
  const until = derived ? (Math.min(at, state.lastCycle) as Instant) : at;
  if (until <= record.until) return record;
  if (!counts(stepping, record.signal)) return { ...record, until };
  const spent = (record.spent + until - record.until) as Span;
  return { ...record, from: record.from ?? record.until, to: until, spent, until };
}

/** Whether time now counts: the line is seen to run, the reading is known, and no signal explains it. */
function counts({ state, index }: Stepping, signal: number): boolean {
  const { role, of, server } = index.line.signals[signal]!;
  if (!state.producing || isBlind(index, state) || state.known[signal] === 0) return false;
  if (!isHeard(index, state, server)) return false;
  return !index.line.signals.some(
    (one) =>
      one.role === 'enabling' &&
      (one.of === undefined || (role === 'guard' && one.of === of)) &&
      state.known[one.index] !== 0 &&
      active(one, state.values[one.index] ?? null),
  );
}

function conclude(stepping: Stepping, record: WatchRecord): void {
  if (record.from !== null && record.spent > RUN_ON)
    keepFinding(stepping, findingOf(stepping, record, record.from));
  record.from = null;
  record.spent = 0 as Span;
}

function findingOf({ index }: Stepping, { signal, to, spent }: WatchRecord, from: Instant): OpenMatter {
  const { role, of = '' } = index.line.signals[signal]!;
  const isGuard = role === 'guard';
  return {
    id: `${isGuard ? 'guard' : 'device'}-${of}-${from.toString(36)}`,
    kind: isGuard ? 'guardOpenRunning' : 'devicePressedRunning',
    of,
    at: from,
    to,
    spent,
  };
}
