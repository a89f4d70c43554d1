import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const { backup: words, system } = wordsIn('en').gateway;

/** Runs something on a file or folder; what the system refuses is told in words, `what` in the first of them. */
export function onFile<Result>(file: string, act: () => Result, what = words.fileTrouble(file)): Result {
  try {
    return act();
  } catch (error) {
    throw fileTrouble(error, what);
  }
}

/** The same for what takes its time. */
export async function onFileLong<Result>(
  file: string,
  act: () => Promise<Result>,
  what = words.fileTrouble(file),
): Promise<Result> {
  try {
    return await act();
  } catch (error) {
    throw fileTrouble(error, what);
  }
}

function fileTrouble(error: unknown, what: string): unknown {
  const { code, syscall } = error as NodeJS.ErrnoException;
  if (error instanceof LineError || code === undefined || syscall === undefined) return error;
  return new LineError(what, { why: system.why(code), mend: words.fileTroubleMend });
}
