import { readFileSync } from 'node:fs';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Fault } from '../faults/faults.ts';
import { readFaults } from '../faults/language.ts';
import type { Tag } from '../lines/tags.ts';

const words = wordsIn('en').simulator.faults;

/** Reads the faults of a file, as `readFaults` does. A fault may only happen to a tag of its kind that the line has. */
export function readFaultFile(file: string, tags: readonly Tag[]): readonly Fault[] {
  const faults = readFaults(textOf(file));
  const unknown = faults.flatMap((fault) => ('on' in fault && !isOn(fault, tags) ? [fault.on] : []));
  if (unknown.length === 0) return faults;
  throw new LineError(words.noSuchTag([...new Set(unknown)]), {
    why: words.noSuchTagWhy,
    mend: words.noSuchTagMend,
  });
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    throw new LineError(words.noFile(file), {
      why: words.noFileWhy(code ?? message),
      mend: words.noFileMend,
    });
  }
}

function isOn(fault: Extract<Fault, { readonly on: string }>, tags: readonly Tag[]): boolean {
  const tag = tags.find(({ tag: name }) => name === fault.on);
  if (!tag) return false;
  switch (fault.kind) {
    case 'reset':
    case 'rollover':
    case 'corrected':
    case 'set':
      return tag.width !== undefined;
    case 'pulse':
      return tag.role === 'stopDevice';
    case 'bad':
    case 'late':
    case 'skewed':
      return true;
  }
}
