import { describe, expect, it } from 'vitest';
import type { DoneRow } from '../../../model/past/donePast.ts';
import { changes, type Rows } from '../../model/smallLine.ts';
import { msAt } from '../live/shell.ts';
import { line, type Site, siteForTest } from './web.ts';

const RUN = 300;
const FIRST = 100;
const began = (run: number) => FIRST + run * RUN;
const desk = { kind: 'screen', screen: 'desk' };

/** Runs of both sizes by turns, each of 100 cartons; in each so many tuck jams at fold. */
function runs(from: number, to: number, jams: number): Rows {
  return Array.from({ length: to - from }, (_, n): Rows => {
    const [run, start] = [from + n, began(from + n)];
    const rows: Rows[number][] = [[start, 'size', run % 2 === 0 ? 48 : 20]];
    for (let jam = 0; jam < jams; jam += 1)
      rows.push(
        [start + 60 + jam * 60, 'state', 11],
        [start + 60 + jam * 60, 'reason', 51],
        [start + 80 + jam * 60, 'state', 6],
        [start + 80 + jam * 60, 'reason', 0],
        // more cartons than a re-jam comes within
        [start + 100 + jam * 60, 'good', 20 + run * 100 + 30 * (jam + 1)],
      );
    return [...rows, [start + 290, 'good', 20 + (run + 1) * 100]];
  }).flat();
}

async function done(site: Site): Promise<DoneRow> {
  const path = `/api/lines/${line.id}/past/done?station=fold&from=${msAt(0)}`;
  const [row] = (await (await site.get(path)).json()) as DoneRow[];
  return row!;
}

describe('whether a change held, of what the line told', () => {
  it('[HE1] stops for as many cartons in whole runs before it and after it', async () => {
    const site = await siteForTest({ second: began(12) + 30 });
    await site.live.offer(
      changes(line, [...runs(0, 12, 3), [began(12), 'size', 48], [began(12) + 20, 'good', 1230]]),
    );
    const expects = { measure: 'stops', direction: 'fewer' };
    const body = {
      kind: 'changed',
      station: 'fold',
      changed: { of: 'part', name: 'tucker' },
      words: 'worn',
      expects,
    };
    expect((await site.enter({ id: 'e-1', author: desk, ...body })).status).toBe(201);
    await site.live.offer(
      changes(line, [[began(12) + 290, 'good', 1320], ...runs(13, 16, 0), [began(16), 'size', 48]]),
    );
    site.clock.second = began(16) + 10;
    expect(await done(site)).toMatchObject({
      held: {
        verdict: 'cannotTell',
        why: { kind: 'tooFew', so: 3, needed: 4 },
        after: { runs: 3, count: 0 },
      },
    });
    await site.live.offer(changes(line, [...runs(16, 18, 0).slice(1), [began(18), 'size', 48]]));
    site.clock.second = began(18) + 10;
    // the run that the change was made in, and the one before it, are on neither side
    expect(await done(site)).toMatchObject({
      held: { verdict: 'fewer', before: { runs: 12, count: 33 }, after: { runs: 5, count: 0, of: 500 } },
    });
    const other = { ...body, changed: { of: 'other' }, words: 'cleaned' };
    expect((await site.enter({ id: 'e-2', author: desk, ...other })).status).toBe(201);
    site.clock.second += 10;
    expect(await done(site)).toMatchObject({ id: 'e-2', held: { verdict: 'cannotTell' } });
  });
});
