import type { Author, Entry } from '../entries/entries.ts';
import {
  needsPerson,
  type NoticeEnd,
  type NoticeRecord,
  type NoticeSaid,
  type NoticeStory,
} from '../notices/notice.ts';
import type { Instant } from '../units/units.ts';
import type { FoldState, SaidRecord } from './state.ts';
import type { Stepping } from './stepping.ts';

const STORY_KEPT = 100;

/** How a notice ends, before anybody has corrected anything. */
type FirstEnd = Omit<NoticeEnd, 'corrections'>;

export function endNotice(notice: NoticeRecord, ended: FirstEnd): void {
  notice.ended = { ...ended, corrections: [] };
  notice.shelved = null;
  if (ended.how !== 'closed')
    tellStory(notice, { at: ended.at, what: 'ended', by: ended.by, detail: ended.how });
}

export function tellStory(notice: NoticeRecord, story: NoticeStory): void {
  notice.story.push(story);
  // the first is how it was raised
  if (notice.story.length > STORY_KEPT) notice.story.splice(1, 1);
}

/** [NL4] What was found and done; of one that has ended already it is said later. */
export function closeNotice(
  { noticeKeys }: FoldState,
  notice: NoticeRecord,
  entry: Entry & { kind: 'noticeClosed' },
  at: Instant,
): void {
  const { id, author: by, found, done, words = null } = entry;
  const said: NoticeSaid = { at, by, entry: id, found, done, words };
  tellStory(notice, { at, what: 'closed', by, detail: null });
  if (notice.ended) {
    sayOtherwise(notice, notice.ended, said, { at, by, why: null });
    return;
  }
  // nobody went for what joined it from elsewhere: where that holds still, it is told by itself
  for (const { key, station } of notice.joined)
    if (key !== undefined && key !== notice.key && (station === null || station !== notice.station))
      if (noticeKeys[key] === notice.id) delete noticeKeys[key];
  endNotice(notice, { at, how: 'closed', by, said });
}

/**
 * [NL10] A closing says something else now, or nothing: what was said before stays beside it. Where the closing that ended the
 * notice is withdrawn, and what the notice is about holds still, it is open again, and whoever had it has it.
 */
export function correctClosing({ state, emit }: Stepping, { first, corrections }: SaidRecord): void {
  const last = corrections.at(-1);
  if (first.kind !== 'noticeClosed' || !last) return;
  const notice = state.notices.find(({ id }) => id === first.notice);
  if (!notice) return;
  const { ended } = notice;
  const { author: by, body, why } = last;
  const now = { at: state.at, by, why };
  const before = ended ? lastSaid(ended) : undefined;
  // what was said by another entry is not changed by this one
  if (ended && before?.entry !== first.id) return;
  if (body?.kind === 'noticeClosed') {
    const at = before?.at ?? now.at;
    const { found, done, words = null } = body;
    const said: NoticeSaid = { at, by, entry: first.id, found, done, words };
    if (ended) sayOtherwise(notice, ended, said, now);
    else endNotice(notice, { at: now.at, how: 'closed', by, said });
    tellStory(notice, { at: now.at, what: 'corrected', by, detail: null });
  } else if (ended) {
    tellStory(notice, { at: now.at, what: 'withdrawn', by, detail: null });
    if (mayReopen(state, notice, ended)) reopen(notice, now.at, by);
    else sayOtherwise(notice, ended, null, now);
  }
  emit({ kind: 'NoticeMoved', at: now.at, notice });
}

/** What was said of a notice last, also where that was withdrawn. */
export function lastSaid({ said, corrections }: NoticeEnd): NoticeSaid | undefined {
  return said ?? corrections.at(-1)?.before;
}

interface Saying {
  readonly at: Instant;
  readonly by: Author;
  readonly why: string | null;
}

function sayOtherwise(
  notice: NoticeRecord,
  ended: NoticeEnd,
  said: NoticeSaid | null,
  { at, by, why }: Saying,
): void {
  const { said: before, corrections } = ended;
  const more = before === null ? [] : [{ at, by, why, before }];
  notice.ended = { ...ended, said, corrections: [...corrections, ...more] };
}

/** It ended with what was said, and with nothing else; and nothing else is open about the same. */
function mayReopen({ notices }: FoldState, notice: NoticeRecord, { how, at, said }: NoticeEnd): boolean {
  const byIt = how === 'closed' && said?.at === at && !needsPerson(notice.kind);
  return byIt && !notices.some((one) => one !== notice && one.key === notice.key && !one.ended);
}

function reopen(notice: NoticeRecord, at: Instant, by: Author): void {
  notice.ended = null;
  if (notice.normalAt === null) tellStory(notice, { at, what: 'reopened', by, detail: null });
  else endNotice(notice, { at, how: 'normal', by, said: null });
}
