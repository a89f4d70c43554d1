import { createPrivateKey, X509Certificate } from 'node:crypto';
import { lstatSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { onDisk, readKeyFile, readOwnFile, writeOwnFile } from '../keys/keyFile.ts';
import { covers, dayOf, fingerprintOf, type Held, heldOf } from './held.ts';
import { makeCertificate, makeKey } from './makeCertificate.ts';
import type { Names } from './names.ts';
import type { Source, TlsParts } from './tls.ts';

const words = wordsIn('en').gateway.tls;
const keyWords = wordsIn('en').gateway.keys;
const DAY_MS = 86_400_000;
/** It is made anew so long before it expires. Milliseconds. */
export const RENEWED_BEFORE_MS = 30 * DAY_MS;

interface OwnParts extends Pick<TlsParts, 'data' | 'now' | 'log' | 'say'> {
  readonly names: Names;
}

/**
 * A key and a certificate of our own in the data folder's `tls`: the key for good, the certificate until it expires, or
 * lacks a name. The certificate lies there without the key as well, for a person who is to trust it on a screen.
 */
export async function openOwnCertificate(parts: OwnParts): Promise<Source> {
  const folder = join(parts.data, 'tls');
  openFolder(folder);
  const certificateFile = join(folder, 'certificate.pem');
  const key = keptKey(join(folder, 'key.pem'));
  const kept = keptCertificate(key, certificateFile);
  const due = kept === undefined || kept === 'damaged' ? kept : dueWhy(kept, parts.names, parts.now());
  const make = async () => {
    const cert = await makeCertificate(key, parts.names.all, parts.now());
    writeOwnFile(certificateFile, cert, 0o644);
    return heldOf(key, cert);
  };
  let held = kept === undefined || kept === 'damaged' || due !== undefined ? await make() : kept;
  if (kept === undefined) parts.say(words.made.first);
  else if (due !== undefined) parts.say(due === 'damaged' ? words.made.damaged : due);
  parts.say(words.ownCertificate(fingerprintOf(held), dayOf(held.until)));
  parts.say(words.ownFile(certificateFile));
  return {
    first: held,
    next: async () => {
      // names are looked at when it starts: a machine that goes from network to network would have people compare each day
      const why = dueByTime(held, parts.now());
      if (why === undefined) return undefined;
      held = await make();
      parts.log.warn(why);
      return held;
    },
    warnings: () => [],
    refused: words.notRenewed,
  };
}

/** Why another certificate has to be made; undefined where this one goes on. */
function dueWhy(held: Held, { lasting }: Names, now: number): string | undefined {
  const missing = lasting.filter((name) => !covers(held, name)).map(({ value }) => value);
  return missing.length > 0 ? words.made.names(missing.join(', ')) : dueByTime(held, now);
}

function dueByTime({ from, until }: Held, now: number): string | undefined {
  if (now < from) return words.made.notYet;
  return now >= until - RENEWED_BEFORE_MS ? words.made.expires(dayOf(until)) : undefined;
}

/** Nothing is written outside the data folder: a link may lead anywhere. */
function openFolder(folder: string): void {
  onDisk(folder, () => mkdirSync(folder, { recursive: true, mode: 0o700 }));
  if (lstatSync(folder).isDirectory()) return;
  throw new LineError(words.elsewhere(folder), { why: words.elsewhereWhy, mend: words.elsewhereMend });
}

function keptKey(file: string): string {
  const kept = readKeyFile(file, words.keyKnown);
  if (kept !== undefined && !isOurs(kept))
    throw new LineError(keyWords.notUsed(file), { why: words.keyBadWhy, mend: keyWords.badMend });
  if (kept !== undefined) return kept;
  const key = makeKey();
  writeOwnFile(file, key, 0o600);
  return key;
}

function isOurs(text: string): boolean {
  try {
    return createPrivateKey(text).asymmetricKeyDetails?.namedCurve === 'prime256v1';
  } catch {
    return false; // said in words by whoever asked: the library's own words say no more
  }
}

function keptCertificate(key: string, file: string): Held | 'damaged' | undefined {
  const cert = readOwnFile(file);
  if (cert === undefined) return undefined;
  try {
    return new X509Certificate(cert).checkPrivateKey(createPrivateKey(key)) ? heldOf(key, cert) : 'damaged';
  } catch {
    return 'damaged'; // told when another one is made
  }
}
