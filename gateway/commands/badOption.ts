import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway;

/** What does not fit in the command line; `what` stands behind a colon. */
export function badOption(what: string): LineError {
  return new LineError(words.badOption(what), { why: words.badOptionWhy, mend: words.badOptionMend });
}
