import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').people;

export interface Told {
  readonly what: string;
  readonly why: string;
  readonly mend: string;
}

/** What is refused to somebody, in words, with the status of HTTP that fits (RFC 9110). */
export class Refused extends LineError {
  readonly status: number;

  constructor(status: number, told: Told) {
    super(told.what, told);
    this.status = status;
  }
}

export const notAllowed = (told: Told): Refused => new Refused(403, told);
export const notFound = (told: Told): Refused => new Refused(404, told);
/** It says of itself what is not so. */
export const notTrue = (told: Told): Refused => new Refused(400, told);
/** It would leave things as they may not be. */
export const conflict = (told: Told): Refused => new Refused(409, told);
export const notUnderstood = (why: string): Refused => new Refused(400, words.notUnderstood(why));
/** For so many milliseconds no guess is taken. */
export const heldOff = (told: (ms: number) => Told, ms: number): Refused => new Refused(429, told(ms));
export const tooBusy = (): Refused => new Refused(429, words.busy);
