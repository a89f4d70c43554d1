import type { Author, Entry } from '../../model/entries/entries.ts';
import type { CorrectableBody } from '../../model/entries/saidEntries.ts';
import { lastSaid } from '../../model/fold/noticeEnd.ts';
import type { FoldState } from '../../model/fold/state.ts';
import type { Line } from '../../model/line/line.ts';
import { answersOf } from '../../model/notices/answers.ts';
import { isTakenOver, type NoticeRecord } from '../../model/notices/notice.ts';
import type { NoticePersonBody } from '../../model/notices/noticeEntries.ts';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import { NOBODY_SHUT_OFF, type ShutOff } from '../../model/notices/shutOff.ts';
import { after, epochMs, type Instant, instantFromMs, minutes } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { EntryRefused } from '../api/entrySchema.ts';

const words = wordsIn('en').notices.refused;

/** A shelf has an end, and it is no cupboard. */
const SHELVED_MOST = minutes(7 * 24 * 60);

type OfNotice = Extract<Entry, Exclude<NoticePersonBody, { kind: 'noticeSettings' }>>;

/** Refuses what cannot be done with a notice as it stands; the same done twice by two people is refused to the second, with who was first. */
export function checkNotice(
  entry: OfNotice,
  line: Line,
  state: Readonly<FoldState>,
  { now, shutOff = NOBODY_SHUT_OFF }: { readonly now: Instant; readonly shutOff?: ShutOff | undefined },
): void {
  const notice = state.notices.find(({ id }) => id === entry.notice);
  if (!notice) return refuse(words.unknown(entry.notice));
  switch (entry.kind) {
    case 'noticeTaken':
      if (notice.ended) refuse(words.ended);
      return mayBeTaken(entry, notice, line);
    case 'noticeHanded':
      if (notice.ended) refuse(words.ended);
      return mustBeReachable(entry.to, state, shutOff);
    case 'noticeShelved':
      if (notice.ended) refuse(words.ended);
      return mustBeAhead(instantFromMs(entry.until), now);
    case 'noticeUnshelved':
      return notice.shelved ? undefined : refuse(words.notShelved);
    case 'noticeClosed':
      mayBeClosed(notice, line, state);
      return mustFit(entry, notice);
  }
}

/** [NL10] What corrects a closing is said of the same notice, which is held still and says what that closing said. */
export function checkClosing(
  first: Extract<Entry, { kind: 'noticeClosed' }>,
  body: CorrectableBody | undefined,
  state: Readonly<FoldState>,
): void {
  const notice = state.notices.find(({ id }) => id === first.notice);
  if (!notice) return refuse(words.unknown(first.notice));
  if (body?.kind === 'noticeClosed') {
    if (body.notice !== first.notice) refuse(words.otherNotice);
    mustFit(body, notice);
  }
  const { ended } = notice;
  if (ended && lastSaid(ended)?.entry !== first.id) refuse(words.saidSince);
}

/** [NL2] Somebody may take over what another one has, once it is seen who that is. */
function mayBeTaken(
  { author, over }: OfNotice & { kind: 'noticeTaken' },
  notice: NoticeRecord,
  line: Line,
): void {
  const { taken, hasAt, owner } = notice;
  if (!taken || isTakenOver(notice, over)) return;
  const since = momentSaid(hasAt ?? taken.at, line);
  if (author.kind === 'person' && author.number === owner) refuse(words.yours(since));
  refuse(words.takenAlready(owner === null ? whoSaid(taken.by, line) : words.person(owner), since));
}

/**
 * [NL10] What somebody said already is corrected, and never replaced by who comes second. [NL5] What read open or pressed while
 * the line ran is closed where the finding is, by a person's number.
 */
function mayBeClosed({ facts, ended, taken }: NoticeRecord, line: Line, { open }: Readonly<FoldState>): void {
  if (ended?.said) {
    const { by, at, ...answer } = ended.said;
    return refuse(words.closedAlready(whoSaid(by, line), momentSaid(at, line), answer));
  }
  if (ended) return;
  // a finding that the list has no room for any more cannot be closed there
  if (facts.kind === 'ranOn' && open.some(({ id }) => id === facts.finding)) refuse(words.closeFinding);
  if (!taken) refuse(words.takeFirst);
}

/** [NS2] What was found and done is one of what fits the kind of notice. */
function mustFit(
  { found, done }: Pick<OfNotice & { kind: 'noticeClosed' }, 'found' | 'done'>,
  { kind }: NoticeRecord,
): void {
  const fit = answersOf(kind);
  if (!fit.found.includes(found)) refuse(words.foundFits(found, fit.found));
  if (!fit.done.includes(done)) refuse(words.doneFits(done, fit.done));
}

function whoSaid(by: Author, { loading }: Line): string {
  return wordsIn('en').screen.notices.who(
    by,
    (position) => loading.positions.find(({ id }) => id === position)?.name ?? position,
  );
}

function momentSaid(at: Instant, { zone }: Line): string {
  return words.moment(epochMs(at), zone);
}

function mustBeAhead(until: Instant, now: Instant): void {
  if (until <= now) refuse(words.shelfPast);
  if (until > after(now, SHELVED_MOST)) refuse(words.shelfLong);
}

/** Handed over to a person who is told of nothing, or whose access has ended, it would go unseen. */
function mustBeReachable(to: string, { noticeSettings }: Readonly<FoldState>, shutOff: ShutOff): void {
  const known = noticeSettings?.settings.who.recipients.some(({ person }) => person === to) ?? false;
  if (!known) refuse(words.handedToNobody(to));
  if (shutOff.has(to)) refuse(words.handedShutOff(to));
}

/** Stations, shifts and plans that the line has not, and rules that would be on with nobody able to notice. */
export function checkSettings({ who }: NoticeSettings, line: Line): void {
  const stations = new Set(line.stations.map(({ id }) => id));
  const shifts = new Set(line.calendar.shifts.map(({ id }) => id));
  const named = [
    ...who.recipients.flatMap(({ stations: own = [] }) => own),
    ...who.plans.flatMap(({ stations: own = [] }) => own),
  ];
  const station = named.find((id) => !stations.has(id));
  if (station !== undefined) refuse(words.noStation(station));
  const shift = who.recipients.flatMap(({ when }) => when.shifts ?? []).find((id) => !shifts.has(id));
  if (shift !== undefined) refuse(words.noShift(shift));
}

function refuse(told: { readonly what: string; readonly why: string; readonly mend: string }): never {
  throw new EntryRefused(told.what, told);
}
