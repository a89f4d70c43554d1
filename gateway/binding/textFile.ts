import { readFile } from 'node:fs/promises';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway.binding;
const reasons: Readonly<Record<string, string>> = {
  ENOENT: words.notThere,
  ENOTDIR: words.notThere,
  EACCES: words.notAllowed,
  EPERM: words.notAllowed,
  EISDIR: words.notAFile,
};

/** The text of a file that a person wrote, without a byte order mark. */
export async function readText(path: string): Promise<string> {
  try {
    return (await readFile(path, 'utf8')).replace(/^\uFEFF/, '');
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === undefined) throw error;
    const { what, mend } = words.unreadable(path);
    throw new LineError(what, { why: reasons[code] ?? words.systemSays(code), mend });
  }
}
