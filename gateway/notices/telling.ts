import type { Line } from '../../model/line/line.ts';
import { roundAt } from '../../model/notices/coming.ts';
import { recipientsOf } from '../../model/notices/heard.ts';
import { isHandedTo, type NoticeRecord, noticeState } from '../../model/notices/notice.ts';
import type { NoticeProgramBody } from '../../model/notices/noticeEntries.ts';
import {
  type RecipientSettings,
  type Telling,
  type Told,
  whomToTell,
} from '../../model/notices/recipients.ts';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import { type LeftOut, leftOut, type ShutOff, withoutShutOff } from '../../model/notices/shutOff.ts';
import { after, type Instant, minutes } from '../../model/units/units.ts';

/** The way that is no way out: a page that is open and sounds. */
export const PAGE = 'page';

export interface TellingParts {
  readonly line: Line;
  readonly settings: NoticeSettings;
  readonly now: Instant;
  readonly isOpenFor: (person: string) => boolean;
  /** Whose access has ended. */
  readonly shutOff: ShutOff;
}

/** Who is to be told of a notice now by ways out, and what is to be written of it. */
export interface Tellings {
  readonly out: readonly Telling[];
  readonly entries: readonly NoticeProgramBody[];
}

const NOTHING: Tellings = { out: [], entries: [] };

/**
 * Whom a notice is to reach now. A page that is not open is a way that has come to nothing as long as it is not. What was
 * given to the outbox before is asked for again, and is the same parcel.
 */
export function tellingsOf(notice: Readonly<NoticeRecord>, parts: TellingParts): Tellings {
  const { line, now, shutOff } = parts;
  const state = noticeState(notice);
  if (notice.taken) return handedOver(notice, parts);
  if (state !== 'raised' && state !== 'returned') return NOTHING;
  const meant = recipientsOf(notice, parts.settings, line.stations.length);
  const who = withoutShutOff(meant, shutOff);
  const { id, level, round, station } = notice;
  const head = { id, level, line: line.id, at: roundAt(notice), ...(station === null ? {} : { station }) };
  const told = notice.told.filter((one) => one.round === round);
  const standing = { told: [...told, ...closedPages(who, told, parts)], acknowledged: false };
  const { tell: all } = whomToTell(who, { calendar: line.calendar, zone: line.zone }, head, standing, now);
  // nobody further is called for what is back to normal
  const tell = state === 'returned' ? all.filter(({ step }) => step <= notice.step) : all;
  const reached = Math.max(-1, ...tell.map(({ step }) => step));
  const left = leftOut(meant, head, { zone: line.zone, at: now, shutOff }).filter(
    ({ step, afterMinutes }) =>
      step <= Math.max(reached, notice.step) ||
      (state === 'raised' && after(head.at, minutes(afterMinutes)) <= now),
  );
  return {
    out: tell.filter(({ way }) => way !== PAGE),
    entries: [
      ...marksOf(notice, left),
      ...(reached > notice.step ? [{ kind: 'noticeStep', notice: id, step: reached } as const] : []),
      ...tell
        .filter(({ way }) => way === PAGE)
        .map(
          ({ person, step }) =>
            ({ kind: 'noticeTold', notice: id, person, way: PAGE, round, step, failed: false }) as const,
        ),
    ],
  };
}

/** [NR1] What stands on the notice of those who were to be told and are not, as their access has ended: each once a round. */
function marksOf(
  { id, told, round }: Readonly<NoticeRecord>,
  left: readonly Pick<LeftOut, 'person' | 'way' | 'step'>[],
): readonly NoticeProgramBody[] {
  return left
    .filter(
      ({ person }) =>
        !told.some((one) => one.person === person && one.round === round && one.why === 'accessEnded'),
    )
    .map(({ person, way, step }) => ({
      ...{ kind: 'noticeTold', notice: id, person, way, round, step, failed: true, why: 'accessEnded' },
    }));
}

/** [NL2] Whoever it was handed to is told of it once, by each of their ways; nobody else is. */
function handedOver(
  notice: Readonly<NoticeRecord>,
  { settings, isOpenFor, shutOff }: TellingParts,
): Tellings {
  const { id, round, owner, told, ended } = notice;
  if (ended || owner === null || !isHandedTo(notice, owner)) return NOTHING;
  const ways = settings.who.recipients.find(({ person }) => person === owner)?.ways ?? [];
  if (shutOff.has(owner)) {
    const left = ways.slice(0, 1).map((way) => ({ person: owner, way, step: notice.step }));
    return { out: [], entries: marksOf(notice, left) };
  }
  const wanted = ways.filter(
    (way) =>
      !told.some((one) => one.person === owner && one.way === way && one.round === round) &&
      (way !== PAGE || isOpenFor(owner)),
  );
  return {
    out: wanted
      .filter((way) => way !== PAGE)
      .map((way) => ({ person: owner, way, step: notice.step, because: 'step' })),
    entries: wanted
      .filter((way) => way === PAGE)
      .map(() => ({
        kind: 'noticeTold',
        notice: id,
        ...{ person: owner, way: PAGE, round, step: notice.step, failed: false },
      })),
  };
}

function closedPages(
  { recipients }: RecipientSettings,
  told: readonly Told[],
  { isOpenFor }: TellingParts,
): readonly Told[] {
  return recipients.flatMap(({ person, ways }) =>
    ways.includes(PAGE) &&
    !isOpenFor(person) &&
    !told.some((one) => one.person === person && one.way === PAGE)
      ? [{ person, way: PAGE, failed: true }]
      : [],
  );
}
