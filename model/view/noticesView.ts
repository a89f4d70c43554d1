import type { Author } from '../entries/entries.ts';
import { newestOf } from '../entries/saidEntries.ts';
import { lastSaid } from '../fold/noticeEnd.ts';
import type { FoldState } from '../fold/state.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { Done, Found } from '../notices/answers.ts';
import {
  type LookFirst,
  type NoticeEnd,
  type NoticeFacts,
  type NoticeKind,
  type NoticeRecord,
  type NoticeSaid,
  type NoticeState,
  noticeState,
  type NoticeStory,
  type NoticeTold,
} from '../notices/notice.ts';
import { comingSteps, type ComingStep } from '../notices/coming.ts';
import { countNotices, type NoticeCounts } from '../notices/counts.ts';
import type { NoticeLevel } from '../notices/recipients.ts';
import { NOBODY_SHUT_OFF, type ShutOff } from '../notices/shutOff.ts';
import { FIRST_SETTINGS } from '../notices/settings.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';

/** Notices that are open, and the newest that have ended: what screens show, and what an open page sounds for. */
export interface NoticesView {
  /** Not taken before taken before shelved; the gravest, then the newest first within each. */
  readonly open: readonly NoticeView[];
  /** [NS1] Of all of them, also of those that are not listed here. */
  readonly counts: NoticeCounts;
  /** Open ones, shelved ones among them, for which there was no room. */
  readonly further: number;
  readonly ended: readonly NoticeView[];
}

export interface NoticeView {
  readonly id: string;
  readonly kind: NoticeKind;
  readonly level: NoticeLevel;
  readonly state: NoticeState;
  readonly at: EpochMs;
  readonly since: EpochMs;
  readonly facts: NoticeFacts;
  readonly station: NoticeStation | undefined;
  /** Name of the size that ran. */
  readonly size: string | undefined;
  readonly stop: string | undefined;
  readonly look: readonly LookFirst[];
  readonly joined: readonly JoinedView[];
  readonly joinedMore: number;
  readonly taken: { readonly at: EpochMs; readonly by: Author } | undefined;
  /** Since when whoever has it has it; whoever takes it over says from when on it was had. */
  readonly hasAt: EpochMs | undefined;
  readonly owner: string | undefined;
  /** [NR1] The access of whoever has it has ended: somebody else should have it. */
  readonly ownerShutOff: boolean;
  readonly normalAt: EpochMs | undefined;
  readonly shelved:
    | { readonly at: EpochMs; readonly until: EpochMs; readonly by: Author; readonly words: string }
    | undefined;
  /** Rounds of telling: a page that sounded for one sounds again for the next. */
  readonly round: number;
  readonly told: readonly ToldView[];
  /** Who will be told, and when, as long as nobody takes it. */
  readonly coming: readonly ComingView[];
  readonly ended: EndedView | undefined;
  readonly story: readonly StoryView[];
}

export interface NoticeStation {
  readonly id: string;
  readonly number: number;
  readonly name: string;
  readonly drawing: string;
}

export interface JoinedView {
  readonly at: EpochMs;
  readonly kind: NoticeKind;
  readonly station: string | undefined;
  /** Its own numbers, as they were when it joined; missing in what an earlier version recorded. */
  readonly facts: NoticeFacts | undefined;
}

export type ToldView = Omit<NoticeTold, 'at'> & { readonly at: EpochMs };
export type ComingView = Omit<ComingStep, 'at'> & { readonly at: EpochMs };
export type StoryView = Omit<NoticeStory, 'at'> & { readonly at: EpochMs };

export interface EndedView {
  readonly at: EpochMs;
  readonly how: 'closed' | 'normal' | 'never';
  readonly by: Author | undefined;
  readonly said: SaidView | undefined;
  /** [NL10] What was said before, the oldest first; who said otherwise, when and why. */
  readonly corrections: readonly SaidCorrectionView[];
  /** Id of what was said last, by which it is corrected, as long as the line holds it. */
  readonly correctable: string | undefined;
}

export interface SaidView {
  readonly at: EpochMs;
  readonly by: Author;
  readonly found: Found;
  readonly done: Done;
  readonly words: string | undefined;
}

export interface SaidCorrectionView {
  readonly at: EpochMs;
  readonly by: Author;
  readonly why: string | undefined;
  readonly before: SaidView;
}

const OPEN_SHOWN = 30;
const ENDED_SHOWN = 12;
const TOLD_SHOWN = 20;
const STORY_SHOWN = 30;
const ORDER: readonly NoticeState[] = ['raised', 'returned', 'taken', 'shelved', 'ended'];
const GRAVEST: readonly NoticeLevel[] = ['urgent', 'call', 'note'];

export function noticesView(index: LineIndex, state: Readonly<FoldState>, known: KnownBeside): NoticesView {
  const view = (notice: NoticeRecord) => noticeView(index, state, notice, known);
  const open = state.notices.filter(({ ended }) => ended === null).toSorted(graver);
  const ended = state.notices.filter((notice) => notice.ended !== null);
  return {
    open: open.slice(0, OPEN_SHOWN).map(view),
    counts: countNotices(state.notices),
    further: Math.max(0, open.length - OPEN_SHOWN),
    ended: ended
      .toSorted((a, b) => b.ended!.at - a.ended!.at)
      .slice(0, ENDED_SHOWN)
      .map(view),
  };
}

function graver(a: NoticeRecord, b: NoticeRecord): number {
  return (
    ORDER.indexOf(noticeState(a)) - ORDER.indexOf(noticeState(b)) ||
    GRAVEST.indexOf(a.level) - GRAVEST.indexOf(b.level) ||
    b.at - a.at
  );
}

/** What is known beside the tape: the moment, and whose access has ended. */
export interface KnownBeside {
  readonly now: Instant;
  readonly shutOff?: ShutOff | undefined;
}

/** One notice, from the state or from the records. */
export function noticeView(
  index: LineIndex,
  state: Pick<Readonly<FoldState>, 'noticeSettings' | 'notices' | 'said'>,
  notice: Readonly<NoticeRecord>,
  { now, shutOff = NOBODY_SHUT_OFF }: KnownBeside,
): NoticeView {
  const { id, kind, level, facts, look, joinedMore, taken, owner, shelved, round, ended } = notice;
  const station = index.line.stations.find((one) => one.id === notice.station);
  const settings = state.noticeSettings?.settings ?? FIRST_SETTINGS;
  const coming = comingSteps(settings, notice, { line: index.line, now, shutOff });
  return {
    ...{ id, kind, level, facts, look, joinedMore, round },
    state: noticeState(notice),
    at: epochMs(notice.at),
    since: epochMs(notice.since),
    station: station && {
      id: station.id,
      number: station.number,
      name: station.name,
      drawing: station.drawing,
    },
    size: notice.size === null ? undefined : index.sizeById.get(notice.size)?.name,
    stop: notice.stop ?? undefined,
    joined: notice.joined.map((one) => ({
      at: epochMs(one.at),
      kind: one.kind,
      station: index.line.stations.find(({ id: own }) => own === one.station)?.name,
      facts: one.facts,
    })),
    taken: taken ? { at: epochMs(taken.at), by: taken.by } : undefined,
    hasAt: momentOf(notice.hasAt),
    owner: owner ?? undefined,
    ownerShutOff: owner !== null && shutOff.has(owner),
    normalAt: momentOf(notice.normalAt),
    shelved: shelved ? { ...shelved, at: epochMs(shelved.at), until: epochMs(shelved.until) } : undefined,
    told: notice.told.slice(-TOLD_SHOWN).map(dated),
    coming: coming.map(dated),
    ended: ended ? endedView(ended, correctableOf(state, notice, ended)) : undefined,
    story: notice.story.slice(-STORY_SHOWN).map(dated),
  };
}

function endedView(
  { at, how, by, said, corrections }: NoticeEnd,
  correctable: string | undefined,
): EndedView {
  return {
    at: epochMs(at),
    how,
    by: by ?? undefined,
    said: said ? saidView(said) : undefined,
    corrections: corrections.map((one) => ({
      at: epochMs(one.at),
      by: one.by,
      why: one.why ?? undefined,
      before: saidView(one.before),
    })),
    correctable,
  };
}

function saidView({ at, by, found, done, words }: NoticeSaid): SaidView {
  return { at: epochMs(at), by, found, done, words: words ?? undefined };
}

/** Both have to be held still, what was said and the notice that it is said of. */
function correctableOf(
  { notices, said }: Pick<Readonly<FoldState>, 'notices' | 'said'>,
  { id }: Readonly<NoticeRecord>,
  ended: NoticeEnd,
): string | undefined {
  const entry = lastSaid(ended)?.entry;
  const held = notices.some((one) => one.id === id) && said.find(({ first }) => first.id === entry);
  return held ? newestOf(held) : undefined;
}

function dated<Row extends { readonly at: Instant }>(row: Row): Omit<Row, 'at'> & { readonly at: EpochMs } {
  return { ...row, at: epochMs(row.at) };
}

function momentOf(at: Instant | null): EpochMs | undefined {
  return at === null ? undefined : epochMs(at);
}
