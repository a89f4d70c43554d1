import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { LiveLine } from '../../../gateway/live/liveLine.ts';
import { openRecords, type Records } from '../../../gateway/records/records.ts';
import { stream } from '../../../simulator/machine/random.ts';
import { changes, type Rows, running, smallLine } from '../../model/smallLine.ts';
import { stand } from '../live/shell.ts';

export const line = smallLine();

/** Runs with so many jams each at two stations, some soon after one another and some long after, and rejects in between. */
export function runsWith(...jams: readonly number[]): Rows {
  const draw = stream(7, 'jams');
  const rows: Rows[number][] = [...running()];
  let [second, good, open] = [0, 0, 0];
  const run = (cartons: number) => {
    for (let more = 0; more < cartons; more += 10) {
      second += 10;
      good += 10;
      if (draw() < 0.04) {
        open += 1;
        rows.push([second, 'rejectOpen', open]);
      }
      rows.push([second, 'good', good]);
    }
  };
  for (const many of jams) {
    for (let jam = 0; jam < many; jam += 1) {
      run(draw() < 0.6 ? 150 * draw() : 2500 * draw());
      rows.push([second + 1, 'state', 11], [second + 1, 'reason', draw() < 0.7 ? 51 : 52]);
      second += 40;
      rows.push([second, 'state', 6], [second, 'reason', 0]);
    }
    run(800);
    rows.push([second + 30, 'size', 48]);
    second += 30;
    run(60);
    rows.push([second + 30, 'size', 20]);
    second += 30;
  }
  run(60);
  return rows;
}

export interface Standing {
  readonly live: LiveLine;
  readonly records: Records;
  readonly take: (rows: Rows) => Promise<void>;
}

/** A line that has taken such rows, and takes more. */
export async function standing(rows: Rows): Promise<Standing> {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-tried-'));
  const records = openRecords(folder);
  onTestFinished(() => {
    records.close();
    rmSync(folder, { recursive: true });
  });
  const { live, clock } = await stand(line, { records });
  const take = async (more: Rows) => {
    clock.second = Math.max(clock.second, ...more.map(([second]) => second));
    await live.offer(changes(line, more));
  };
  await take(rows);
  return { live, records, take };
}
