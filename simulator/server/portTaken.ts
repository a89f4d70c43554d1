import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

/** Throws what came of trying to listen: a port in use is something to mend; anything else goes on as it is. */
export function refuse(port: number, error: unknown): never {
  if (!/EADDRINUSE|already in use/i.test(String(error))) throw error;
  const words = wordsIn('en').simulator;
  throw new LineError(words.portTaken(port), { why: words.portTakenWhy, mend: words.portTakenMend });
}
