import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { reportAnswer } from '../../../gateway/api/reportSchema.ts';
import { readCsv } from '../../../gateway/binding/csv.ts';
import type { FigureId } from '../../../model/figures/figures.ts';
import type { FiguresAnswer } from '../../../model/figures/figuresAnswer.ts';
import type { Report, ReportAnswer } from '../../../model/report/report.ts';
import type { PastOverview } from '../../../model/past/overview.ts';
import type { StopsPast } from '../../../model/past/stopsPast.ts';
import { epochMs, HOUR, type Instant, SECOND } from '../../../model/units/units.ts';
import { wordsIn } from '../../../model/words/words.ts';
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
/** Signs the page that is there to read. */
async function signRead(query: string, body: Record<string, unknown>) {
  const { mark, signed } = await answered(query);
  return sign(query, { read: signed?.mark ?? mark, ...body });
}
const troubleOf = async (response: Response) =>
  [response.status, ((await response.json()) as { trouble: string }).trouble] as const;

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
    expect(page.strip.target).toBeGreaterThan(40);
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

  it('[RE1] of an order has only what came while it ran', async () => {
    const overview = (await (await site.get('past')).json()) as PastOverview;
    const whole = await report('kind=month');
    const parts = { uses: 0, changeovers: 0, stops: 0 };
    for (const { number, from } of overview.orders) {
      const page = await report(`kind=order&order=${encodeURIComponent(number)}`);
      expect(page.from).toBe(from);
      parts.uses += page.safety.uses;
      parts.changeovers += page.changeovers.length + page.moreChangeovers;
      parts.stops += figure(page, 'stops')!;
      const inRows = page.stops.rows.reduce((sum, row) => sum + row.stops, page.stops.moreRows.stops);
      expect(inRows, number).toBe(figure(page, 'stops'));
    }
    expect(parts).toEqual({
      uses: whole.safety.uses,
      changeovers: whole.changeovers.length + whole.moreChangeovers,
      stops: figure(whole, 'stops'),
    });
    expect(parts.uses).toBeGreaterThan(0);
  });

  it('[RE1] has the readings of its own time, and none that is still open from before', async () => {
    // in its late shift a guard reads open while the line runs, and nobody closes the matter
    const other = await openSimulatedSite(20, { seed: 1 });
    const safety = async (n: number) => {
      const response = await other.get(`past/report?kind=shift&at=${hour(n)}`);
      return ((await response.json()) as ReportAnswer).now.safety;
    };
    expect(await safety(9)).toMatchObject({ ranOn: 1, notExplained: 1 });
    for (const n of [1, 17]) expect(await safety(n)).toMatchObject({ ranOn: 0, notExplained: 0 });
    await other.close();
  });

  it('[RE3] of longer periods draws what was made, and no zeros between', async () => {
    const { strip, from, to, ...page } = await report('kind=week');
    const lasted = (n: number) => Math.min(strip.bucketMs, to - from - n * strip.bucketMs) / 60_000;
    const drawn = strip.rates.reduce((sum: number, rate, n) => sum + (rate ?? 0) * lasted(n), 0);
    expect(Math.abs(drawn - figure(page, 'good')!)).toBeLessThan(0.02 * figure(page, 'good')!);

    // before the records began nobody looked: that is drawn as such, and has no part in the target
    const month = await report('kind=month');
    expect(month.strip.cuts[0]).toMatchObject({ kind: 'unknown', from: month.from });
    expect(month.strip.target).toBe(strip.target);
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
    const first = { id: 'sign-1', person: '4711', as: 'handsOver', words: 'look at 9' };
    expect((await signRead(early, first)).status).toBe(201);
    // the same id counts once
    expect((await signRead(early, first)).status).toBe(201);
    expect((await signRead(early, { id: 'sign-2', person: '4712', as: 'takesOver' })).status).toBe(201);
    const { signed, since } = await answered(early);
    expect(since).toEqual({ figures: [], parts: [] });
    expect(signed?.signatures.map(({ person, as, words }) => [person, as, words])).toEqual([
      ['4711', 'handsOver', 'look at 9'],
      ['4712', 'takesOver', undefined],
    ]);
    const { position: _position, made: _made, ...page } = signed!.report!;
    expect(before).toMatchObject(page);

    const stop = before.stops.list.find(({ said }) => said === undefined)!;
    const answer = { kind: 'reason', stop: stop.id, reason: 'material' };
    const entered = await site.enter({ id: 'a-1', author: { kind: 'screen', screen: 'desk' }, ...answer });
    expect(entered.status).toBe(201);
    const later = await answered(early);
    expect(later.signed).toEqual(signed);
    expect(later.since).toEqual({ figures: [], parts: ['stops'], why: 'laterData' });
    expect(later.now.stops.list.find(({ id }) => id === stop.id)?.said).toBe('board or sachets missing');
    // what is signed from now on is the page that was signed first
    expect((await signRead(early, { id: 'sign-3', person: '4713', as: 'seen' })).status).toBe(201);
    expect((await answered(early)).signed?.report).toEqual(signed?.report);
  });

  it('[RE4] is refused while it goes on, and for who is no number', async () => {
    const running = `kind=shift&at=${hour(25)}`;
    const refused = await signRead(running, { id: 'sign-r', person: '4711', as: 'seen' });
    expect(await troubleOf(refused)).toEqual([409, 'This report goes on.']);
    for (const body of [
      { id: 'sign-4', person: 'a name', as: 'seen' },
      { id: 'sign-4', person: '4711', as: 'chief' },
      { id: 'sign-4', person: '4711', as: 'seen', page: 'forged' },
      { person: '4711', as: 'seen' },
      { id: 'sign-4', person: '4711', as: 'seen', read: undefined },
    ])
      expect((await signRead(early, body)).status, JSON.stringify(body)).toBe(400);
  });

  it('[RE4] is refused where the page says something else than it did when it was read', async () => {
    const late = `kind=shift&at=${hour(9)}`;
    const { mark } = await answered(late);
    const note = { id: 'n-1', author: { kind: 'screen', screen: 'desk' }, kind: 'note', words: 'late' };
    expect((await site.enter(note)).status).toBe(201);
    expect((await answered(late)).mark).toBe(mark);
    const { now } = await answered(late);
    const stop = now.stops.list.find(({ said }) => said === undefined)!;
    const answer = { id: 'a-2', kind: 'reason', stop: stop.id, reason: 'material' };
    expect((await site.enter({ author: { kind: 'screen', screen: 'desk' }, ...answer })).status).toBe(201);
    const refused = await sign(late, { id: 'sign-l', person: '4711', as: 'seen', read: mark });
    expect((await troubleOf(refused))[0]).toBe(409);
    expect((await answered(late)).signed).toBeUndefined();
  });

  it('[RE4] is refused under an id that stands for something else, so none is lost', async () => {
    const night = `kind=shift&at=${hour(17)}`;
    const note = {
      id: 'n-2',
      author: { kind: 'screen', screen: 'desk' },
      kind: 'note',
      words: 'of the night',
    };
    expect((await site.enter(note)).status).toBe(201);
    const refused = await signRead(night, { id: 'n-2', person: '4711', as: 'seen' });
    expect(await troubleOf(refused)).toEqual([409, 'Something else was entered under this id.']);
  });

  it('[RE4] is refused for a time of which nobody saw anything', async () => {
    const refused = await signRead(`kind=shift&at=${hour(-47)}`, { id: 'sign-n', person: '1', as: 'seen' });
    expect(await troubleOf(refused)).toEqual([409, 'Nobody saw any of this time.']);
    const { lead } = wordsIn('en').screen.past.report;
    expect(lead(await report(`kind=shift&at=${hour(-47)}`))).toBe('Nobody saw any of it.');
  });

  it('[RE4] keeps its first page however many sign, and takes twenty', async () => {
    const night = `kind=shift&at=${hour(17)}`;
    for (let n = 1; n <= 20; n++) {
      site.setNow((monday + HOURS * HOUR + n * SECOND) as Instant);
      expect((await signRead(night, { id: `many-${n}`, person: `${n}`, as: 'seen' })).status).toBe(201);
    }
    const refused = await signRead(night, { id: 'many-21', person: '21', as: 'seen' });
    expect(await troubleOf(refused)).toEqual([409, 'This report has as many signatures as it can bear.']);
    const { signed } = await answered(night);
    expect(signed?.signatures.map(({ person }) => person)).toEqual(
      Array.from({ length: 20 }, (_, n) => `${n + 1}`),
    );
    expect(signed?.report?.kind).toBe('shift');
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
