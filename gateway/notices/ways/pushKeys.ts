import { join } from 'node:path';
import { z } from 'zod';
import { LineError } from '../../../model/trouble/trouble.ts';
import { wordsIn } from '../../../model/words/words.ts';
import { readKeyFile, writeOwnFile } from '../../keys/keyFile.ts';

const words = wordsIn('en').push;
const keyWords = wordsIn('en').gateway.keys;

/** By which push services know this gateway again (RFC 8292), in base64url. A browser subscribes to the public one. */
export interface PushKeys {
  readonly publicKey: string;
  readonly privateKey: string;
}

const kept = z.strictObject({
  publicKey: z.string().regex(/^[\w-]{87}$/),
  privateKey: z.string().regex(/^[\w-]{43}$/),
});

/**
 * The keys in the data folder, made on first use by `make`, and for good: with others every browser would have to be
 * turned on again.
 */
export function openPushKeys(folder: string, make: () => PushKeys): PushKeys {
  const file = join(folder, 'push.json');
  const text = readKeyFile(file, words.keyKnown);
  if (text !== undefined) return keysIn(text, file);
  const made = make();
  writeOwnFile(file, `${JSON.stringify(made)}\n`, 0o600);
  return made;
}

function keysIn(text: string, file: string): PushKeys {
  const read = kept.safeParse(jsonOf(text));
  if (read.success) return read.data;
  throw new LineError(keyWords.notUsed(file), { why: words.keyBadWhy, mend: keyWords.badMend });
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined; // said in words by whoever asked
  }
}
