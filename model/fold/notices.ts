import { completed } from '../notices/settings.ts';
import type { Author, Entry } from '../entries/entries.ts';
import { isTakenOver, needsPerson, type NoticeRecord } from '../notices/notice.ts';
import type { NoticeEntryBody } from '../notices/noticeEntries.ts';
import { between, type Instant, instantFromMs, minutes } from '../units/units.ts';
import { OLDER_FINDINGS } from './findings.ts';
import { closeNotice, endNotice, tellStory } from './noticeEnd.ts';
import type { FoldState } from './state.ts';
import type { Stepping } from './stepping.ts';

/** Notices that are kept: all that are open come before those that have ended. The rest stand in the records. */
const NOTICES_KEPT = 200;
const JOINED_KEPT = 50;
const TOLD_KEPT = 200;
/** [NL3] No new round begins so soon after the one before. */
const ROUND_LEAST = minutes(10);

type NoticeEntry = Extract<Entry, NoticeEntryBody>;

/** [NL1] What an entry does to the notices; one that names a notice that is not there, or not in a state for it, does nothing. */
export function takeNotice(stepping: Stepping, entry: NoticeEntry, at: Instant): void {
  const { state } = stepping;
  if (entry.kind === 'noticeSettings') {
    state.noticeSettings = { settings: completed(entry.settings), at, by: entry.author, why: entry.why };
    return;
  }
  if (entry.kind === 'noticeRaised') return raise(stepping, entry, at);
  if (entry.kind === 'noticeMoved' && entry.to === 'normal') delete state.noticeKeys[entry.key];
  if (entry.kind === 'noticeMoved' && entry.to === 'again') state.noticeKeys[entry.key] = entry.notice;
  const notice = state.notices.find(({ id }) => id === entry.notice);
  if (!notice) return;
  move(state, notice, entry, at);
  stepping.emit({ kind: 'NoticeMoved', at, notice });
}

/** [NL5] A person has closed the finding that it is about, and ended it with that. */
export function endNoticeOf({ state, emit }: Stepping, entry: Entry & { kind: 'closed' }, at: Instant): void {
  const { open, notices } = state;
  for (const notice of notices) {
    if (notice.ended || notice.facts.kind !== 'ranOn') continue;
    const { finding } = notice.facts;
    // the oldest findings are closed together, when the list had no room for them any more
    const isOld = entry.finding === OLDER_FINDINGS && !open.some(({ id }) => id === finding);
    if (finding !== entry.finding && !isOld) continue;
    endNotice(notice, { at, how: 'closed', by: entry.author, said: null });
    tellStory(notice, { at, what: 'closed', by: entry.author, detail: null });
    emit({ kind: 'NoticeMoved', at, notice });
  }
}

function raise(stepping: Stepping, entry: NoticeEntry & { kind: 'noticeRaised' }, at: Instant): void {
  const { state, emit } = stepping;
  const { notice: id, key, facts, level, station = null, size = null, stop = null, look, within } = entry;
  if (state.notices.some((known) => known.id === id)) return;
  const whole = state.notices.find((open) => open.id === within && !open.ended);
  state.noticeKeys[key] = whole?.id ?? id;
  if (whole) {
    whole.joined.push({ at, key, kind: facts.kind, station, facts });
    if (whole.joined.length > JOINED_KEPT) {
      whole.joined.shift();
      whole.joinedMore += 1;
    }
    comesAgain(whole, at);
    tellStory(whole, { at, what: 'joined', by: null, detail: facts.kind });
    return emit({ kind: 'NoticeMoved', at, notice: whole });
  }
  const notice: NoticeRecord = {
    ...{ id, key, kind: facts.kind, level, at, since: instantFromMs(entry.since), facts },
    ...{
      station,
      size,
      stop,
      look,
      joined: [],
      joinedMore: 0,
      taken: null,
      hasAt: null,
      owner: null,
      handed: null,
      normalAt: null,
    },
    ...{ shelved: null, round: 0, told: [], step: 0, ended: null, story: [] },
  };
  tellStory(notice, { at, what: 'raised', by: null, detail: null });
  state.notices.push(notice);
  dropOldest(state.notices);
  emit({ kind: 'NoticeMoved', at, notice });
}

/** What has ended leaves first; where all are open the oldest leaves, and its record says that it was open. */
function dropOldest(notices: NoticeRecord[]): void {
  if (notices.length <= NOTICES_KEPT) return;
  const ended = notices.findIndex((notice) => notice.ended !== null);
  notices.splice(Math.max(0, ended), 1);
}

type Moving = Exclude<NoticeEntry, { kind: 'noticeRaised' | 'noticeSettings' }>;

function move(state: FoldState, notice: NoticeRecord, entry: Moving, at: Instant): void {
  const by = entry.author;
  switch (entry.kind) {
    case 'noticeTold': {
      const { person, way, round, step, failed, why } = entry;
      notice.told.push({ at, person, way, round, step, failed, ...(why === undefined ? {} : { why }) });
      if (notice.told.length > TOLD_KEPT) notice.told.shift();
      return;
    }
    case 'noticeStep':
      if (entry.step <= notice.step) return;
      notice.step = entry.step;
      return tellStory(notice, { at, what: 'escalated', by: null, detail: String(entry.step) });
    case 'noticeMoved':
      return moveByItself(state, notice, entry, at);
    case 'noticeTaken':
      return take(notice, at, entry);
    case 'noticeHanded':
      return hand(notice, at, by, entry.to);
    case 'noticeShelved':
      if (notice.ended) return;
      notice.shelved = { at, until: instantFromMs(entry.until), by, words: entry.words };
      return tellStory(notice, { at, what: 'shelved', by, detail: null });
    case 'noticeUnshelved':
      return unshelve(notice, at, by);
    case 'noticeClosed':
      return closeNotice(state, notice, entry, at);
  }
}

/** [NL2] Acknowledged: nobody more is told of it. Back to normal it has ended with that; taken over, it is somebody else's. */
function take(notice: NoticeRecord, at: Instant, entry: Moving & { kind: 'noticeTaken' }): void {
  if (notice.ended) return;
  if (!notice.taken) return acknowledge(notice, at, entry.author);
  if (!isTakenOver(notice, entry.over)) return;
  has(notice, at, entry.author);
  tellStory(notice, { at, what: 'takenOver', by: entry.author, detail: null });
}

function acknowledge(notice: NoticeRecord, at: Instant, by: Author): void {
  if (notice.shelved) unshelve(notice, at, by);
  has(notice, at, by);
  tellStory(notice, { at, what: 'taken', by, detail: null });
  if (notice.normalAt !== null && !needsPerson(notice.kind))
    endNotice(notice, { at, how: 'normal', by, said: null });
}

function has(notice: NoticeRecord, at: Instant, by: Author): void {
  notice.taken = { at, by };
  notice.hasAt = at;
  notice.owner = by.kind === 'person' ? by.number : null;
  notice.handed = null;
}

/** Whoever hands it over has taken it. */
function hand(notice: NoticeRecord, at: Instant, by: Author, to: string): void {
  if (notice.ended) return;
  if (!notice.taken) acknowledge(notice, at, by);
  if (notice.ended) return;
  // a round of its own: whoever has it now is told of it, also who was told before
  if (notice.owner !== to) {
    notice.round += 1;
    notice.hasAt = at;
    notice.handed = { at, by, from: notice.owner };
  }
  notice.owner = to;
  tellStory(notice, { at, what: 'handed', by, detail: to });
}

/** [NL3] What comes back begins a new round of telling, whoever was told before. */
function unshelve(notice: NoticeRecord, at: Instant, by: Author | null): void {
  if (notice.ended || !notice.shelved) return;
  notice.shelved = null;
  // what is back to normal is told to nobody anew
  if (notice.normalAt === null) newRound(notice);
  tellStory(notice, { at, what: 'unshelved', by, detail: null });
}

/** It was back to normal, and holds once more: by itself, or by what joins it. */
function comesAgain(notice: NoticeRecord, at: Instant): void {
  if (notice.normalAt === null) return;
  notice.normalAt = null;
  // what comes and goes is not told each time
  if (between(roundBegan(notice), at) < ROUND_LEAST) return;
  newRound(notice);
  tellStory(notice, { at, what: 'again', by: null, detail: null });
}

/** When the newest round of telling began. */
function roundBegan({ at, story }: NoticeRecord): Instant {
  return story.findLast(({ what }) => what === 'again' || what === 'unshelved')?.at ?? at;
}

function newRound(notice: NoticeRecord): void {
  notice.round += 1;
  notice.step = 0;
  notice.taken = null;
  notice.hasAt = null;
  notice.owner = null;
  notice.handed = null;
}

/** [NL3] Back to normal once nothing of what it is about holds any more; whoever took it before has ended it with that. */
function moveByItself(
  { noticeKeys }: FoldState,
  notice: NoticeRecord,
  entry: Moving & { kind: 'noticeMoved' },
  at: Instant,
): void {
  if ('facts' in entry && entry.facts) notice.facts = entry.facts;
  if (entry.to === 'again' && entry.since !== undefined) notice.since = instantFromMs(entry.since);
  if (entry.to === 'again' && entry.look !== undefined) notice.look = entry.look;
  switch (entry.to) {
    case 'normal':
      if (notice.normalAt !== null || Object.values(noticeKeys).includes(notice.id)) return;
      notice.normalAt = at;
      if (notice.ended) return;
      tellStory(notice, { at, what: 'normal', by: null, detail: null });
      if (notice.taken && !needsPerson(notice.kind))
        endNotice(notice, { at, how: 'normal', by: null, said: null });
      return;
    case 'again':
      return notice.ended ? undefined : comesAgain(notice, at);
    case 'stronger':
      notice.look = entry.look;
      return;
    case 'changed':
      return;
    case 'unshelved':
      return unshelve(notice, at, null);
    case 'ended':
      return notice.ended ? undefined : endNotice(notice, { at, how: 'never', by: null, said: null });
  }
}
