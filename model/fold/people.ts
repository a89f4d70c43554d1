import type { Entry } from '../entries/entries.ts';
import type { Instant } from '../units/units.ts';
import { closeFinding } from './findings.ts';
import { endNoticeOf, takeNotice } from './notices.ts';
import { takeOrder } from './orders.ts';
import type { Stepping } from './stepping.ts';
import { retarget } from './target.ts';

const IDS_KEPT = 400;
const NOTES_KEPT = 50;
const ANSWER_DAYS = 30;
const DAY_TICKS = 864_000_000_000;

/** What a person entered, as it stands on the tape. An entry made twice counts once. */
export function takeEntry(stepping: Stepping, entry: Entry, at: Instant): void {
  const { state } = stepping;
  if (state.entryIds.includes(entry.id)) return;
  state.entryIds.push(entry.id);
  if (state.entryIds.length > IDS_KEPT) state.entryIds.splice(0, IDS_KEPT / 2);
  act(stepping, entry, at);
  stepping.emit({ kind: 'Entered', at, entry });
}

function act(stepping: Stepping, entry: Entry, at: Instant): void {
  const { state } = stepping;
  switch (entry.kind) {
    case 'reason':
      return answer(stepping, entry, at);
    case 'notNow': {
      const stop = state.stops.find((candidate) => candidate.id === entry.stop);
      if (stop) stop.notNowAt = at;
      return undefined;
    }
    case 'order':
    case 'orderListed':
      return takeOrder(stepping, entry, at);
    case 'crew':
      state.crew = entry.people;
      return retarget(stepping, at);
    case 'handedOver': {
      const order = state.orders.find((candidate) => candidate.number === entry.order);
      if (order) order.handedOver = entry.cartons;
      return undefined;
    }
    case 'note':
      state.notes.push({ at, author: entry.author, words: entry.words, stop: entry.stop ?? null });
      if (state.notes.length > NOTES_KEPT) state.notes.shift();
      return undefined;
    case 'device': {
      const press = state.presses.find((candidate) => candidate.id === entry.press);
      if (!press) return undefined;
      press.candidate = entry.candidate;
      return stepping.emit({ kind: 'PressMoved', at, press });
    }
    // [BA4] a record of its own: no counter tells of it, and it changes none
    case 'takenOut':
      return undefined;
    case 'closed':
      closeFinding(state, entry.finding);
      return endNoticeOf(stepping, entry, at);
    // records of their own on the tape; what a device reads is not changed by its test, nor a figure by a signature
    case 'tested':
    case 'signed':
      return undefined;
    case 'going':
      state.going = { stop: entry.stop, at, author: entry.author };
      return undefined;
    case 'noticeRaised':
    case 'noticeMoved':
    case 'noticeStep':
    case 'noticeTold':
    case 'noticeTaken':
    case 'noticeHanded':
    case 'noticeShelved':
    case 'noticeUnshelved':
    case 'noticeClosed':
    case 'noticeSettings':
      return takeNotice(stepping, entry, at);
  }
}

function answer(stepping: Stepping, entry: Entry & { kind: 'reason' }, at: Instant): void {
  const { state } = stepping;
  const stop = state.stops.find((candidate) => candidate.id === entry.stop);
  if (!stop) return;
  stop.answer = { reason: entry.reason, words: entry.words ?? null, author: entry.author };
  const day = Math.floor(at / DAY_TICKS);
  const station = stop.station ?? '';
  const known = state.answers.find(
    (row) => row.day === day && row.station === station && row.answer === entry.reason,
  );
  if (known) known.times += 1;
  else state.answers.push({ day, station, answer: entry.reason, times: 1 });
  state.answers = state.answers.filter((row) => row.day > day - ANSWER_DAYS);
  stepping.emit({ kind: 'StopExplained', at, stop });
}
