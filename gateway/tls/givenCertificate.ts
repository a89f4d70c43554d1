import { createPrivateKey, type KeyObject, X509Certificate } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import { createSecureContext } from 'node:tls';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { covers, dayOf, fingerprintOf, type Held, heldOf } from './held.ts';
import type { Names } from './names.ts';
import type { Source, TlsAsked, TlsParts } from './tls.ts';

const english = wordsIn('en').gateway;
const words = english.tls;
/** A chain of certificates is some kilobytes. Bytes. */
const FILE_MOST = 1_000_000;
/** People are told so long before a certificate expires. Milliseconds. */
export const SOON_MS = 14 * 86_400_000;

type Files = Extract<TlsAsked, { readonly kind: 'files' }>;

interface GivenParts extends Pick<TlsParts, 'now' | 'log' | 'say'> {
  readonly names: Names;
}

/** A key and a certificate that somebody else made and renews: read at the start, and again whenever they change. */
export async function givenCertificate(files: Files, { names, now, log, say }: GivenParts): Promise<Source> {
  let seen = await read(files);
  const first = checked(files, seen, now());
  say(words.given(fingerprintOf(first), dayOf(first.until)));
  const uncovered = (held: Held) =>
    names.told
      .filter((name) => !covers(held, name))
      .map(({ value }) => words.notCovered(value, coveredBy(held)));
  for (const one of uncovered(first)) say(one);
  return {
    first,
    next: async () => {
      const found = await read(files);
      if (found.key === seen.key && found.cert === seen.cert) return undefined;
      seen = found; // what does not fit is told once, and not each time it is looked at
      const held = checked(files, found, now());
      for (const one of uncovered(held)) log.warn(one);
      return held;
    },
    warnings: ({ until }) => expiring(files, until, now()),
    refused: words.notTaken,
  };
}

function expiring({ certificate }: Files, until: number, now: number): readonly string[] {
  if (now >= until) return [words.hasExpired(certificate, dayOf(until))];
  return now >= until - SOON_MS ? [words.expiresSoon(certificate, dayOf(until))] : [];
}

interface Read {
  readonly key: string;
  readonly cert: string;
}

async function read({ key, certificate }: Files): Promise<Read> {
  return { key: await textOf(key), cert: await textOf(certificate) };
}

async function textOf(file: string): Promise<string> {
  try {
    if ((await stat(file)).size > FILE_MOST)
      throw new LineError(words.unreadable(file), { why: words.tooLong, mend: words.unreadableMend });
    return await readFile(file, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new LineError(words.unreadable(file), {
      why: english.system.why(code),
      mend: words.unreadableMend,
    });
  }
}

/** Refuses with words what no browser, or not this server, could use. */
function checked(files: Files, { key, cert }: Read, now: number): Held {
  const secret = keyOf(files.key, key);
  const certificate = certificateOf(files.certificate, cert);
  if (!certificate.checkPrivateKey(secret))
    throw new LineError(words.otherKey(files.key, files.certificate), {
      why: words.otherKeyWhy,
      mend: words.otherKeyMend,
    });
  const held = heldOf(key, cert);
  refuseOutOfTime(files.certificate, held, now);
  try {
    createSecureContext({ key, cert, minVersion: 'TLSv1.2' });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new LineError(words.unfit(files.certificate), { why: words.unfitWhy(code), mend: words.unfitMend });
  }
  return held;
}

function refuseOutOfTime(file: string, { from, until }: Held, now: number): void {
  if (now >= until)
    throw new LineError(words.over(file, dayOf(until)), { why: words.overWhy, mend: words.overMend });
  if (now < from)
    throw new LineError(words.notYet(file, dayOf(from)), { why: words.notYetWhy, mend: words.notYetMend });
}

function keyOf(file: string, text: string): KeyObject {
  try {
    return createPrivateKey(text);
  } catch {
    throw new LineError(words.noKey(file), { why: words.noKeyWhy, mend: words.noKeyMend });
  }
}

function certificateOf(file: string, text: string): X509Certificate {
  try {
    return new X509Certificate(text);
  } catch {
    throw new LineError(words.noCertificate(file), {
      why: words.noCertificateWhy,
      mend: words.noCertificateMend,
    });
  }
}

function coveredBy({ cert }: Held): string {
  return new X509Certificate(cert).subjectAltName ?? words.nothingCovered;
}
