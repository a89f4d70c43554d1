import { expect, it } from 'vitest';
import { readCsv } from '../../../gateway/binding/csv.ts';
import { stopsCsv } from '../../../gateway/api/stopsCsv.ts';
import type { StopsPast } from '../../../model/past/stopsPast.ts';
import { changes } from '../../model/smallLine.ts';
import { msAt } from '../live/shell.ts';
import { line, siteForTest } from './web.ts';

const cells = (text: string) => readCsv(text).rows.map((row) => row.map((cell) => cell.text));

it('stops are a file, with the filters of the screen, in the order in which they came, and nothing made up', async () => {
  const site = await siteForTest({ second: 1000 });
  await site.live.offer(
    changes(line, [
      [30, 'state', 11],
      [30.2, 'reason', 51],
      [60, 'state', 6],
      [60, 'reason', 0],
      [63, 'good', 21],
      [100, 'link', false],
      [160, 'link', true],
      [200, 'state', 11],
      [200.1, 'reason', 52],
      [205, 'panel', true],
      [215, 'panel', false],
      [950, 'state', 6],
    ]),
  );
  site.clock.second = 1000;
  const path = `/api/lines/${line.id}/past/stops`;
  const span = `from=${msAt(0)}&to=${msAt(2000)}`;
  const screen = (await (await site.get(`${path}?${span}`)).json()) as StopsPast;
  const file = await site.get(`${path}.csv?${span}`);
  expect(file.headers.get('content-type')).toMatch(/^text\/csv; charset=utf-8/);
  expect(file.headers.get('content-disposition')).toContain('small-stops-2026-03-17-to-2026-03-17.csv');
  const [titles, ...rows] = cells(await file.text());
  expect(titles!.slice(0, 5)).toEqual(['what', 'began', 'ended', 'end seen', 'seconds']);
  expect(rows.every(({ length }) => length === titles!.length)).toBe(true);
  expect(rows.filter(([what]) => what === 'stop')).toHaveLength(screen.stops);
  const told = rows.map((row) => Object.fromEntries(titles!.map((title, place) => [title, row[place]])));
  expect(told.map(({ what }) => what)).toEqual(['not seen', 'stop', 'not seen', 'stop']);
  expect(told[1]).toMatchObject({
    began: '2026-03-17T06:00:30.000+01:00',
    ended: '2026-03-17T06:01:00.000+01:00',
    'end seen': 'yes',
    seconds: '30.0',
    'minor or long': 'minor',
    kind: 'the machine’s own',
    'station id': 'fold',
    'first fault': 'tuck jam',
    try: '1',
  });
  expect(told[2]).toMatchObject({ began: '2026-03-17T06:01:40.000+01:00', seconds: '60.0', kind: '' });
  // its output pause is open: what it cost is not known yet, and is no zero
  expect(told[3]).toMatchObject({
    'minor or long': 'long',
    'cartons lost': '',
    'what came with it': 'no blank picked, +0.1 s; main panel, +5.0 s',
  });
  const picked = cells(await (await site.get(`${path}.csv?${span}&station=pick`)).text());
  expect(picked.filter(([what]) => what === 'stop').map((row) => row[8])).toEqual(['pick']);
  expect((await site.get(`${path}.csv?from=x`)).status).toBe(400);
});

it('what people wrote is text in a spreadsheet', async () => {
  const site = await siteForTest({ second: 1000 });
  await site.live.offer(
    changes(line, [
      [30, 'state', 11],
      [60, 'state', 6],
    ]),
  );
  site.clock.second = 1000;
  const path = `/api/lines/${line.id}/past/stops?from=${msAt(0)}&to=${msAt(2000)}`;
  const past = (await (await site.get(path)).json()) as StopsPast;
  const said = past.list.map((stop) => ({ ...stop, said: '=1+1', order: '@7' }));
  const [, row] = cells(
    stopsCsv({ ...past, list: said, seen: { ...past.seen, since: undefined } }, [], line.zone),
  );
  expect(row).toEqual(expect.arrayContaining(["'=1+1", "'@7"]));
});
