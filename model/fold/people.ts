import type { Entry } from '../entries/entries.ts';
import { isCorrectable } from '../entries/saidEntries.ts';
import type { Instant } from '../units/units.ts';
import { closeFinding } from './findings.ts';
import { endNoticeOf, takeNotice } from './notices.ts';
import { takeOrder } from './orders.ts';
import { correct, keepSaid } from './said.ts';
import { beginDatum, takeBook, takeOffset } from './settings.ts';
import { beginSheet, endSheet, handSheet, stepDone } from './sheet.ts';
import type { Stepping } from './stepping.ts';
import { takeSaid } from './takeSaid.ts';

const IDS_KEPT = 400;

/** What a person entered, as it stands on the tape. An entry made twice counts once. */
export function takeEntry(stepping: Stepping, entry: Entry, at: Instant): void {
  const { state } = stepping;
  if (state.entryIds.includes(entry.id)) return;
  state.entryIds.push(entry.id);
  if (state.entryIds.length > IDS_KEPT) state.entryIds.splice(0, IDS_KEPT / 2);
  if (entry.kind === 'correction') return correct(stepping, entry);
  if (isCorrectable(entry)) keepSaid(state, entry, at);
  act(stepping, entry, at);
  stepping.emit({ kind: 'Entered', at, entry });
}

function act(stepping: Stepping, entry: Exclude<Entry, { kind: 'correction' }>, at: Instant): void {
  const { state } = stepping;
  switch (entry.kind) {
    case 'reason':
    case 'cause':
    case 'note':
    case 'crew':
    case 'target':
    case 'handedOver':
    case 'changed':
    case 'fitted':
    case 'reading':
    case 'asBook':
      return takeSaid(stepping, entry, at);
    case 'notNow': {
      const stop = state.stops.find((candidate) => candidate.id === entry.stop);
      if (!stop) return undefined;
      stop.notNowAt = at;
      return stepping.emit({ kind: 'StopExplained', at, stop });
    }
    case 'order':
    case 'orderListed':
      return takeOrder(stepping, entry, at);
    case 'device': {
      const press = state.presses.find((candidate) => candidate.id === entry.press);
      if (!press) return undefined;
      press.candidate = entry.candidate;
      return stepping.emit({ kind: 'PressMoved', at, press });
    }
    // [BA4] records of their own: no counter tells of them, and they change none
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
    case 'datum':
      return beginDatum(state, entry, at);
    case 'datumOffset':
      return takeOffset(state, entry);
    case 'book':
      return takeBook(state, entry, at);
    // [DG8] a record of its own: what the line did is not changed by it
    case 'looked':
      return undefined;
    case 'sheetBegun':
      return beginSheet(stepping, entry, at);
    case 'stepDone':
    case 'stepApproved':
      return stepDone(stepping, entry, at);
    case 'sheetHanded':
      return handSheet(stepping, entry, at);
    case 'sheetEnded':
      return endSheet(stepping, entry, at);
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
