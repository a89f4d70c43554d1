import { createHash, randomInt } from 'node:crypto';
import type { Logger } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Push } from '../people/people.ts';
import { Outbox, type OutboxParts } from './outbox.ts';
import type { OutboxClock } from './outboxBounds.ts';
import { type OutboxStore, openOutboxStore } from './outboxStore.ts';
import type { MailParts } from './ways/mail.ts';
import { readSecret } from './ways/secret.ts';
import { openPush } from './ways/push.ts';
import type { OpenPush } from './ways/pushRoutes.ts';
import type { Message, Parcel, Way } from './ways/way.ts';
import { webhookWay } from './ways/webhook.ts';
import { readWays, type Ways } from './waysFile.ts';

const words = wordsIn('en').ways;
/** A signature is as hard to forge as its key is to guess. Characters. */
const KEY_LEAST = 32;

/** The ways out for notices, as long as a gateway runs. */
export interface Notices {
  readonly ways: Ways;
  readonly store: OutboxStore;
  readonly outbox: Outbox;
  /** Undefined where the file of ways has no push. */
  readonly push: OpenPush | undefined;
  stop(): Promise<void>;
}

interface Opening {
  readonly data: string;
  readonly log: Pick<Logger, 'info' | 'warn' | 'error'>;
  readonly say: (text: string) => void;
  /** Puts on the tape what has become of a notice. */
  readonly record?: OutboxParts['record'];
  /** Why a letter that waits is wanted no more. */
  readonly unwanted?: OutboxParts['unwanted'];
  /** Where the browsers are kept that take notices by push; without them none does. */
  readonly subscriptions?: Push | undefined;
  readonly clock?: OutboxClock;
}

/** Opens the ways out where the data folder has a file of ways; undefined where it has none. */
export async function startNotices({
  data,
  log,
  say,
  record,
  unwanted,
  subscriptions,
  clock = processClock,
}: Opening): Promise<Notices | undefined> {
  const ways = await readWays(data);
  if (ways === undefined) return undefined;
  const made = await waysOf(ways, clock.now);
  const push = await pushOf(ways, { data, subscriptions, now: clock.now });
  if (push) made.set(push.way.id, push.way);
  const store = openOutboxStore(data);
  const outbox = new Outbox({
    ...{ store, ways: made, clock, log },
    ...(record === undefined ? {} : { record }),
    ...(unwanted === undefined ? {} : { unwanted }),
  });
  say(words.begun([...made.keys()]));
  if (push) say(wordsIn('en').push.begun(push.open.settings.subject));
  return {
    ways,
    store,
    outbox,
    push: push?.open,
    stop: async () => {
      await outbox.stop();
      store.close();
    },
  };
}

/** What a person is told by one way, under the id that it always has. */
export function parcelOf(
  message: Message,
  to: { readonly person: string; readonly way: string },
  now: number,
): Parcel {
  const parts = [message.line, message.notice, message.round, to.person, to.way];
  const id = createHash('sha256').update(JSON.stringify(parts)).digest('hex').slice(0, 32);
  return { id, ...to, offeredAt: now, message };
}

/** Each way by its name. A password or key that cannot be read is told now, and not when the first notice goes out. */
async function waysOf(
  { mail, webhooks, addresses, trusted }: Ways,
  now: () => number,
): Promise<Map<string, Way>> {
  const more = { secret: readSecret, ...(trusted === undefined ? {} : { trusted }) };
  if (mail?.logIn) readSecret(mail.logIn.password);
  for (const { id, key } of webhooks) {
    if (readSecret(key).length >= KEY_LEAST) continue;
    const { shortKey, shortKeyWhy, shortKeyMend } = words.secret;
    throw new LineError(shortKey(id), { why: shortKeyWhy(KEY_LEAST), mend: shortKeyMend });
  }
  const made = [
    ...(mail
      ? [await mailBy({ ...more, settings: mail, addressOf: (person) => addresses.get(person) })]
      : []),
    ...webhooks.map((settings) => webhookWay({ ...more, settings, now })),
  ];
  return new Map(made.map((way) => [way.id, way]));
}

async function pushOf(
  { push, trusted }: Ways,
  { subscriptions, ...more }: Pick<Opening, 'data' | 'subscriptions'> & { readonly now: () => number },
) {
  if (push === undefined || subscriptions === undefined) return undefined;
  return openPush({ settings: push, subscriptions, ...more, ...(trusted === undefined ? {} : { trusted }) });
}

/** The mail library is loaded only where mail goes out. */
async function mailBy(parts: MailParts): Promise<Way> {
  const { mailWay } = await import('./ways/mail.ts');
  return mailWay(parts);
}

/** The timer of Node takes no longer wait. */
const LATER_MOST = 2 ** 31 - 1;

const processClock: OutboxClock = {
  now: () => Date.now(),
  steady: () => performance.now(),
  chance: () => randomInt(1_000_000) / 1_000_000,
  later: (ms, act) => {
    const timer = setTimeout(act, Math.min(ms, LATER_MOST));
    return () => clearTimeout(timer);
  },
};
