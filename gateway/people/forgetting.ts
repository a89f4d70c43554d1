import type { Logger } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { People } from './people.ts';

const words = wordsIn('en');
const EVERY_MS = 3_600_000;

/** Forgets what is kept of people for a limited time: now, and every hour. The answer ends it. */
export function startForgetting(people: People, log: Pick<Logger, 'info' | 'error'>): () => void {
  const forget = () => {
    try {
      const forgotten = people.forgetEnded();
      if (forgotten.length > 0) log.info(words.people.forgotten(forgotten));
    } catch (error) {
      // a disk that refuses it now may take it in an hour; the line goes on
      if (!(error instanceof LineError)) throw error;
      log.error(words.gateway.inOneLine(error));
    }
  };
  forget();
  const timer = setInterval(forget, EVERY_MS);
  return () => clearInterval(timer);
}
