import { isUtf8 } from 'node:buffer';
import { readFile } from 'node:fs/promises';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const { binding: words, system } = wordsIn('en').gateway;
const reasons: Readonly<Record<string, string>> = {
  ENOENT: words.notThere,
  ENOTDIR: words.notThere,
  EACCES: words.notAllowed,
  EPERM: words.notAllowed,
  EISDIR: words.notAFile,
};

/**
 * The text of a file that a person wrote, without a byte order mark. A file of another kind, or saved in other
 * characters, is refused: names would come out garbled, and nobody would be told.
 */
export async function readText(path: string): Promise<string> {
  const bytes = await readBytes(path);
  if (bytes.includes(0) || !isUtf8(bytes)) {
    const { why, mend } = words.noText;
    throw new LineError(words.unreadable(path).what, { why, mend });
  }
  return bytes.toString('utf8').replace(/^\uFEFF/, '');
}

async function readBytes(path: string): Promise<Buffer> {
  try {
    return await readFile(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === undefined) throw error;
    const { what, mend } = words.unreadable(path);
    throw new LineError(what, { why: reasons[code] ?? system.why(code), mend });
  }
}
