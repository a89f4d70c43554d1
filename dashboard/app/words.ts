import { type Words, wordsIn } from '../../model/words/words.ts';

/** The language of this page. */
export const words: Words = wordsIn('en');
