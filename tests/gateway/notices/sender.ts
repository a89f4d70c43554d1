import { pino } from 'pino';
import { Outbox, type OutboxStep } from '../../../gateway/notices/outbox.ts';
import { BOUNDS } from '../../../gateway/notices/outboxBounds.ts';
import { openOutboxStore } from '../../../gateway/notices/outboxStore.ts';
import { webhookWay } from '../../../gateway/notices/ways/webhook.ts';
import { parcel } from './parcels.ts';

/**
 * A process that gives notices n1 to n3, and one that somebody took meanwhile, to an outbox, sends them to a receiver, and ends itself without warning right
 * after a step, when that step is done for the so many-th time. With no step it prints `through` when all are recorded.
 */
const [folder, address, endAfter, times] = process.argv.slice(2) as [string, string, string?, string?];
const store = openOutboxStore(folder);
const settings = { id: 'pager', address, key: { env: 'UNUSED' } };
const way = webhookWay({ settings, secret: () => 'a key for a test', now: () => Date.now() });
let done = 0;

function stepDone(step: OutboxStep): void {
  if (step !== endAfter) return;
  done += 1;
  if (done === Number(times)) process.kill(process.pid, 'SIGKILL');
}

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
  record: async ({ message, state }) => void process.stdout.write(`${message.notice} ${state}\n`),
  unwanted: ({ notice }) => (notice === 'taken' ? { why: 'taken', by: null, at: null } : undefined),
  stepDone,
});
outbox.offer(['n1', 'n2', 'n3', 'taken'].map((notice) => parcel(notice, 'pager')));
const looking = setInterval(() => {
  const { waiting, sending } = store.counts();
  if (waiting > 0 || sending > 0 || store.notRecorded(1).length > 0) return;
  clearInterval(looking);
  void outbox.stop().then(() => process.stdout.write('through\n'));
}, 5);
