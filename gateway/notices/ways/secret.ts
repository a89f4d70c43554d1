import { closeSync, fstatSync, openSync, readFileSync } from 'node:fs';
import { LineError } from '../../../model/trouble/trouble.ts';
import { wordsIn } from '../../../model/words/words.ts';

const words = wordsIn('en').ways.secret;

/** Where a password or key stands: in the environment or in a file of its own, never in what is shown or recorded. */
export type SecretPlace = { readonly env: string } | { readonly file: string };

/** Longer than any password or key. Bytes. */
const LENGTH_MOST = 4096;

/** Read each time it is needed, so that another one can be put in its place while the gateway runs. */
export function readSecret(place: SecretPlace, env: NodeJS.ProcessEnv = process.env): string {
  if ('file' in place) return fromFile(place.file);
  const found = env[place.env];
  if (found !== undefined && found !== '') return found;
  throw new LineError(words.unset(place.env), { why: words.unsetWhy, mend: words.unsetMend });
}

/** Only its owner may read it, and that is who runs the gateway, or root. A line end after it is no part of it. */
function fromFile(path: string): string {
  const file = opened(path);
  try {
    const { mode, uid, size } = fstatSync(file);
    const owners = [process.getuid?.(), 0, undefined];
    if ((mode & 0o077) !== 0 || !owners.includes(uid)) throw unusable(path, words.open, words.openMend);
    const isFile = fstatSync(file).isFile();
    const found = isFile && size <= LENGTH_MOST ? readFileSync(file, 'utf8').replace(/\r?\n$/, '') : '';
    if (found === '') throw unusable(path, words.noFile, words.noFileMend);
    return found;
  } finally {
    closeSync(file);
  }
}

function opened(path: string): number {
  try {
    return openSync(path, 'r');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    throw unusable(path, words.gone, words.noFileMend);
  }
}

function unusable(path: string, why: string, mend: string): LineError {
  return new LineError(words.file(path), { why, mend });
}
