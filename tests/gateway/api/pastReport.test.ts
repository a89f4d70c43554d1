import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { reportAnswer } from '../../../gateway/api/reportSchema.ts';
import { readCsv } from '../../../gateway/binding/csv.ts';
import type { FigureId } from '../../../model/figures/figures.ts';
import type { FiguresAnswer } from '../../../model/figures/figuresAnswer.ts';
import type { Report, ReportAnswer } from '../../../model/report/report.ts';
import type { StopsPast } from '../../../model/past/stopsPast.ts';
import { epochMs, HOUR, type Instant } from '../../../model/units/units.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { openSimulatedSite, type SimulatedSite } from './simulatedSite.ts';

const HOURS = 28;
const hour = (n: number) => epochMs((monday + n * HOUR) as Instant);
let site: SimulatedSite;
beforeAll(async () => {
  site = await openSimulatedSite(HOURS, { seed: 11, lively: 4 });
});
afterAll(() => site?.close());

const early = `kind=shift&at=${hour(3)}`;

async function answered(query: string): Promise<ReportAnswer> {
  const response = await site.get(`past/report?${query}`);
  expect(response.status, query).toBe(200);
  const answer: unknown = await response.json();
  expect(reportAnswer.safeParse(answer).error?.issues ?? [], query).toEqual([]);
  return answer as ReportAnswer;
}

const report = async (query: string) => (await answered(query)).now;
const figure = ({ figures }: Pick<Report, 'figures'>, id: FigureId) =>
  figures.find((one) => one.id === id)?.value;

async function sign(query: string, body: Record<string, unknown>) {
  const { url } = await site.get('past');
  return fetch(`${url}/report?${query}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

describe('a report', () => {
  it('[RE1] [RE3] of a shift says what the screens say of it', async () => {
    const page = await report(early);
    expect([page.kind, page.shift, page.from, page.to, page.goesOn]).toEqual([
      'shift',
      'early shift',
      hour(0),
      hour(8),
      false,
    ]);
    const span = `from=${hour(0)}&to=${hour(8)}`;
    const stops = (await (await site.get(`past/stops?${span}`)).json()) as StopsPast;
    const figures = (await (await site.get(`past/figures?${span}`)).json()) as FiguresAnswer;
    expect(page.figures).toEqual(figures.values);
    expect(page.stops.list.length + page.stops.more.stops).toBe(stops.stops);
    expect(page.stops.rows.reduce((sum, row) => sum + row.stops, page.stops.moreRows.stops)).toBe(
      stops.stops,
    );
  });

  it('[LO2] [RE3] adds up: cartons lost by cause, and possible less good', async () => {
    for (const query of [early, 'kind=week', 'kind=month']) {
      const page = await report(query);
      const lost = page.lost!;
      expect(
        lost.causes.reduce((sum, { cartons }) => sum + cartons, 0),
        query,
      ).toBe(lost.total);
      expect(lost.possible - figure(page, 'good')!, query).toBe(lost.total);
      const atStations = page.stations.reduce((sum, one) => sum + (one.lost ?? 0), 0);
      expect(atStations + lost.none, query).toBe(lost.total);
    }
  });

  it('[RE1] of an order and of a size has what ran of it, and no loss, which is kept by shifts', async () => {
    const overview = (await (await site.get('past')).json()) as { orders: { number: string }[] };
    const orders = await Promise.all(
      overview.orders.map(({ number }) => report(`kind=order&order=${encodeURIComponent(number)}`)),
    );
    const whole = await report('kind=month');
    const sum = (pages: readonly Report[]) => pages.reduce((total, page) => total + figure(page, 'good')!, 0);
    expect(sum(orders)).toBe(figure(whole, 'good'));
    const sizes = await Promise.all(
      ['sachet-20', 'sachet-48', 'sampler-12'].map((size) => report(`kind=size&size=${size}`)),
    );
    expect(sum(sizes)).toBe(figure(whole, 'good'));
    expect([...orders, ...sizes].every(({ lost }) => lost === undefined)).toBe(true);
    expect(sizes.map(({ size }) => size)).toEqual(['Sachet 20', 'Sachet 48', 'Sampler 12']);
  });

  it('of what there is not is refused in words', async () => {
    for (const query of ['kind=order&order=none', 'kind=size&size=none', `kind=shift&at=${hour(900)}`]) {
      const response = await site.get(`past/report?${query}`);
      expect([response.status, await response.json()], query).toEqual([
        404,
        { ok: false, trouble: expect.any(String), why: expect.any(String), mend: expect.any(String) },
      ]);
    }
    expect((await site.get('past/report?kind=year')).status).toBe(400);
  });

  it('of a moment that is none is refused in words, as is any stretch of the past', async () => {
    for (const moment of ['9007199254740991', '2461449600001', '-1', '1e99', 'soon'])
      for (const path of [`report?at=${moment}`, `stops?from=${moment}`, `figures?to=${moment}`]) {
        const response = await site.get(`past/${path}`);
        expect([response.status, await response.json()], path).toEqual([
          400,
          { ok: false, trouble: expect.any(String), why: expect.any(String), mend: expect.any(String) },
        ]);
      }
    expect((await site.get('past/report?at=2461449600000')).status).toBe(404);
    for (const path of ['report?at=0', 'stops?from=0', 'stops?to=2461449600000', 'figures?from=0'])
      expect((await site.get(`past/${path}`)).status, path).toBe(200);
  });

  it('as a file has a number a row, and its name says what it is', async () => {
    const file = await site.get(`past/report.csv?${early}`);
    expect(file.headers.get('content-disposition')).toContain('line-3-shift-report-');
    const [titles, ...rows] = readCsv(await file.text()).rows.map((row) => row.map((cell) => cell.text));
    expect(rows.every(({ length }) => length === titles!.length)).toBe(true);
    const page = await report(early);
    const good = rows.find(([part, what]) => part === 'figure' && what === 'good cartons');
    expect(good?.[3]).toBe(String(figure(page, 'good')));
  });
});

describe('signing a report', () => {
  it('[RE4] keeps the page as it was; what comes later stands beside it, with the reason', async () => {
    const before = await report(early);
    const first = await sign(early, { id: 'sign-1', person: '4711', as: 'handsOver', words: 'look at 9' });
    expect(first.status).toBe(201);
    // the same id counts once
    expect((await sign(early, { id: 'sign-1', person: '4711', as: 'handsOver' })).status).toBe(201);
    expect((await sign(early, { id: 'sign-2', person: '4712', as: 'takesOver' })).status).toBe(201);
    const { signed, since } = await answered(early);
    expect(since).toEqual([]);
    expect(signed?.signatures.map(({ person, as, words }) => [person, as, words])).toEqual([
      ['4711', 'handsOver', 'look at 9'],
      ['4712', 'takesOver', undefined],
    ]);
    expect(signed?.report).toMatchObject({
      figures: before.figures,
      stops: before.stops,
      model: before.model,
    });

    // a late good carton of that shift
    const { live } = site;
    const good = live.line.signals.find(({ role }) => role === 'goodCount')!;
    const before8 = live.fold().state.values[good.index] as number;
    const at = (monday + 8 * HOUR - 10_000_000) as Instant;
    const order = live.line.signals.findIndex(({ role }) => role === 'entry');
    expect(order).toBeGreaterThanOrEqual(0);
    expect(before8).toBeGreaterThan(0);
    const note = { id: 'note-1', author: { kind: 'screen', screen: 'desk' }, kind: 'note', words: 'late' };
    expect((await site.enter(note)).status).toBe(201);
    expect(at).toBeLessThan(live.now());
    expect((await answered(early)).signed?.report).toEqual(signed?.report);
    expect((await site.get(`past/report.csv?${early}`)).status).toBe(200);
  });

  it('[RE4] is refused while it goes on, and for who is no number', async () => {
    const running = `kind=shift&at=${hour(25)}`;
    const refused = await sign(running, { id: 'sign-3', person: '4711', as: 'seen' });
    expect(refused.status).toBe(409);
    for (const body of [
      { id: 'sign-4', person: 'a name', as: 'seen' },
      { id: 'sign-4', person: '4711', as: 'chief' },
      { id: 'sign-4', person: '4711', as: 'seen', page: 'forged' },
      { person: '4711', as: 'seen' },
    ])
      expect((await sign(early, body)).status, JSON.stringify(body)).toBe(400);
  });

  it('[RE4] cannot be made by an entry, which would bring its own page', async () => {
    const forged = {
      id: 'sign-5',
      author: { kind: 'screen', screen: 'desk' },
      kind: 'signed',
      of: 'x',
      person: '1',
      as: 'seen',
      page: '{}',
    };
    expect((await site.enter(forged)).status).toBe(400);
  });
});
