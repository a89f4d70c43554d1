import { describe, expect, it } from 'vitest';
import { typedText } from '../../../gateway/api/csvText.ts';
import { reportCsv } from '../../../gateway/api/reportCsv.ts';
import { readCsv } from '../../../gateway/binding/csv.ts';
import type { FigureId } from '../../../model/figures/figures.ts';
import type { Report, Signature } from '../../../model/report/report.ts';
import {
  crowdedReport,
  inventedReport,
  inventedSignatures,
  inventedStop,
  inventedUse,
} from '../../model/report/inventedReport.ts';

const COLUMNS = ['part', 'what', 'where', 'value', 'unit', 'lower', 'upper', 'from', 'to', 'remark'] as const;
type Cells = Readonly<Record<(typeof COLUMNS)[number], string>>;

function rowsOf(report: Report, signatures: readonly Signature[] = []): readonly Cells[] {
  const [titles, ...rows] = readCsv(reportCsv(report, signatures)).rows.map((row) =>
    row.map(({ text }) => text),
  );
  expect(titles).toEqual(COLUMNS);
  return rows.map((row) => {
    expect(row).toHaveLength(COLUMNS.length);
    return Object.fromEntries(COLUMNS.map((column, place) => [column, row[place]])) as Cells;
  });
}

describe('the file of a report', () => {
  it('[RE3] tells of every list how many it left out, and what they came to', () => {
    const rows = rowsOf(crowdedReport());
    const rest = (part: string, what: string) => {
      const { value, unit, remark } = rows.find((row) => row.part === part && row.what === what)!;
      return [value, unit, remark];
    };
    const none = 'no row each: the list holds no more';
    expect(rest('stop', 'all shorter ones')).toEqual(['1800', 's', `16 stops; ${none}`]);
    expect(rest('stops by first fault', '4 more kinds')).toEqual(['1200', 's', '9 stops']);
    expect(rest('use of a stop device', 'earlier uses')).toEqual(['9', 'times', none]);
    expect(rest('changeover', 'earlier changeovers')).toEqual(['4', 'times', none]);
    expect(rest('not seen', 'shorter times')).toEqual(['7', 'times', none]);
    expect(rest('note', 'earlier notes')).toEqual(['5', 'times', none]);
  });

  it('[RE3] has no such row where nothing was left out', () => {
    const rows = rowsOf(inventedReport({ stops: { ...inventedReport().stops, list: [inventedStop(5)] } }));
    expect(rows.filter(({ remark }) => remark.includes('no row each'))).toEqual([]);
    expect(rows.filter(({ part }) => part === 'stop')).toHaveLength(1);
  });

  it('[RE3] has the totals of uses, of what read open while it ran, and of cartons lost', () => {
    const lost = {
      possible: 900,
      total: 100,
      causes: [{ cause: 'stopped' as const, cartons: 100 }],
      none: 30,
    };
    const rows = rowsOf(crowdedReport({ lost }));
    const values = (part: string) =>
      rows.filter((row) => row.part === part).map(({ what, value }) => [what, value]);
    expect(values('safety')).toEqual([
      ['uses of stop devices', '12'],
      ['uses that stopped the line', '2'],
      ['open or pressed while it ran', '3'],
      ['open or pressed while it ran, not explained', '1'],
    ]);
    expect(values('cartons lost')).toEqual([
      ['possible', '900'],
      ['all of them', '100'],
      ['stopped', '100'],
      ['at no station', '30'],
    ]);
  });

  it('[RE3] tells what went on from before it, which is no stop of it', () => {
    const carried = rowsOf(crowdedReport()).find(({ what }) => what.startsWith('went on from before'));
    expect([carried?.part, carried?.value, carried?.remark]).toEqual(['stop', '120', '1 stop']);
  });

  it('[RE4] calls a figure that there is no more by its id', () => {
    const value = {
      id: 'cartonsOfOld' as FigureId,
      value: 7,
      lower: undefined,
      upper: undefined,
      none: undefined,
    };
    const [figure] = rowsOf(inventedReport({ figures: [value] })).filter(({ part }) => part === 'figure');
    expect(figure).toMatchObject({ what: 'cartonsOfOld', value: '7', unit: '', remark: '' });
  });

  it('has moments in columns of their own, and limits of a figure in theirs', () => {
    const [stop] = rowsOf(
      inventedReport({ stops: { ...inventedReport().stops, list: [inventedStop(5)] } }),
    ).filter(({ part }) => part === 'stop');
    expect(stop).toMatchObject({
      from: '2026-11-27T06:05:00.000+01:00',
      to: '2026-11-27T06:08:00.000+01:00',
      lower: '',
      upper: '',
    });
  });

  it('lets no text be taken for a formula, whoever it came from', () => {
    const bad = '=1+1';
    const report = inventedReport({
      order: bad,
      sizes: [bad],
      line: { id: 'l', name: bad, product: bad },
      stops: { ...inventedReport().stops, list: [inventedStop(5, { name: bad, said: bad, chain: [] })] },
      safety: { ...inventedReport().safety, list: [inventedUse(3, bad)], uses: 1 },
      notes: [{ at: inventedReport().from, words: bad, by: bad }],
      handedOver: [{ order: bad, counted: undefined, handedOver: 5 }],
    });
    const rows = rowsOf(report, [{ ...inventedSignatures(1, bad)[0]!, person: '+4711' }]);
    const cells = rows.flatMap((row) => Object.values(row));
    expect(cells.filter((cell) => /^[=+\-@]/.test(cell))).toEqual([]);
    expect(cells.filter((cell) => cell === `'${bad}`).length).toBeGreaterThanOrEqual(9);
    expect(cells).toContain("'+4711");
  });

  it('keeps a number below zero a number', () => {
    const lost = { possible: 5, total: -3, causes: [{ cause: 'slow' as const, cartons: -3 }], none: 0 };
    expect(rowsOf(inventedReport({ lost })).filter(({ value }) => value === '-3')).toHaveLength(2);
  });
});

describe('text that a person typed', () => {
  it.each([
    '=1',
    '+1',
    '-1',
    '@a',
    '＝1',
    '＋1',
    '－1',
    '＠a',
    '﹦1',
    ' =1',
    '\t=1',
    '\u00a0=1',
    '\u200b=1',
    '\u0000=1',
    '\r\n=1',
    '\u3000＝1',
  ])('is no formula in a spreadsheet: %j', (typed) => {
    expect(typedText(typed)).toBe(`'${typed}`);
  });

  it.each(['a=1', 'pressed', ' a', '5 = five', '', 'Übergabe', '1+1'])('stays as it is: %j', (typed) => {
    expect(typedText(typed)).toBe(typed);
  });
});
