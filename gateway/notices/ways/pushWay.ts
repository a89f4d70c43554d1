import { rootCertificates } from 'node:tls';
import webPush from 'web-push';
import { wordsIn } from '../../../model/words/words.ts';
import type { Subscription } from '../../people/subscriptions.ts';
import { post } from './post.ts';
import type { PushKeys } from './pushKeys.ts';
import { isServed, type PushSettings } from './pushSettings.ts';
import { failed, type Failed, type Outcome, type Parcel, type Way } from './way.ts';

const { mail } = wordsIn('en').ways;

export interface PushParts {
  readonly settings: PushSettings;
  readonly keys: PushKeys;
  readonly subscriptions: {
    of(person: string): readonly Subscription[];
    drop(endpoint: string): void;
  };
  /** Certificates that are trusted beside the system's (PEM). */
  readonly trusted?: string;
  readonly now: () => number;
  readonly patienceMs?: number;
}

/** A notice that nobody could take for so long is no longer news. Seconds. */
const KEPT_SECONDS = 4 * 3600;
/** So much is shown of a sentence; what is encrypted has at most 4,096 bytes (RFC 8291, 4). Characters. */
const SHOWN_MOST = 800;

/**
 * By the push services of a person's browsers. Told as soon as one of them has it; a browser that has given its
 * subscription up is forgotten. A repeat takes the place of the same message, at the service and on the screen.
 */
export function pushWay(parts: PushParts): Way {
  return { id: 'push', send: (parcel, signal) => send(parts, parcel, signal) };
}

/** What the browser's own part of this, `push.js`, shows; it leads to a page of the site that it was turned on at. */
export function pushBody({ id, message }: Pick<Parcel, 'id' | 'message'>): string {
  const { level, lineName, what, link, trial } = message;
  const { pathname, search } = new URL(link);
  const title = mail.subject({ level, lineName, what: '', ...(trial ? { trial } : {}) }).replace(/:\s*$/, '');
  return JSON.stringify({ id, title, body: what.slice(0, SHOWN_MOST), open: `${pathname}${search}`, level });
}

async function send(parts: PushParts, parcel: Parcel, signal: AbortSignal): Promise<Outcome> {
  const all = parts.subscriptions.of(parcel.person);
  const served = all.filter(({ endpoint }) => isServed(endpoint, parts.settings));
  const outcomes = await Promise.all(served.map((one) => sendTo(parts, one, parcel, signal)));
  if (outcomes.some((one) => one?.kind === 'told')) return { kind: 'told' };
  const failures = outcomes.filter((one): one is Failed => one?.kind === 'failed');
  return failures.find(({ lasting }) => !lasting) ?? failures[0] ?? failed('noAddress', { lasting: true });
}

/** Undefined where the browser takes nothing any more. */
async function sendTo(
  parts: PushParts,
  { endpoint, p256dh, auth }: Subscription,
  parcel: Parcel,
  signal: AbortSignal,
): Promise<Outcome | undefined> {
  const { settings, keys, subscriptions, trusted, now, patienceMs } = parts;
  const { headers, body } = webPush.generateRequestDetails(
    { endpoint, keys: { p256dh, auth } },
    pushBody(parcel),
    {
      vapidDetails: { subject: settings.subject, ...keys },
      contentEncoding: 'aes128gcm',
      TTL: KEPT_SECONDS,
      urgency: parcel.message.level === 'note' ? 'normal' : 'high',
      topic: parcel.id,
    },
  );
  const outcome = await post(
    {
      address: new URL(endpoint),
      headers: headers as Record<string, string | number>,
      body: body as Buffer,
      now,
      // what the plant trusts is its own; push services are out on the internet
      ...(trusted === undefined ? {} : { trusted: [...rootCertificates, trusted] }),
      ...(patienceMs === undefined ? {} : { patienceMs }),
    },
    signal,
  );
  if (!isGone(outcome)) return outcome;
  subscriptions.drop(endpoint);
  return undefined;
}

/** The subscription is not there any more (RFC 8030, 7.3). */
function isGone(outcome: Outcome): boolean {
  return (
    outcome.kind === 'failed' &&
    outcome.why.trouble === 'refused' &&
    (outcome.why.code === '404' || outcome.why.code === '410')
  );
}
