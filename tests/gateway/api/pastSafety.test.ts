import { describe, expect, it } from 'vitest';
import { readCsv } from '../../../gateway/binding/csv.ts';
import { csvText, isoMoment, typedText } from '../../../gateway/api/csvText.ts';
import type { SafetyPast } from '../../../model/past/safetyPast.ts';
import { changes } from '../../model/smallLine.ts';
import { msAt } from '../live/shell.ts';
import { line, openSite } from './web.ts';

const author = { kind: 'screen', screen: 'desk' };
const tested = {
  id: 't-1',
  author,
  kind: 'tested',
  device: 'door',
  method: 'opened, at "standstill"',
  person: '31',
};

describe('safety stops over the interface', () => {
  it('a test that a person recorded is on the screen and in the file, with the number and no name', async () => {
    const site = await openSite({ second: 100 });
    await site.live.offer(
      changes(line, [
        [30, 'panel', true],
        [30.1, 'state', 8],
        [30.1, 'reason', 301],
        [40, 'panel', false],
        [60, 'state', 6],
        [99, 'good', 21],
      ]),
    );
    expect((await site.enter(tested)).status).toBe(201);
    site.clock.second = 101;
    const span = `from=${msAt(0)}&to=${msAt(1000)}`;
    const path = `/api/lines/${line.id}/past/safety`;
    const { devices, list } = (await (await site.get(`${path}?${span}`)).json()) as SafetyPast;
    expect(devices.map(({ id, lastTest }) => [id, lastTest?.person])).toEqual([
      ['panel', undefined],
      ['circuit', undefined],
      ['door', '31'],
    ]);
    expect(list).toMatchObject([{ name: 'main panel', role: 'caused', released: 10_000, reset: 'notSeen' }]);
    const file = await site.get(`${path}.csv?${span}`);
    expect(file.headers.get('content-type')).toMatch(/^text\/csv; charset=utf-8/);
    expect(file.headers.get('content-disposition')).toContain(
      'small-safety-stops-2026-03-17-to-2026-03-17.csv',
    );
    const text = await file.text();
    expect(text.split('\r\n')[0]).toMatch(/^what,device,device id,moment,/);
    const rows = readCsv(text).rows.map((row) => row.map((cell) => cell.text));
    expect(rows.every(({ length }) => length === rows[0]!.length)).toBe(true);
    expect(rows.map(([what]) => what)).toEqual(['what', 'press', 'test recorded by a person']);
    // there are records from the first minute on: before that nobody looked
    const earlier = await (await site.get(`${path}.csv?from=${msAt(-60)}&to=${msAt(1000)}`)).text();
    expect(earlier.split('\r\n').map((row) => row.split(',')[0])).toEqual([
      'what',
      'not seen',
      'press',
      'test recorded by a person',
      '',
    ]);
    expect(rows[1]!.slice(0, 8)).toEqual([
      'press',
      'main panel',
      'panel',
      '2026-03-17T06:00:30.000+01:00',
      'yes',
      '',
      'caused the stop',
      '2026-03-17T06:00:40.000+01:00',
    ]);
    expect(rows[2]!.slice(-2)).toEqual(['31', 'opened, at "standstill"']);
    await site.close();
  });

  it('a test of what the line has not, or by a name, is refused with words, and nothing is recorded', async () => {
    const site = await openSite();
    const end = site.tape.end(line.id);
    for (const [change, trouble] of [
      [{ device: 'gate' }, /no stop device or guard “gate”/],
      [{ person: 'somebody' }, /./],
      [{ person: '' }, /./],
      [{ person: '1'.repeat(21) }, /./],
      [{ method: ' ' }, /./],
    ] as const) {
      const response = await site.enter({ ...tested, ...change });
      expect(response.status).toBe(400);
      expect(((await response.json()) as { trouble: string }).trouble).toMatch(trouble);
    }
    expect(site.tape.end(line.id)).toBe(end);
    await site.close();
  });

  it('a value with a quote, a comma or a line break stands in quotes; a row ends with CR LF (RFC 4180)', () => {
    expect(csvText([['a', 'b,c', 'd"e', 'f\ng']])).toBe('a,"b,c","d""e","f\ng"\r\n');
    expect(typedText('=1+1')).toBe("'=1+1");
    expect(typedText('pressed')).toBe('pressed');
  });

  it('a moment bears the offset of its zone, in summer another one', () => {
    expect(isoMoment(Date.UTC(2026, 0, 1), 'Europe/Berlin')).toBe('2026-01-01T01:00:00.000+01:00');
    expect(isoMoment(Date.UTC(2026, 6, 1), 'Europe/Berlin')).toBe('2026-07-01T02:00:00.000+02:00');
    expect(isoMoment(Date.UTC(2026, 0, 1), 'America/St_Johns')).toBe('2025-12-31T20:30:00.000-03:30');
    expect(isoMoment(0, 'UTC')).toBe('1970-01-01T00:00:00.000+00:00');
  });
});
