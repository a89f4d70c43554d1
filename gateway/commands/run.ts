import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Logger } from 'pino';
import type { Change } from '../../model/signals/signals.ts';
import type { LineEvent } from '../../model/fold/events.ts';
import type { LineError } from '../../model/trouble/trouble.ts';
import { instantFromMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { createApi } from '../api/api.ts';
import { readSymptoms, symptomsPath } from '../binding/symptomsFile.ts';
import { knownHost } from '../api/hostNames.ts';
import { serverRows, signalRows } from '../api/signalRows.ts';
import { type Bound, readLineFile } from '../binding/binding.ts';
import { ExportJobs } from '../export/jobs.ts';
import type { Intake } from '../intake/intake.ts';
import { type LiveLine, type LiveNote, newEntryId, startLiveLine } from '../live/liveLine.ts';
import { startSockets } from '../live/sockets.ts';
import { startLineNotices } from '../notices/lineNotices.ts';
import type { Letter } from '../notices/outboxStore.ts';
import { Pages } from '../notices/pages.ts';
import type { Unwanted } from '../notices/outbox.ts';
import { recordLetter, unwantedNow } from '../notices/recordLetter.ts';
import { awaitNotices, type WaysOut, waysWrongOf } from '../notices/notices.ts';
import { startForgetting } from '../people/forgetting.ts';
import { openPeople } from '../people/people.ts';
import { openRecords } from '../records/records.ts';
import { startRetention } from '../retention/retention.ts';
import { StoredTape } from '../tape/storedTape.ts';
import { openSqliteTape } from '../tape/sqliteTape.ts';
import { createEntrance } from '../tls/entrance.ts';
import { openCertificate, tellWay } from '../tls/tls.ts';
import type { Asked } from './arguments.ts';
import { dashboardFolder } from './dashboard.ts';
import { checkFolder, setAsideUnlessSame } from './dataFolder.ts';
import { demoHistory } from './demoHistory.ts';
import { type Demo, demoLineFile, type Run, runOf, startDemo } from './demo.ts';
import { intakeOptions, outsideOf } from './intakes.ts';
import { followOrders, listOrders } from './orderList.ts';
import { keepPast, type Past } from './past.ts';
import { isLoopback, listen } from './web.ts';

const words = wordsIn('en').gateway;

export interface Gateway {
  readonly address: string;
  readonly panels: readonly string[];
  /** Resolves when something ended that the gateway cannot go on without. */
  readonly failed: Promise<LineError>;
  stop(): Promise<void>;
}

export interface Voices {
  readonly log: Logger;
  readonly say: (text: string) => void;
}

/** The demo has a past to look at. */
const HISTORY_DAYS = 7;

/** Runs a line from its file: tape, fold, intake, screens; the demo line with its simulator beside it. */
export async function run(asked: Asked, voices: Voices): Promise<Gateway> {
  const ends = new Ends();
  try {
    return await open(asked, voices, ends);
  } catch (error) {
    await ends.all();
    throw error;
  }
}

async function open(asked: Asked, { log, say }: Voices, ends: Ends): Promise<Gateway> {
  const isDemo = asked.line === undefined;
  const bound = await readLineFile(asked.line ?? demoLineFile);
  const { line } = bound;
  const symptomsFile = symptomsPath(asked.line ?? demoLineFile);
  const symptoms = existsSync(symptomsFile) ? await readSymptoms(symptomsFile, line) : undefined;
  say(words.step.line(line.name));
  checkFolder(asked);
  const now = () => Date.now();
  const aside = isDemo ? setAsideUnlessSame(asked, now()) : undefined;
  if (aside !== undefined) say(words.step.setAside(aside));
  const simulated = isDemo ? runOf(line, { ...asked, now }) : undefined;
  const tape = await openSqliteTape(asked.data, new Map([[line.id, line.signals]]), (trouble) =>
    log.error(words.inOneLine(trouble)),
  );
  ends.add(() => tape.close());
  say(words.step.tape(asked.data, inWords(tape.end(line.id))));
  const records = openRecords(asked.data);
  ends.add(async () => records.close());
  const people = openPeople(asked.data, { now });
  ends.add(async () => people.close());
  const stopForgetting = startForgetting(people, log);
  ends.add(async () => stopForgetting());
  if (asked.newAdminCode) say(wordsIn('en').people.newCode(people.newAdminCode()));
  else if (people.firstCode !== undefined) say(wordsIn('en').people.firstCode(people.firstCode));
  const certificate = await openCertificate(asked.tls, { ...asked, now, log, say });
  ends.add(async () => certificate?.stop());
  const entrance = createEntrance(asked.tls, certificate);
  const intakes: Intake[] = [];
  const speed = isDemo ? asked.speed : 1;
  const ownClock = speed !== 1 || (simulated?.fixed ?? false);
  const out: { notices?: WaysOut['notices'] } = {};
  const outside = () => ({
    ...outsideOf(bound, intakes, ownClock),
    shutOff: people.shutOff(),
    waysWrong: waysWrongOf(out.notices?.()?.faults ?? []),
  });
  const live = await startLiveLine({
    line,
    tape,
    now,
    speed,
    outside,
    records,
    told: (note) => tell(note, { log, say }),
  });
  ends.add(() => live.stop());
  const listedAt = live.fold().newest === undefined && simulated ? simulated.began : now();
  await listOrders(bound, live, newEntryId, listedAt);
  ends.add(followOrders(bound, live, { newId: newEntryId, now, log }));
  const record = (letter: Letter) => recordLetter(live, letter, now());
  const subscriptions = people.push;
  const unwanted = (letter: Unwanted) => unwantedNow(live, letter, people.shutOff());
  const encrypted = entrance.by !== undefined;
  const waysOut = await awaitNotices({
    data: asked.data,
    log,
    say,
    record,
    unwanted,
    subscriptions,
    encrypted,
  });
  const { notices } = waysOut;
  out.notices = notices;
  ends.add(() => waysOut.stop());
  const lines = new Map([[line.id, live]]);
  const signals = () => signalRows(bound, live, intakes);
  const servers = () => serverRows(bound, intakes);
  const known = knownHost(asked.names);
  const background: { past?: Past } = {};
  const pages = new Pages();
  const past = {
    records,
    symptoms: () => symptoms,
    status: () => background.past?.status() ?? ({ kind: 'whole' } as const),
    cancel: () => void background.past?.stop(),
  };
  const exports = new ExportJobs({
    folder: join(asked.data, 'exports'),
    tape: () => new StoredTape(join(asked.data, 'tape.sqlite')),
    records,
    now,
  });
  ends.add(() => exports.stop());
  const api = createApi({
    lines,
    tape,
    past,
    now,
    signals,
    servers,
    known,
    entrance,
    people,
    notices,
    exports,
    pages,
    dashboard: dashboardFolder,
    log,
  });
  const web = await listen(api, asked.port, asked.host, certificate?.current());
  certificate?.follow(web.renew);
  if (!isLoopback(asked.host)) say(words.step.openToAll(asked.host));
  tellWay(asked.tls, say);
  ends.add(() => web.stop());
  const sockets = startSockets(web.server, lines, now, { known, people, entrance, pages });
  ends.add(() => sockets.stop());
  // the OPC UA library takes its seconds to load: meanwhile the simulated line starts
  const starting = simulated && demoLine(bound, asked, simulated, live, say);
  const [demo, { startIntake }] = await Promise.all([starting, import('../intake/intake.ts')]);
  if (demo) ends.add(() => demo.stop());
  const address = () => notices()?.ways.screens ?? web.address;
  const outbox = () => notices()?.outbox;
  const watcher = startLineNotices({
    live,
    records,
    outside,
    now,
    data: asked.data,
    address,
    outbox,
    pages,
    log,
  });
  ends.add(() => watcher.stop());
  const stopping = new AbortController();
  for (const server of bound.servers) {
    const endpoint = demo?.endpoint ?? server.endpoint;
    say(words.step.connecting(server.id, endpoint));
    const parts = { bound, live, data: asked.data, log, stopping: stopping.signal, simulated: ownClock };
    const intake = startIntake(intakeOptions({ ...server, endpoint }, parts));
    intakes.push(intake);
    ends.add(() => intake.stop());
  }
  ends.add(async () => stopping.abort());
  const history = simulated && historyBefore(bound, asked, simulated);
  background.past = keepPast({ live, tape, records, anew: asked.rebuild ?? false, history, log, say });
  ends.add(async () => background.past?.stop());
  const { keep } = asked;
  if (keep) {
    const ready = () => background.past?.status().kind === 'whole';
    const parts = { live, tape, records, limits: keep, now: () => instantFromMs(now()), ready, log };
    ends.add(startRetention(parts));
  }
  return {
    address: web.address,
    panels: line.loading.positions.map((position) => `${web.address}panel/${position.id}`),
    failed: demo?.ended ?? new Promise(() => {}),
    stop: () => ends.all(),
  };
}

/** What has been opened, to be closed in the opposite order, each of it whatever becomes of the others. */
class Ends {
  private readonly ends: (() => Promise<void>)[] = [];

  add(end: () => Promise<void>): void {
    this.ends.push(end);
  }

  /** Rejects with the first trouble, when everything is closed. */
  async all(): Promise<void> {
    const troubles: unknown[] = [];
    for (let end = this.ends.pop(); end; end = this.ends.pop()) {
      await end().catch((error: unknown) => troubles.push(error));
    }
    if (troubles.length > 0) throw troubles[0];
  }
}

async function demoLine(
  bound: Bound,
  { data, speed }: Asked,
  simulated: Run,
  live: LiveLine,
  say: Voices['say'],
): Promise<Demo> {
  say(words.step.simulator);
  let played = 0;
  const past = async (changes: readonly Change[]) => {
    await live.offer(changes);
    played += changes.length;
    say(words.step.history(inWords(played)));
  };
  const { heardAt: newest, values, at } = live.fold().state;
  const link = bound.line.signals.findIndex((signal) => signal.role === 'link');
  const apart = values[link] === false ? at : undefined;
  return startDemo(bound, { data, run: simulated, speed, newest, apart, past });
}

/** Days of the simulated line before its tape: none where its clock is not the wall's. */
function historyBefore(bound: Bound, { data, historyDays = HISTORY_DAYS }: Asked, run: Run) {
  const from = run.began - historyDays * 86_400_000;
  if (run.fixed || run.speed !== 1 || historyDays === 0) return undefined;
  return (stopping: AbortSignal) =>
    demoHistory({ bound, data, seed: run.seed + 1, from, to: run.began, stopping });
}

/** Events are for whoever follows the log closely; trouble is for everyone. */
function tell(note: LiveNote, { log, say }: Voices): void {
  if (note.kind === 'folding') return say(words.step.folding(inWords(note.done), inWords(note.of)));
  if (note.kind === 'event') return tellEvent(note.event, log);
  if (note.kind === 'trouble') log.warn(words.inOneLine(note.trouble));
  else if (!note.whole) log.warn(note, words.tooLate);
  else if (note.kind === 'resumed' && note.without) log.warn(note, words.beginsWithout);
  else log.info(note, note.kind);
}

/** One line each, without what goes into tables only, and without what a person wrote. */
function tellEvent(event: LineEvent, log: Logger): void {
  if (event.kind === 'MinuteEnded') return;
  const { kind, at } = event;
  const short =
    event.kind === 'Amended'
      ? { kind, at, from: event.from }
      : event.kind === 'Entered'
        ? { kind, at, entry: event.entry.id }
        : event;
  log.info({ kind: 'event', event: short }, 'event');
}

function inWords(changes: number): string {
  return changes.toLocaleString('en-GB');
}
