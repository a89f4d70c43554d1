import { type IncomingMessage, request as httpRequest } from 'node:http';
import { request as httpsRequest } from 'node:https';
import { certificateCode } from './certificateCode.ts';
import { failed, type Failed, type Outcome } from './way.ts';

const PATIENCE_MS = 15_000;
/** A receiver may finish its answer so long after the head of it. Milliseconds. */
const BODY_MS = 1000;

export interface Posting {
  readonly address: URL;
  readonly headers: Record<string, string | number>;
  readonly body: string | Buffer;
  /** Certificates that are trusted in place of those that the system trusts (PEM). */
  readonly trusted?: string | readonly string[];
  readonly now: () => number;
  /** How long the receiver may be silent. Milliseconds. */
  readonly patienceMs?: number;
}

/** Posts once, and says what came of it; an answer’s status is the `code`. No redirect is followed. */
export async function post(posting: Posting, signal: AbortSignal): Promise<Outcome> {
  try {
    return outcomeOf(await answerTo(posting, signal), posting.now());
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (signal.aborted) return failed('hung');
    if (code === undefined) throw error;
    return failure(code);
  }
}

/** The head of the answer: its body says nothing that is needed, and is not waited for. */
function answerTo(
  { address, headers, body, trusted, patienceMs = PATIENCE_MS }: Posting,
  signal: AbortSignal,
): Promise<IncomingMessage> {
  const options = { method: 'POST', headers, signal, timeout: patienceMs, agent: false as const };
  return new Promise((resolve, reject) => {
    const asked =
      address.protocol === 'https:'
        ? httpsRequest(address, {
            ...options,
            minVersion: 'TLSv1.2',
            ...(trusted === undefined ? {} : { ca: typeof trusted === 'string' ? trusted : [...trusted] }),
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
