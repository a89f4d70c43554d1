import type { Author, Entry } from '../entries/entries.ts';
import { CARTON } from '../fold/account.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import { noticeState } from '../notices/notice.ts';
import type { RecordBodies } from '../records/records.ts';
import { type Instant, SECOND } from '../units/units.ts';
import type { Row } from './columns.ts';

/** The number of a person, or the id of a position, screen or file; null for what Scoreline did itself. Never a name. */
export function byOf(author: Author | null | undefined): string | null {
  switch (author?.kind) {
    case 'person':
      return author.number;
    case 'position':
      return author.position;
    case 'screen':
      return author.screen;
    case 'file':
      return author.file;
    default:
      return null;
  }
}

export function stopRow(index: LineIndex, stop: RecordBodies['stop']): Row<'stops'> {
  const { answer, cause } = stop;
  return {
    stop: stop.id,
    began: stop.begin,
    ended: stop.end,
    end_seen: stop.end === null ? null : stop.endSeen,
    lasted_s: lasted(stop.begin, stop.end),
    class: stop.class,
    kind: stop.kind,
    reason_number: stop.reason === 0 ? null : stop.reason,
    first_fault: index.reasonByNumber.get(stop.reason)?.name ?? null,
    station: stationName(index, stop.station),
    station_id: stop.station,
    known_from: stop.from,
    said_reason: answer?.reason ?? null,
    said_words: answer?.words ?? null,
    said_cause: cause === undefined ? null : JSON.stringify({ parts: cause.parts, words: cause.words }),
    said_by: byOf(cause?.author ?? answer?.author),
    episode: stop.episode,
    try_number: stop.attempt,
    cartons_since_restart: stop.cartonsBefore,
    last_good_before: known(stop.lastGoodBefore),
    first_good_after: stop.firstGood,
    lost_cartons: stop.lost === null ? null : stop.lost / CARTON,
    size: sizeName(index, stop.size),
    order: stop.order,
  };
}

export function pressRow({ line }: LineIndex, press: RecordBodies['press']): Row<'presses'> {
  const device = line.devices[press.device];
  return {
    press: press.id,
    device: device?.name ?? null,
    device_id: device?.id ?? null,
    device_kind: device?.kind ?? null,
    pressed: press.pressed,
    released: press.released,
    reset: press.reset,
    restarted: press.restarted,
    first_good_after: press.firstGood,
    role: press.role,
    known_by: press.known,
    stop: press.stop,
    said_button: press.candidate,
  };
}

export function changeoverRow(index: LineIndex, changeover: RecordBodies['changeover']): Row<'changeovers'> {
  return {
    kind: changeover.kind,
    began: changeover.begin,
    from_size: sizeName(index, changeover.from),
    to_size: sizeName(index, changeover.to),
    trial_began: changeover.trialBegan,
    production_back: changeover.productionBack,
    first_good: changeover.firstGood,
    at_rate: changeover.atRate,
    ended: changeover.end,
    lasted_s: lasted(changeover.begin, changeover.end),
    trial_cartons: changeover.trialCartons,
  };
}

/** One that lasts has no end. */
export function gapRow(gap: {
  readonly from: Instant;
  readonly to: Instant | null;
  readonly kind: string;
}): Row<'gaps'> {
  return { began: gap.from, ended: gap.to, lasted_s: lasted(gap.from, gap.to), kind: gap.kind };
}

export function noticeRow(index: LineIndex, notice: RecordBodies['notice']): Row<'notices'> {
  const { ended, taken } = notice;
  const said = ended?.said;
  return {
    notice: notice.id,
    kind: notice.kind,
    level: notice.level,
    about: notice.key,
    raised: notice.at,
    since: notice.since,
    station: stationName(index, notice.station),
    station_id: notice.station,
    size: sizeName(index, notice.size),
    stop: notice.stop,
    taken: taken?.at ?? null,
    taken_by: byOf(taken?.by),
    back_to_normal: notice.normalAt,
    ended: ended?.at ?? null,
    ended_how: ended?.how ?? noticeState(notice),
    found: said?.found ?? null,
    done: said?.done ?? null,
    said_words: said?.words ?? null,
    said_by: byOf(said?.by),
    facts: JSON.stringify(notice.facts),
  };
}

/** A whole page that somebody signed is left out: it stands in the changes. */
export function entryRow({ at, entry, said }: RecordBodies['entry']): Row<'entries'> {
  return {
    entry: said?.first.id ?? entry.id,
    line_time: at,
    kind: said?.first.kind ?? entry.kind,
    by_kind: entry.author.kind,
    by: byOf(entry.author),
    said: bodyText(entry),
    corrections: said?.corrections.length ?? 0,
    withdrawn: said?.corrections.at(-1)?.body === null,
    said_first: said ? bodyText(said.first) : null,
  };
}

function bodyText(entry: Entry): string {
  const { id: _id, at: _at, author: _author, kind: _kind, ...body } = entry;
  return JSON.stringify('page' in body ? { ...body, page: undefined } : body);
}

export function stationName({ line, stationAt }: LineIndex, id: string | null): string | null {
  const place = id === null ? undefined : stationAt.get(id);
  return place === undefined ? id : (line.stations[place]?.name ?? id);
}

export function sizeName({ sizeById }: LineIndex, id: string | null): string | null {
  return id === null ? null : (sizeById.get(id)?.name ?? id);
}

function lasted(from: Instant, to: Instant | null): number | null {
  return to === null ? null : (to - from) / SECOND;
}

/** The fold has −1 or 0 where nothing was heard yet. */
function known(at: Instant): Instant | null {
  return at > 0 ? at : null;
}
