import { statfs } from 'node:fs/promises';
import type { Logger } from 'pino';
import type { NoticeRecord } from '../../model/notices/notice.ts';
import type { Telling } from '../../model/notices/recipients.ts';
import { after, epochMs, type Instant, type Span } from '../../model/units/units.ts';
import type { Outside } from '../../model/view/lineView.ts';
import { replayAddress } from '../../model/replay/address.ts';
import { noticeView } from '../../model/view/noticesView.ts';
import { wordsIn } from '../../model/words/words.ts';
import { testedSubject } from '../../model/records/subjects.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { parcelOf } from './notices.ts';
import type { Outbox } from './outbox.ts';
import type { Pages } from './pages.ts';
import { StationsJudge } from './stationsJudged.ts';
import { startWatcher, type Watcher } from './watcher.ts';
import type { Message } from './ways/way.ts';

const words = wordsIn('en');

/** A disk is asked no oftener than this, and tests are looked up no oftener. Milliseconds. */
const DISK_EVERY_MS = 10_000;
const TESTED_EVERY_MS = 10_000;

export interface LineNoticesParts {
  readonly live: LiveLine;
  readonly records: Records;
  readonly outside: () => Outside;
  readonly now: () => number;
  /** The folder whose disk is watched. */
  readonly data: string;
  /** Where screens are reached, for links: ends with a slash. */
  readonly address: () => string;
  /** Undefined where there are no ways out. */
  readonly outbox: () => Outbox | undefined;
  readonly pages: Pages;
  readonly log: Pick<Logger, 'warn'>;
}

/** Judges, writes and tells the notices of one line, as long as its gateway runs. */
export function startLineNotices(parts: LineNoticesParts): Watcher {
  const { live, records, outside, now, pages, log } = parts;
  const judge = new StationsJudge(records, live);
  return startWatcher({
    ...{ live, outside, now, log },
    stations: (settings) => judge.now(settings),
    tested: everySoOften(now, TESTED_EVERY_MS, () =>
      live.recordsDue() ? undefined : testedOf(records, live),
    ),
    recordedSince: everySoOften(now, TESTED_EVERY_MS, () => records.first(live.line.id)),
    disk: diskOf(parts),
    isOpenFor: (person) => pages.isOpenFor(person),
    offer: (notice, tellings) => offer(parts, notice, tellings),
    withdraw: () => parts.outbox()?.withdraw(),
  });
}

function offer(parts: LineNoticesParts, notice: Readonly<NoticeRecord>, tellings: readonly Telling[]): void {
  const outbox = parts.outbox();
  if (!outbox) return;
  const at = parts.now();
  outbox.offer(
    tellings.map(({ person, way, step }) => parcelOf(messageOf(parts, notice, step), { person, way }, at)),
  );
}

function messageOf(
  { live, address }: LineNoticesParts,
  notice: Readonly<NoticeRecord>,
  step: number,
): Message {
  const { index, state } = live.fold();
  const { line } = live;
  const view = noticeView(index, state, notice, { now: live.now() });
  const link = `${address()}notices/${notice.id}`;
  const shown = { line: line.id, at: view.since, station: view.station?.id };
  // the address of the screens ends with the slash that a path begins with
  const replay = `${address().slice(0, -1)}${replayAddress(shown)}`;
  const { subject, text } = words.noticeSaid.asText(view, {
    line: line.name,
    zone: line.zone,
    ...{ link, replay },
    nameOf: (id) => line.stations.find((one) => one.id === id)?.name ?? id,
  });
  return {
    notice: notice.id,
    line: line.id,
    lineName: line.name,
    ...(view.station ? { station: view.station.id, stationName: view.station.name } : {}),
    level: notice.level,
    at: epochMs(notice.at),
    zone: line.zone,
    what: subject,
    text,
    link,
    ...(words.noticeSaid.isSeen(view.kind) ? { replay } : {}),
    round: notice.round,
    step,
  };
}

function testedOf(records: Records, live: LiveLine): ReadonlyMap<string, Instant> {
  const { devices, guards } = live.line;
  const last = [...devices, ...guards].flatMap(({ id }): readonly (readonly [string, Instant])[] => {
    const [newest] = records.newestOf(
      { line: live.line.id, kind: 'entry', subject: testedSubject(id) },
      after(live.now(), 1 as Span),
      1,
    );
    return newest ? [[id, newest.at]] : [];
  });
  return new Map(last);
}

/** A disk that does not answer is not told as full: the log says why. */
function diskOf({ data, now, log }: LineNoticesParts) {
  return everySoOften(now, DISK_EVERY_MS, async () => {
    try {
      const { bavail, bsize } = await statfs(data);
      return { freeBytes: bavail * bsize };
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === undefined) throw error;
      log.warn(words.notices.log.disk(data, words.gateway.system.why(code)));
      return undefined;
    }
  });
}

function everySoOften<Value>(now: () => number, ms: number, ask: () => Value): () => Value {
  let known: { readonly at: number; readonly value: Value } | undefined;
  return () => {
    const at = now();
    // a clock that was put back does not make it longer
    if (!known || at - known.at >= ms || at < known.at) known = { at, value: ask() };
    return known.value;
  };
}
