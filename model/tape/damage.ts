import { LineError } from '../trouble/trouble.ts';
import { wordsIn } from '../words/words.ts';

const words = wordsIn('en').tape;

/** A blob whose checksum or content is not what was written. */
export function damagedBlob(): LineError {
  return new LineError(words.damagedBlob, { why: words.damagedBlobWhy, mend: words.damagedBlobMend });
}

/** Whether something could not be opened because it is damaged, and for no other reason. */
export function isDamage(error: unknown): boolean {
  return error instanceof LineError && error.message === words.damagedBlob;
}

/** A blob of a format that only a later version can read. */
export function newerBlob(version: number): LineError {
  return new LineError(words.newerBlob(version), { why: words.newerBlobWhy, mend: words.newerBlobMend });
}
