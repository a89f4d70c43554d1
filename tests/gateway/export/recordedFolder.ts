import { join } from 'node:path';
import { startLiveLine } from '../../../gateway/live/liveLine.ts';
import { openRecords } from '../../../gateway/records/records.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import type { Entry } from '../../../model/entries/entries.ts';
import { type EpochMs, epochMs, HOUR, type Instant, minutes } from '../../../model/units/units.ts';
import { runUntil, startMachine } from '../../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../../simulator/simulatedLine.ts';
import { folderForTest } from '../backup/site.ts';

export const bound = boundLine();
export const { line } = bound;

/**
 * A data folder in which so many hours of the simulated line were recorded as a gateway does it, and what people said; the
 * machine began `before` so many hours of them.
 */
export async function recordedFolder(hours: number, parent = folderForTest(), before = 0): Promise<string> {
  const data = join(parent, 'data');
  const tape = await openSqliteTape(data, new Map([[line.id, line.signals]]));
  const records = openRecords(data);
  const begin = (monday + before * HOUR) as Instant;
  let clock = begin;
  const live = await startLiveLine({
    line,
    tape,
    records,
    now: () => epochMs(clock),
    speed: 1,
    outside: () => ({ servers: [{ id: 'plc', up: true }] }),
    told: () => {},
  });
  const machine = startMachine({ seed: 4, start: monday });
  if (before > 0) runUntil(machine, begin);
  for (let at = begin; at < begin + hours * HOUR; at = (at + HOUR) as Instant) {
    clock = (at + HOUR) as Instant;
    await live.offer(changesOf(bound, runUntil(machine, clock)));
    for (const entry of said(clock)) await live.enter(entry);
  }
  await live.stop();
  await tape.close();
  records.close();
  return data;
}

/** What people say at the end of an hour; one of it would be a formula in a spreadsheet. */
function said(at: Instant): readonly Entry[] {
  const head = (id: string) => ({
    id: `${id}-${at}`,
    at: epochMs((at - minutes(1)) as Instant) as EpochMs,
  });
  return [
    {
      ...head('note'),
      author: { kind: 'person', number: '4711' },
      kind: 'note',
      words: '=HYPERLINK("http://x","a, b")',
    },
    {
      ...head('reading'),
      author: { kind: 'position', position: 'front' },
      kind: 'reading',
      station: 'bottom-major',
      adjustment: '5.2',
      value: 38.4,
      how: 'typed',
    },
  ];
}
