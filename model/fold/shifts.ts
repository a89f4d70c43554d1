import { shiftAfter, shiftAt } from '../calendar/calendar.ts';
import { HOUR, type Instant, type Span } from '../units/units.ts';
import { copyAccount, openAccount, postPause, settle } from './account.ts';
import type { ShiftRecord } from './state.ts';
import type { Stepping } from './stepping.ts';
import { addLoss, openStop, payerOf } from './stops.ts';
import { targetTenths } from './target.ts';

/** More days than this without a word are not passed shift by shift. */
const DAYS_PASSED_MOST = 4;

/** The record of the shift that contains a moment, or of the time between shifts. */
export function openShift(stepping: Stepping, at: Instant): ShiftRecord {
  const { line } = stepping.index;
  const shift = shiftAt(line.calendar, line.zone, at);
  const next = shift ? undefined : shiftAfter(line.calendar, line.zone, at);
  const base = stepping.state.changeover ? stepping.index.changeoverKey : stepping.index.slowKey;
  return {
    shift: shift ?? null,
    from: at,
    until: shift?.to ?? next?.from ?? ((at + 24 * HOUR) as Instant),
    account: openAccount(line.stations.length, at, shift ? targetTenths(stepping) : 0, base),
    minutes: [],
    gaps: [],
    notLoadedByPosition: line.loading.positions.map(() => 0),
    pausesUsed: [],
    rejects: 0,
  };
}

/** [ST9] [LO8] Passes every shift boundary up to a moment: the account closes, an open stop pays on in the next. */
export function passBoundaries(stepping: Stepping, to: Instant): void {
  const { state } = stepping;
  while (to >= state.shift.until) {
    passBoundary(stepping, state.shift.until);
    if (to - state.shift.until > DAYS_PASSED_MOST * 24 * HOUR) skipTo(stepping, to);
  }
}

/** Shifts in which nothing at all was heard leave no record: the next one begins where something was. */
function skipTo(stepping: Stepping, to: Instant): void {
  const { state, index } = stepping;
  const shift = shiftAt(index.line.calendar, index.line.zone, to);
  const { open } = state.shift.account;
  state.shift = openShift(stepping, shift?.from ?? to);
  if (open) state.shift.account.open = { ...open, net: 0, freeable: 0 };
  if (state.gap) state.gap.before = copyAccount(state.shift.account);
}

function passBoundary(stepping: Stepping, at: Instant): void {
  const { state } = stepping;
  const ended = state.shift;
  settle(ended.account, at);
  const carried = ended.account.open;
  const next = openShift(stepping, at);
  if (carried) {
    next.account.open = { ...carried, net: 0, freeable: 0 };
    const stop = state.stops.findLast((candidate) => candidate.id === carried.stop);
    if (!state.gap && stop) addLoss(stepping, stop, postPause(ended.account, payerOf(stepping, stop)));
  }
  state.shift = next;
  carryPause(stepping, ended, at);
  if (state.gap) {
    state.gap.ended.push({ record: ended, before: state.gap.before });
    state.gap.before = copyAccount(next.account);
  } else stepping.emit({ kind: 'ShiftEnded', at, record: ended });
}

/** A pause that runs across the boundary has used its allowance of the shift in which it began. */
function carryPause(stepping: Stepping, ended: ShiftRecord, at: Instant): void {
  const stop = openStop(stepping);
  if (stop?.pauseRule && stop.class === 'pause') {
    ended.pausesUsed.push({ rule: stop.pauseRule, used: Math.min(at - stop.begin, stop.allowance) as Span });
  }
}
