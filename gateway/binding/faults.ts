import { basename } from 'node:path';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway.binding;

/** A place in a file, both counted from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** What happened, why, and how to mend it. */
export interface Trouble {
  readonly what: string;
  readonly why: string;
  readonly mend: string;
}

/** One mistake in a file that a person wrote. */
export interface Fault extends Trouble {
  readonly at: Place;
}

/** More faults than this are counted, not told: nobody mends fifty at once. */
const TOLD_MAX = 50;

/** Every mistake of one file at once, in the order of the file. */
export class FileError extends LineError {
  readonly faults: readonly Fault[];

  /** `path` as it was given; each fault bears the file's name alone, as lines are long enough. */
  constructor(path: string, faults: readonly Fault[]) {
    const file = basename(path);
    const sorted = [...faults].sort((a, b) => a.at.line - b.at.line || a.at.column - b.at.column);
    const told = sorted.slice(0, TOLD_MAX).map((fault) => toldAt(file, fault));
    const more = sorted.length > TOLD_MAX ? [words.more(sorted.length - TOLD_MAX)] : [];
    super(words.faults(path, sorted.length), { why: [...told, ...more].join('\n'), mend: words.mendAll });
    this.faults = sorted;
  }
}

function toldAt(file: string, { at, what, why, mend }: Fault): string {
  return `${file}:${at.line}:${at.column} ${what} ${why} ${mend}`;
}
