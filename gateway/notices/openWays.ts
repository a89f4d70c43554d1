import { statSync } from 'node:fs';
import { join } from 'node:path';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Push } from '../people/people.ts';
import { openPush } from './ways/push.ts';
import type { OpenPush } from './ways/pushRoutes.ts';
import type { MailParts } from './ways/mail.ts';
import { readSecret } from './ways/secret.ts';
import { failed, type Way } from './ways/way.ts';
import { webhookWay } from './ways/webhook.ts';
import { readWays, type Ways, WAYS_FILE, type WaysFault, type WaysRead } from './waysFile.ts';

const words = wordsIn('en').ways;
/** A signature is as hard to forge as its key is to guess. Characters. */
const KEY_LEAST = 32;

/** The ways as the file said them, and what each of them needs. */
export interface OpenWays {
  readonly read: WaysRead;
  /** By which it is seen whether the file is another one. */
  readonly stamp: string;
  readonly faults: readonly WaysFault[];
  readonly made: ReadonlyMap<string, Way>;
  readonly push: OpenPush | undefined;
}

export interface WaysOpening {
  readonly data: string;
  readonly subscriptions?: Push | undefined;
  readonly now: () => number;
}

/** Reads the file of ways, and makes each way that it has; undefined where there is no such file. */
export async function openWays(opening: WaysOpening): Promise<OpenWays | undefined> {
  const stamp = stampOf(opening.data);
  const read = await readWays(opening.data);
  if (read === undefined) return undefined;
  const faults = [...read.faults];
  const fault = (way: string, { message, why, mend }: LineError, ways: readonly string[]) =>
    void faults.push({ at: read.placeOf(way), what: message, why, mend, ways });
  const made = await waysOf(read.ways, opening.now, fault);
  const push = await pushOf(read.ways, opening, fault);
  if (push) made.set(push.way.id, push.way);
  // what waits for a way that is wrong goes out once that is mended
  for (const id of faults.flatMap(({ ways }) => ways)) made.set(id, wrongWay(id));
  return { read, stamp, faults, made, push: push?.open };
}

/** By which it is seen that the file is another one; why it cannot be looked at is told when it is read. */
export function stampOf(data: string): string {
  try {
    const { mtimeMs, size, ino } = statSync(join(data, WAYS_FILE));
    return `${mtimeMs} ${size} ${ino}`;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    return code;
  }
}

function wrongWay(id: string): Way {
  return { id, send: async () => failed('wayWrong') };
}

type TellFault = (way: string, error: LineError, leftOut: readonly string[]) => void;

/**
 * Each way by its name. A password or key that cannot be read is told now, and not when the first notice goes out; it is read
 * anew each time, so that the way works once it can be. A key that can be guessed signs nothing.
 */
async function waysOf(
  { mail, webhooks, addresses, trusted }: Ways,
  now: () => number,
  fault: TellFault,
): Promise<Map<string, Way>> {
  const more = { secret: readSecret, ...(trusted === undefined ? {} : { trusted }) };
  const password = mail?.logIn?.password;
  if (password)
    orFault(
      () => readSecret(password),
      (error) => fault('mail', error, []),
    );
  for (const { id, key } of webhooks) {
    const text = orFault(
      () => readSecret(key),
      (error) => fault(id, error, []),
    );
    if (text === undefined || text.length >= KEY_LEAST) continue;
    const { shortKey, shortKeyWhy, shortKeyMend } = words.secret;
    const short = new LineError(shortKey(id), { why: shortKeyWhy(KEY_LEAST), mend: shortKeyMend });
    fault(id, short, [id]);
  }
  const made = [
    ...(mail
      ? [await mailBy({ ...more, settings: mail, addressOf: (person) => addresses.get(person) })]
      : []),
    ...webhooks.map((settings) => webhookWay({ ...more, settings, now })),
  ];
  return new Map(made.map((way) => [way.id, way]));
}

async function pushOf({ push, trusted }: Ways, { subscriptions, ...more }: WaysOpening, fault: TellFault) {
  if (push === undefined || subscriptions === undefined) return undefined;
  try {
    const opening = { settings: push, subscriptions, ...more };
    return await openPush({ ...opening, ...(trusted === undefined ? {} : { trusted }) });
  } catch (error) {
    if (!(error instanceof LineError)) throw error;
    fault('push', error, ['push']);
    return undefined;
  }
}

function orFault<Value>(ask: () => Value, tellFault: (error: LineError) => void): Value | undefined {
  try {
    return ask();
  } catch (error) {
    if (!(error instanceof LineError)) throw error;
    tellFault(error);
    return undefined;
  }
}

/** The mail library is loaded only where mail goes out. */
async function mailBy(parts: MailParts): Promise<Way> {
  const { mailWay } = await import('./ways/mail.ts');
  return mailWay(parts);
}
