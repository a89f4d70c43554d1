import { wordsIn } from '../../model/words/words.ts';
import { ContentHash } from '../tape/contentHash.ts';
import { type StoredLine, StoredTape } from '../tape/storedTape.ts';
import type { BackupLine } from './manifest.ts';
import type { Work } from './progress.ts';

const words = wordsIn('en').gateway.backup;

/** What the tape in a file holds of each of its lines, read from beginning to end, and how much of it cannot be read. */
export async function linesIn(file: string, work: Work): Promise<BackupLine[]> {
  const tape = new StoredTape(file);
  try {
    const lines: BackupLine[] = [];
    for (const line of tape.lines()) lines.push(await lineIn(tape, line, work));
    return lines;
  } finally {
    tape.close();
  }
}

export async function lineIn(tape: StoredTape, line: StoredLine, work: Work): Promise<BackupLine> {
  const { id, begin, end } = line;
  const hash = new ContentHash(line.signals);
  let unread = 0;
  const skip = (from: number, to: number) => {
    hash.addUnread(to - from);
    unread += to - from;
  };
  for await (const changes of tape.read(line, begin, end, skip)) {
    work.stopping.throwIfAborted();
    hash.add(changes);
    work.progress(words.reading(id), hash.changes / Math.max(1, end - begin));
  }
  return { id, begin, end, unread, sha256: hash.end() };
}
