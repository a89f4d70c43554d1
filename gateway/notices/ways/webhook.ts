import { createHmac } from 'node:crypto';
import { LineError } from '../../../model/trouble/trouble.ts';
import { post } from './post.ts';
import type { SecretPlace } from './secret.ts';
import { failed, type Outcome, type Parcel, type Way } from './way.ts';

/** A receiver of notices by HTTP, as the file of ways describes it: a pager, a DECT or an SMS box. */
export interface WebhookSettings {
  readonly id: string;
  readonly address: string;
  /** Key of the signature. */
  readonly key: SecretPlace;
}

export interface WebhookParts {
  readonly settings: WebhookSettings;
  /** Certificates that are trusted in place of those that the system trusts (PEM). */
  readonly trusted?: string;
  readonly secret: (place: SecretPlace) => string;
  readonly now: () => number;
  /** How long it may be silent. Milliseconds. */
  readonly patienceMs?: number;
}

/** Posts JSON with a signature. It follows no redirect: what is signed for one address goes to no other. */
export function webhookWay(parts: WebhookParts): Way {
  return { id: parts.settings.id, send: (parcel, signal) => send(parts, parcel, signal) };
}

/** The body, the same for each try. */
export function webhookBody({ id, person, message }: Pick<Parcel, 'id' | 'person' | 'message'>): string {
  const { notice, line, lineName, station, stationName, level, at, what, text, link, replay, round, trial } =
    message;
  return JSON.stringify({
    id,
    person,
    notice,
    level,
    at: new Date(at).toISOString(),
    line: { id: line, name: lineName },
    ...(station === undefined ? {} : { station: { id: station, name: stationName ?? station } }),
    what,
    text,
    link,
    ...(replay === undefined ? {} : { replay }),
    round,
    ...(trial ? { trial } : {}),
  });
}

/** HMAC-SHA256 (RFC 2104) over the seconds since 1970, a full stop and the body: an old request cannot be sent anew later. */
export function signatureOf(key: string, seconds: number, body: string): string {
  return createHmac('sha256', key).update(`${seconds}.${body}`).digest('hex');
}

async function send(parts: WebhookParts, parcel: Parcel, signal: AbortSignal): Promise<Outcome> {
  const { settings, secret, now } = parts;
  let key: string;
  try {
    key = secret(settings.key);
  } catch (error) {
    if (error instanceof LineError) return failed('secret');
    throw error;
  }
  const body = webhookBody(parcel);
  const seconds = Math.floor(now() / 1000);
  const headers = {
    'content-type': 'application/json',
    'content-length': Buffer.byteLength(body),
    'idempotency-key': `"${parcel.id}"`,
    'scoreline-timestamp': String(seconds),
    'scoreline-signature': `sha256=${signatureOf(key, seconds, body)}`,
  };
  return post({ ...parts, address: new URL(settings.address), headers, body }, signal);
}
