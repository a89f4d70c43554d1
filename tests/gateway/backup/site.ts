import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Work } from '../../../gateway/backup/progress.ts';
import { openPeople } from '../../../gateway/people/people.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';

import { signals, stretch } from '../tape/stretch.ts';

export const lineId = 'line-3';
export const lines = new Map([[lineId, signals('cycles', 'starved', 'lot')]]);

/** A folder that goes when its test is over. */
export function folderForTest(): string {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-out-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Puts changes on the tape of a data folder, from one to another of the stretch's seconds. */
export async function tapeIn(data: string, from: number, to: number): Promise<void> {
  const tape = await openSqliteTape(data, lines);
  for (let at = from; at < to; at += 500) await tape.append(lineId, stretch(at, Math.min(to, at + 500)));
  await tape.close();
}

/** A data folder with a tape of so many changes, and people. */
export async function dataFolder(count = 2000): Promise<string> {
  const data = join(folderForTest(), 'data');
  await tapeIn(data, 0, count);
  openPeople(data, { now: () => 0, cost: { cost: 16, block: 1, parallel: 1 }, durable: false }).close();
  return data;
}

/** Work that nobody ends, or that is ended at the first word that fits. */
export function work(endAt?: RegExp): Work & { readonly said: string[] } {
  const stopping = new AbortController();
  const said: string[] = [];
  return {
    stopping: stopping.signal,
    said,
    progress: (what) => {
      said.push(what);
      if (endAt?.test(what)) stopping.abort();
    },
  };
}
