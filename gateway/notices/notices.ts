import { createHash, randomInt } from 'node:crypto';
import type { Logger } from 'pino';
import type { WaysWrong } from '../../model/view/seen.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Push } from '../people/people.ts';
import { Outbox, type OutboxParts } from './outbox.ts';
import type { OutboxClock } from './outboxBounds.ts';
import { type OpenWays, openWays, stampOf } from './openWays.ts';
import { type OutboxStore, openOutboxStore } from './outboxStore.ts';
import type { OpenPush } from './ways/pushRoutes.ts';
import { failed, type Message, type Parcel } from './ways/way.ts';
import { type Ways, WAYS_FILE, type WaysFault } from './waysFile.ts';

const words = wordsIn('en').ways;

/** The ways out for notices, as long as a gateway runs: as the file of ways says them now. */
export interface Notices {
  readonly ways: Ways;
  /** What is wrong in the file of ways, and which ways are left out by that. */
  readonly faults: readonly WaysFault[];
  readonly store: OutboxStore;
  readonly outbox: Outbox;
  /** Undefined where the file of ways has no push. */
  readonly push: OpenPush | undefined;
  /** Reads the file again where it has changed, or something in it was wrong. */
  readAgain(): Promise<void>;
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
  /** Browsers take push only from where they are reached by https. */
  readonly encrypted?: boolean;
  readonly clock?: OutboxClock;
}

/** The ways out from when there is a file of ways: undefined before. */
export interface WaysOut {
  readonly notices: () => Notices | undefined;
  /** Opens them where the file is there by now. */
  look(): Promise<void>;
  stop(): Promise<void>;
}

/** [NR4] Opens the ways out at once, or as soon as a file of ways is put into the data folder. */
export async function awaitNotices(opening: Opening): Promise<WaysOut> {
  let notices = await startNotices(opening);
  let trouble: string | undefined;
  const look = async () => {
    try {
      notices ??= await startNotices(opening);
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      const { message, why, mend } = error;
      if (message !== trouble) opening.log.warn(words.notOpened(`${message} ${why} ${mend}`));
      trouble = message;
    }
  };
  const following = follow(look);
  return {
    notices: () => notices,
    look,
    stop: async () => {
      await following.stop();
      await notices?.stop();
    },
  };
}

/** Opens the ways out where the data folder has a file of ways; undefined where it has none. */
export async function startNotices({
  data,
  log,
  say,
  record,
  unwanted,
  subscriptions,
  encrypted = true,
  clock = processClock,
}: Opening): Promise<Notices | undefined> {
  const opening = { data, subscriptions, now: clock.now };
  const first = await openWays(opening);
  if (first === undefined) return undefined;
  let current = first;
  // one that is changed as the file is: the outbox asks it each time
  const made = new Map(first.made);
  tell(first, { log, say, encrypted });
  const store = openOutboxStore(data);
  const outbox = new Outbox({
    ...{ store, ways: made, clock, log },
    // while something in the file is wrong, nobody knows that a way was taken out of it
    missing: () => (current.faults.length > 0 ? failed('wayWrong') : failed('noWay', { lasting: true })),
    ...(record === undefined ? {} : { record }),
    ...(unwanted === undefined ? {} : { unwanted }),
  });
  const take = (next: OpenWays) => {
    const isOther = JSON.stringify(next.faults) !== JSON.stringify(current.faults);
    if (next.stamp !== current.stamp || isOther) tell(next, { log, say, encrypted });
    current = next;
    made.clear();
    for (const [id, way] of next.made) made.set(id, way);
  };
  const readAgain = async () => {
    if (current.faults.length === 0 && stampOf(data) === current.stamp) return;
    const next = await openWays(opening);
    take(next ?? { ...current, faults: [gone()] });
  };
  const following = follow(readAgain);
  return {
    get ways() {
      return current.read.ways;
    },
    get faults() {
      return current.faults;
    },
    get push() {
      return current.push;
    },
    ...{ store, outbox, readAgain },
    stop: async () => {
      await following.stop();
      await outbox.stop();
      store.close();
    },
  };
}

/** The file is looked at so often, one look after the other. Milliseconds. */
const FOLLOWED_MS = 5000;

function follow(look: () => Promise<void>): { readonly stop: () => Promise<void> } {
  let looking: Promise<void> | undefined;
  const timer = setInterval(() => {
    looking ??= look().finally(() => {
      looking = undefined;
    });
  }, FOLLOWED_MS);
  return {
    stop: async () => {
      clearInterval(timer);
      await looking;
    },
  };
}

function tell(
  { made, faults, push }: OpenWays,
  { log, say, encrypted }: Pick<Opening, 'log' | 'say' | 'encrypted'>,
): void {
  const wrong = new Set(faults.flatMap(({ ways }) => ways));
  say(words.begun([...made.keys()].filter((id) => !wrong.has(id))));
  if (push) say(wordsIn('en').push.begun(push.settings.subject));
  if (push && encrypted === false) say(wordsIn('en').push.notEncrypted);
  for (const { at, what, why, mend } of faults)
    log.warn(words.file.logged(WAYS_FILE, at, `${what} ${why} ${mend}`));
}

/** What the screens of the line say of it; undefined where nothing is wrong. */
export function waysWrongOf(faults: readonly WaysFault[]): WaysWrong | undefined {
  const [first] = faults;
  if (first === undefined) return undefined;
  const { at, what, mend } = first;
  return { line: at.line, what, mend, more: faults.length - 1 };
}

function gone(): WaysFault {
  const { gone: what, goneWhy: why, goneMend: mend } = words.file;
  return { at: { line: 1, column: 1 }, what, why, mend, ways: [] };
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
