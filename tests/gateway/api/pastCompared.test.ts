import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { momentOf, placeOf } from '../../../model/past/compared/aligned.ts';
import type { Compared } from '../../../model/past/compared/compared.ts';
import type { ComparedRow } from '../../../model/past/compared/rows.ts';
import type { ChangeoversPast } from '../../../model/past/changeoversPast.ts';
import type { PastRun } from '../../../model/past/runsPast.ts';
import { type StationsPast, sumOfCauses } from '../../../model/past/stationsPast.ts';
import { epochMs, HOUR, type Instant } from '../../../model/units/units.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { openSimulatedSite, type SimulatedSite } from './simulatedSite.ts';

const HOURS = 30;
const MINUTE_MS = 60_000;
const hour = (n: number) => epochMs((monday + n * HOUR) as Instant);
const early = `from=${hour(0)}&to=${hour(8)}`;
const shifts = `${early}&otherFrom=${hour(8)}&otherTo=${hour(16)}`;

let site: SimulatedSite;
beforeAll(async () => {
  site = await openSimulatedSite(HOURS, { seed: 11, lively: 6 });
});
afterAll(() => site?.close());

async function asked<Answer>(path: string): Promise<Answer> {
  const response = await site.get(`past/${path}`);
  expect(response.status, path).toBe(200);
  return (await response.json()) as Answer;
}
const comparedBy = (query: string) => asked<Compared>(`compared?${query}`);

type Which = 'here' | 'there';
const SIDES: readonly Which[] = ['here', 'there'];

function row(answer: Compared, kind: ComparedRow['kind'], cause?: ComparedRow['cause']): ComparedRow {
  const found = answer.rows.find((one) => one.kind === kind && one.cause === cause);
  if (!found) throw new Error(`no row of ${kind}`);
  return found;
}

const value = (answer: Compared, kind: ComparedRow['kind'], which: Which) => row(answer, kind)[which].value!;

function addsUp(answer: Compared): void {
  for (const which of SIDES) {
    const lost = answer.rows.filter(({ kind }) => kind === 'lostTo').map((one) => one[which].value!);
    const total = value(answer, 'lost', which);
    expect(lost.reduce((a, b) => a + b, 0)).toBe(total);
    expect(value(answer, 'possible', which) - value(answer, 'good', which)).toBe(total);
  }
}

describe('two shifts, one over the other', () => {
  it('[RP11] [LO9] whole, each comes to what its account came to', async () => {
    const answer = await comparedBy(shifts);
    addsUp(answer);
    for (const [which, from, to] of [
      ['here', 0, 8],
      ['there', 8, 16],
    ] as const) {
      const stations = await asked<StationsPast>(`stations?from=${hour(from)}&to=${hour(to)}`);
      const causes = new Map(sumOfCauses(stations).map(({ cause, cartons }) => [cause as string, cartons]));
      expect(value(answer, 'possible', which)).toBe(stations.lost.possible);
      expect(value(answer, 'good', which)).toBe(stations.lost.good);
      // a carton of rounding is elsewhere where stations are rounded one by one
      expect(Math.abs(row(answer, 'lostTo', 'stopped')[which].value! - causes.get('stopped')!)).toBeLessThan(
        9,
      );
    }
    expect(row(answer, 'notSeen')).toMatchObject({ here: { value: 0 }, there: { value: 0 } });
  });

  it('[RP11] up to any moment, within and beyond a stop, it adds up, and what follows is a difference', async () => {
    let before = 0;
    for (const minutes of [0, 1, 47, 133, 200.5, 260, 400, 480]) {
      const answer = await comparedBy(`${shifts}&at=${hour(0) + minutes * MINUTE_MS}`);
      addsUp(answer);
      expect(answer.here.window).toEqual({
        from: hour(0),
        to: hour(0) + Math.floor(minutes) * MINUTE_MS,
      });
      expect(answer.there.window.to - hour(8)).toBe(answer.here.window.to - hour(0));
      expect(value(answer, 'good', 'here')).toBeGreaterThanOrEqual(before);
      before = value(answer, 'good', 'here');
    }
    expect(before).toBeGreaterThan(1000);
  });

  it('[RP10] on the changeover both begin with the minute of their first good carton after it', async () => {
    const { list } = await asked<ChangeoversPast>(`changeovers?from=${hour(0)}&to=${hour(HOURS)}`);
    const firstIn = (from: number) =>
      list
        .map(({ firstGood }) => firstGood)
        .filter((at) => at !== undefined && at >= hour(from) && at < hour(from + 8))
        .sort((a, b) => a! - b!)[0];
    const begins = [0, 8, 16].filter((from) => firstIn(from) !== undefined);
    expect(begins.length).toBeGreaterThanOrEqual(2);
    const [a, b] = begins as [number, number];
    const query = `from=${hour(a)}&to=${hour(a + 8)}&otherFrom=${hour(b)}&otherTo=${hour(b + 8)}`;
    const answer = await comparedBy(`${query}&align=changeover`);
    expect(answer).toMatchObject({ asked: 'changeover', alignment: 'changeover', without: [] });
    for (const [side, from] of [
      [answer.here, a],
      [answer.there, b],
    ] as const) {
      expect(side.origin).toBe(Math.floor(firstIn(from)! / MINUTE_MS) * MINUTE_MS);
      expect(side.window.from).toBe(side.origin);
      expect(placeOf(side, side.origin)).toBe(0);
    }
    addsUp(answer);
  });

  it('[RP10] on cartons both are cut where as many were made, and the axis is cartons', async () => {
    const answer = await comparedBy(`${shifts}&align=cartons&at=${hour(4)}`);
    const [here, there] = SIDES.map((which) => value(answer, 'good', which));
    expect(here).toBeGreaterThan(500);
    // the other one to the end of the minute in which it had as many
    expect(there! - here!).toBeGreaterThanOrEqual(0);
    expect(there! - here!).toBeLessThan(90);
    expect(value(answer, 'took', 'here')).toBe(hour(4) - hour(0));
    expect(placeOf(answer.here, answer.here.window.to)).toBe(here);
    expect(Math.abs(momentOf(answer.there, here!)! - answer.there.window.to)).toBeLessThan(MINUTE_MS);
    expect(answer.axis.from).toBe(0);
    addsUp(answer);
  });

  it('[RP10] what goes on is compared up to now, and no further than the other goes', async () => {
    const answer = await comparedBy(
      `from=${hour(24)}&to=${hour(32)}&otherFrom=${hour(0)}&otherTo=${hour(8)}`,
    );
    const now = epochMs(site.live.now());
    expect(answer.here.to).toBe(now);
    const whole = Math.floor(now / MINUTE_MS) * MINUTE_MS;
    expect(answer.here.window).toEqual({ from: hour(24), to: whole });
    const turned = await comparedBy(`${early}&otherFrom=${hour(24)}&otherTo=${hour(32)}`);
    expect(turned.ended).toBe('there');
    expect(turned.here.window.to).toBe(whole - hour(24) + hour(0));
    expect(value(turned, 'good', 'here')).toBe(value(answer, 'good', 'there'));
  });

  it('[RP12] with too few earlier shifts it cannot be told whether stops and rejects differ', async () => {
    const answer = await comparedBy(shifts);
    const kinds = answer.rows
      .filter(({ kind, stops }) => kind === 'rejects' || stops === 'own' || stops === 'outside')
      .map(({ meaning }) => meaning.kind);
    expect(new Set(kinds)).toEqual(new Set(['cannotTell']));
    expect(answer.comparisons).toBe(0);
  });

  it('[RP10] refuses what is longer than a day, or has no length, and says how to ask', async () => {
    for (const [query, path] of [
      [`from=${hour(0)}&to=${hour(26)}&otherFrom=${hour(0)}&otherTo=${hour(8)}`, 'to'],
      [`${early}&otherFrom=${hour(8)}&otherTo=${hour(8)}`, 'otherTo'],
    ] as const) {
      const response = await site.get(`past/compared?${query}`);
      expect(response.status, path).toBe(400);
      expect(await response.text()).toContain('by no more than 25 hours each');
    }
  });
});

describe('runs of a size', () => {
  it('[RP10] follow one another, each from its size on, and one over another is compared as shifts are', async () => {
    const runs = await asked<readonly PastRun[]>('runs');
    expect(runs.length).toBeGreaterThanOrEqual(2);
    for (const [place, run] of runs.entries()) {
      const next = runs[place + 1];
      const end = next ? next.from : epochMs(site.live.now());
      // each is rounded to a millisecond of its own
      expect(Math.abs(run.from + run.lasted - end)).toBeLessThan(2);
      expect(run.goesOn).toBe(next === undefined);
    }
    const [here, there] = runs.slice(0, 2) as [PastRun, PastRun];
    const answer = await comparedBy(
      `from=${here.from}&to=${here.to}&otherFrom=${there.from}&otherTo=${there.to}`,
    );
    expect(answer.here.sizes).toEqual([here.size.name]);
    expect(answer.there.sizes).toEqual([there.size.name]);
    addsUp(answer);
  });
});
