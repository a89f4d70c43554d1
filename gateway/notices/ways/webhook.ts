import { createHmac } from 'node:crypto';
import { request as httpRequest, type IncomingMessage } from 'node:http';
import { request as httpsRequest } from 'node:https';
import { LineError } from '../../../model/trouble/trouble.ts';
import { certificateCode } from './certificateCode.ts';
import type { SecretPlace } from './secret.ts';
import { failed, type Failed, type Outcome, type Parcel, type Way } from './way.ts';

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

const PATIENCE_MS = 15_000;
/** A receiver may finish its answer so long after the head of it. Milliseconds. */
const BODY_MS = 1000;

/** Posts JSON with a signature. It follows no redirect: what is signed for one address goes to no other. */
export function webhookWay(parts: WebhookParts): Way {
  return { id: parts.settings.id, send: (parcel, signal) => send(parts, parcel, signal) };
}

/** The body, the same for each try. */
export function webhookBody({ id, person, message }: Pick<Parcel, 'id' | 'person' | 'message'>): string {
  const { notice, line, lineName, station, stationName, level, at, what, text, link, round } = message;
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
    round,
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
  try {
    return outcomeOf(await answerTo(parts, { headers, body }, signal), now());
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (signal.aborted) return failed('hung');
    if (code === undefined) throw error;
    return failure(code);
  }
}

interface Posted {
  readonly headers: Record<string, string | number>;
  readonly body: string;
}

/** The head of the answer: its body says nothing that is needed, and is not waited for. */
function answerTo(
  { settings, trusted, patienceMs = PATIENCE_MS }: WebhookParts,
  { headers, body }: Posted,
  signal: AbortSignal,
): Promise<IncomingMessage> {
  const address = new URL(settings.address);
  const options = { method: 'POST', headers, signal, timeout: patienceMs, agent: false as const };
  return new Promise((resolve, reject) => {
    const asked =
      address.protocol === 'https:'
        ? httpsRequest(address, {
            ...options,
            minVersion: 'TLSv1.2',
            ...(trusted === undefined ? {} : { ca: trusted }),
          })
        : httpRequest(address, options);
    asked.on('timeout', () => asked.destroy(Object.assign(new Error('silent'), { code: 'ETIMEDOUT' })));
    asked.on('error', reject);
    asked.on('response', (answer) => {
      answer.on('error', () => {}); // it ended within its body, which nobody reads
      answer.resume();
      setTimeout(() => answer.destroy(), BODY_MS).unref();
      resolve(answer);
    });
    asked.end(body);
  });
}

/** The same message would be refused again: it is not understood, too large, of the wrong kind, or the address is gone. */
const LASTING: readonly number[] = [400, 404, 405, 410, 413, 415, 422];

function outcomeOf({ statusCode = 0, headers }: IncomingMessage, now: number): Outcome {
  const code = String(statusCode);
  if (statusCode >= 200 && statusCode < 300) return { kind: 'told' };
  if (statusCode >= 300 && statusCode < 400) return failed('elsewhere', { code, lasting: true });
  if (statusCode === 401 || statusCode === 403) return failed('logIn', { code });
  if (LASTING.includes(statusCode)) return failed('refused', { code, lasting: true });
  const waitMs = retryAfter(headers['retry-after'], now);
  return { ...failed('notNow', { code }), ...(waitMs === undefined ? {} : { waitMs }) };
}

/** Seconds or a date (RFC 9110, 10.2.3); undefined for anything else. */
function retryAfter(text: string | undefined, now: number): number | undefined {
  if (text === undefined) return undefined;
  const ms = /^\d{1,9}$/.test(text) ? Number(text) * 1000 : Date.parse(text) - now;
  return Number.isFinite(ms) ? Math.max(0, ms) : undefined;
}

function failure(code: string): Failed {
  const certificate = certificateCode(code);
  if (certificate !== undefined) return failed('certificate', { code: certificate });
  if (code === 'ETIMEDOUT') return failed('hung');
  if (code === 'ECONNRESET' || code === 'EPIPE') return failed('closed');
  if (code.startsWith('HPE_')) return failed('notUnderstood');
  return failed('notReached', { code });
}
