import { createTransport, type NodemailerError, type SMTPTransportOptions } from 'nodemailer';
import { LineError } from '../../../model/trouble/trouble.ts';
import { wordsIn } from '../../../model/words/words.ts';
import { certificateCode } from './certificateCode.ts';
import type { SecretPlace } from './secret.ts';
import { failed, type Failed, type Outcome, type Parcel, type Way } from './way.ts';

const words = wordsIn('en').ways.mail;

/** A mail server, as the file of ways describes it. */
export interface MailSettings {
  readonly host: string;
  readonly port: number;
  /** tls: from the first byte. startTls: asked for, and nothing is sent without. none: in the clear, and no log-in. */
  readonly security: 'tls' | 'startTls' | 'none';
  readonly from: string;
  readonly logIn?: { readonly user: string; readonly password: SecretPlace };
}

export interface MailParts {
  readonly settings: MailSettings;
  /** Certificates that are trusted in place of those that the system trusts (PEM). */
  readonly trusted?: string;
  readonly secret: (place: SecretPlace) => string;
  /** A person's address; undefined where none is kept. Asked for each mail, so that one can be erased. */
  readonly addressOf: (person: string) => string | undefined;
  /** How long the server may take for each of its answers. Milliseconds. */
  readonly patienceMs?: number;
}

const PATIENCE_MS = 15_000;
/** A server's answer is a line or a few. Bytes. */
const ANSWER_MOST = 64 * 1024;

/** Mail by SMTP, a connection for each: there are few, and a server that was restarted is no trouble. */
export function mailWay(parts: MailParts): Way {
  return { id: 'mail', send: (parcel, signal) => send(parts, parcel, signal) };
}

/** Between its angle brackets: the same for each try of a parcel, so that a repeat is the same message (RFC 5322, 3.6.4). */
export function messageId({ id }: Pick<Parcel, 'id'>, from: string): string {
  return `${id}@${from.slice(from.lastIndexOf('@') + 1)}`;
}

async function send(parts: MailParts, parcel: Parcel, signal: AbortSignal): Promise<Outcome> {
  const to = parts.addressOf(parcel.person);
  if (to === undefined) return failed('noAddress', { lasting: true });
  let options: SMTPTransportOptions;
  try {
    options = connection(parts);
  } catch (error) {
    if (error instanceof LineError) return failed('secret');
    throw error;
  }
  try {
    await createTransport(options).sendMail({ ...letter(parcel, parts.settings.from, to), signal });
    return { kind: 'told' };
  } catch (error) {
    const { code } = error as NodemailerError;
    if (code === undefined) throw error;
    return failure(error as NodemailerError);
  }
}

function connection({
  settings,
  trusted,
  secret,
  patienceMs = PATIENCE_MS,
}: MailParts): SMTPTransportOptions {
  const { host, port, security, logIn } = settings;
  return {
    host,
    port,
    secure: security === 'tls',
    requireTLS: security === 'startTls',
    ignoreTLS: security === 'none',
    tls: { minVersion: 'TLSv1.2', ...(trusted === undefined ? {} : { ca: trusted }) },
    ...(logIn === undefined
      ? {}
      : { auth: { user: logIn.user, pass: secret(logIn.password) }, forceAuth: true }),
    connectionTimeout: patienceMs,
    greetingTimeout: patienceMs,
    socketTimeout: patienceMs,
    dnsTimeout: patienceMs,
    maxResponseSize: ANSWER_MOST,
    logger: false,
    disableFileAccess: true,
    disableUrlAccess: true,
  };
}

/** Plain text. It says that a program wrote it (RFC 3834), so that no absence is answered. */
function letter(parcel: Parcel, from: string, to: string) {
  const { message, offeredAt } = parcel;
  return {
    from: { name: 'Scoreline', address: from },
    to: { name: '', address: to },
    subject: words.subject(message).replaceAll(/\s+/g, ' '),
    text: message.trial ? message.text : words.text(message.text),
    messageId: `<${messageId(parcel, from)}>`,
    date: new Date(offeredAt),
    headers: { 'Auto-Submitted': 'auto-generated' },
  };
}

/** What a server says in the middle of a message is about that message; anything else is about the server. */
function failure(error: NodemailerError): Failed {
  const { code = '', responseCode, permanent, originalCode, timeoutType } = error;
  const answered = answerCode(error);
  if (code === 'EAUTH' || code === 'ENOAUTH' || NEEDS_LOG_IN.includes(responseCode ?? 0))
    return failed('logIn', answered);
  const certificate = certificateCode(originalCode) ?? certificateCode(code);
  if (certificate !== undefined) return failed('certificate', { code: certificate });
  if (code === 'ETLS')
    return failed(error.command === 'STARTTLS' ? 'notEncrypted' : 'notReached', coded(originalCode));
  if (responseCode !== undefined) {
    const aboutMessage = code === 'EENVELOPE' || code === 'EMESSAGE';
    return permanent && aboutMessage
      ? failed('refused', { ...answered, lasting: true })
      : failed('notNow', answered);
  }
  if (code === 'EENVELOPE') return failed('noAddress', { lasting: true });
  if (code === 'EPROTOCOL') return failed('notUnderstood');
  if (code === 'EABORT' || (code === 'ETIMEDOUT' && timeoutType !== 'CONNECT_TIMEOUT')) return failed('hung');
  if (code === 'ECONNECTION' || CLOSED.includes(originalCode ?? '')) return failed('closed');
  return failed('notReached', coded(originalCode ?? code));
}

/** RFC 4954: a log-in is needed, was not strong enough, or did not succeed. */
const NEEDS_LOG_IN: readonly number[] = [530, 534, 535, 538];
const CLOSED: readonly string[] = ['ECONNRESET', 'EPIPE'];

/** A reply's number and, where it has one, its enhanced status code (RFC 3463): never its text, which may name people. */
function answerCode({ responseCode, response }: NodemailerError): { readonly code?: string } {
  if (responseCode === undefined) return {};
  const enhanced = /^\d{3}[ -](\d\.\d{1,3}\.\d{1,3})\b/.exec(response ?? '')?.[1];
  return { code: enhanced === undefined ? String(responseCode) : `${responseCode} ${enhanced}` };
}

function coded(code: string | undefined): { readonly code?: string } {
  return code === undefined ? {} : { code };
}
