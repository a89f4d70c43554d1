import { randomUUID } from 'node:crypto';
import { pino } from 'pino';
import { startLiveLine } from '../../../gateway/live/liveLine.ts';
import { parcelOf } from '../../../gateway/notices/notices.ts';
import { Outbox } from '../../../gateway/notices/outbox.ts';
import { BOUNDS } from '../../../gateway/notices/outboxBounds.ts';
import { openOutboxStore } from '../../../gateway/notices/outboxStore.ts';
import { recordLetter } from '../../../gateway/notices/recordLetter.ts';
import { startWatcher } from '../../../gateway/notices/watcher.ts';
import { webhookWay } from '../../../gateway/notices/ways/webhook.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import type { Recipient } from '../../../model/notices/recipients.ts';
import { FIRST_SETTINGS } from '../../../model/notices/settings.ts';
import { type EpochMs, epochMs } from '../../../model/units/units.ts';
import { at, changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { stops } from '../../model/notices/noticeRows.ts';
import { messageOf } from './parcels.ts';

/**
 * A gateway's way of a notice, whole: two stations stop again and again, two people are told by a pager. It ends itself without
 * warning right after a step, when that step is done for the so many-th time. With no step it prints all that stands on the
 * tape of the notices, once everybody has been told.
 */
const [folder, address, endAfter, times] = process.argv.slice(2) as [string, string, string?, string?];
let done = 0;

function stepDone(step: string): void {
  if (step !== endAfter) return;
  done += 1;
  if (done === Number(times)) process.kill(process.pid, 'SIGKILL');
}

const line = smallLine();
const begun = Date.now();
/** The line's own time: it stands still at half a minute after six, and goes on with ours. */
const now = () => epochMs(at(30)) + (Date.now() - begun);
const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
const live = await startLiveLine({
  ...{ line, tape, now, speed: 1 },
  outside: () => ({ servers: [] }),
  told: () => {},
});
if (tape.end(line.id) === 0) await live.offer(changes(line, [...running(), ...goods(1, 30, 1)]));
if (live.fold().state.noticeSettings === null) await enterSettings();

const store = openOutboxStore(folder);
const way = webhookWay({
  settings: { id: 'pager', address, key: { env: 'UNUSED' } },
  secret: () => 'a key for a test',
  now: () => Date.now(),
});
const outbox = new Outbox({
  store,
  ways: new Map([['pager', way]]),
  clock: {
    now: () => Date.now(),
    steady: () => performance.now(),
    chance: () => 0,
    later: (ms, act) => {
      const timer = setTimeout(act, ms);
      return () => clearTimeout(timer);
    },
  },
  log: pino({ level: 'silent' }),
  bounds: { ...BOUNDS, backOff: { first: 10, most: 50 } },
  record: (letter) => recordLetter(live, letter, now()),
  stepDone,
});
const watcher = startWatcher({
  ...{ live, now, stepDone },
  outside: () => ({ servers: [] }),
  stations: () => [stops('fold'), stops('pick')],
  tested: () => new Map(),
  disk: async () => undefined,
  isOpenFor: () => false,
  offer: (notice, tellings) =>
    outbox.offer(
      tellings.map(({ person, way: by, step }) =>
        parcelOf(messageOf(notice.id, { round: notice.round, step }), { person, way: by }, Date.now()),
      ),
    ),
  log: { warn: (words: unknown) => process.stderr.write(`${String(words)}\n`) },
});
const looking = setInterval(() => {
  const { notices } = live.fold().state;
  if (notices.length < 2 || notices.some(({ told }) => told.length < 2)) return;
  clearInterval(looking);
  void end();
}, 20);
void watcher.turn();

async function end(): Promise<void> {
  await watcher.stop();
  await outbox.stop();
  store.close();
  const { notices } = live.fold().state;
  await live.stop();
  await tape.close();
  process.stdout.write(JSON.stringify(notices));
}

function enterSettings(): Promise<number> {
  const recipients = ['12', '13'].map(
    (person): Recipient => ({ person, ways: ['pager'], when: { quiet: [] } }),
  );
  return live.enter({
    id: randomUUID(),
    at: Math.round(now()) as EpochMs,
    author: { kind: 'person', number: '1' },
    kind: 'noticeSettings',
    settings: { ...FIRST_SETTINGS, who: { recipients, rotas: [], plans: [] } },
    why: 'two people',
  });
}
