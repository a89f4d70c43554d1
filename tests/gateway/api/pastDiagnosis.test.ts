import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DiagnosisTold } from '../../../model/diagnosis/told.ts';
import type { SetPointOpened, SetPointsPast } from '../../../model/past/setPointsPast.ts';
import { HOUR } from '../../../model/units/units.ts';
import { adjust } from '../../../simulator/machine/setter.ts';
import { adjustment } from '../../../simulator/machine/setpoints.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { openSimulatedSite, type SimulatedSite } from './simulatedSite.ts';

/** Two sizes in turn, a few hours each; the last goes on. */
const orders = Array.from({ length: 9 }, (_, n) => ({
  number: String(4401 + n),
  size: n % 2 === 0 ? ('sachet-48' as const) : ('sachet-20' as const),
  blend: 'mint',
  quantity: n === 8 ? 90_000 : 5_000,
}));
const HOURS = 28;

let site: SimulatedSite;
let bent = 0;
beforeAll(async () => {
  // in the last hours somebody turns the bottom closing guide far off, in one move
  site = await openSimulatedSite(HOURS, { seed: 1, orders }, ({ plant }, at) => {
    if (at !== monday + (HOURS - 2) * HOUR) return;
    const guide = adjustment('5.2');
    bent = (plant.setpoints.actual.get('5.2') ?? 0) + 3;
    adjust(plant, guide, bent, 'drift');
  });
});
afterAll(() => site.close());

const answer = async <Answer>(path: string) => (await (await site.get(path)).json()) as Answer;

describe('what explains the trouble of a station', () => {
  it('[DG8] names the adjustment that a sensor saw moved, with its move, before all others', async () => {
    const told = await answer<DiagnosisTold>('past/stations/bottom-major/diagnosis');
    if (told.kind !== 'told') throw new Error(`nothing was said: ${told.kind}`);
    const [first] = told.diagnosis.causes;
    expect(first?.adjustment?.number).toBe('5.2');
    expect(told.diagnosis.says).toBe('cause');
    expect(first?.side?.is).toBe('high');
    expect(first?.moves.some(({ to, by }) => Math.abs(to - bent) < 0.06 && by === 'hand')).toBe(true);
  });

  it('[DG8] takes what people say of the cartons', async () => {
    const before = await answer<DiagnosisTold>('past/stations/bottom-major/diagnosis');
    const entered = await site.enter({
      id: 'looked-1',
      author: { kind: 'screen', screen: 'desk' },
      kind: 'looked',
      station: 'bottom-major',
      symptom: 'crushed',
    });
    expect(entered.status).toBe(201);
    const after = await answer<DiagnosisTold>('past/stations/bottom-major/diagnosis');
    expect(after).not.toEqual(before);
  });

  it('[BK2] the book has runs of each size, with where the sensors stood in them', async () => {
    const { rows, from, runs } = await answer<SetPointsPast>('past/setpoints?size=sachet-48');
    expect([runs === 'now' || runs === 'before', from.runs >= 2]).toEqual([true, true]);
    const guide = rows.find(({ number }) => number === '5.2');
    expect(guide?.learned?.runs).toBeGreaterThanOrEqual(1);
    // nobody entered anything, and no sensor reads it
    expect(rows.find(({ number }) => number === '5.1')).toMatchObject({ stands: { known: 'none' } });
    const opened = await answer<SetPointOpened>('past/setpoints/5.2?size=sachet-48');
    expect(opened.runs.length).toBeGreaterThanOrEqual(2);
    expect(opened.runs.every(({ known }) => known === 'sensor')).toBe(true);
  });

  it('[SP10] the run ran with the number that somebody found and moved from, not with the one it has now', async () => {
    const entered = await site.enter({
      ...{ id: 'found-1', author: { kind: 'screen', screen: 'desk' }, kind: 'reading' },
      ...{ station: 'bottom-major', adjustment: '5.1', value: 14.5, found: 14.9, how: 'typed' },
    });
    expect(entered.status).toBe(201);
    const { row, runs } = await answer<SetPointOpened>('past/setpoints/5.1?size=sachet-48');
    expect(row.stands).toMatchObject({ value: 14.5, known: 'typed' });
    expect(runs[0]).toMatchObject({ value: 14.9, known: 'typed' });
    const off = await site.enter({
      ...{ id: 'found-2', author: { kind: 'screen', screen: 'desk' }, kind: 'reading' },
      ...{ station: 'bottom-major', adjustment: '5.1', value: 14.5, found: 9_999, how: 'typed' },
    });
    expect(off.status).toBe(400);
  });

  it('[BK1] a number that an engineer approves is the book’s from then on, with who said why', async () => {
    const entered = await site.enter({
      id: 'book-1',
      author: { kind: 'screen', screen: 'desk' },
      kind: 'book',
      size: 'sachet-48',
      adjustment: '5.2',
      value: 31.8,
      why: 'two runs',
      seen: 'recommended 31.8',
    });
    expect(entered.status).toBe(201);
    const { row, approvals } = await answer<SetPointOpened>('past/setpoints/5.2?size=sachet-48');
    expect(row.book).toBe(31.8);
    expect(row.approved).toMatchObject({ value: 31.8, why: 'two runs', seen: 'recommended 31.8' });
    expect(approvals).toHaveLength(1);
  });
});
