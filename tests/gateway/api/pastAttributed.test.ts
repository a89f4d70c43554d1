import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { attributed } from '../../../gateway/api/pastAttributed.ts';
import type { FiguresAnswer } from '../../../model/figures/figuresAnswer.ts';
import type { AttributedAnswer } from '../../../model/past/attributedAnswer.ts';
import type { Report } from '../../../model/report/report.ts';
import { epochMs, HOUR, type Instant } from '../../../model/units/units.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { openSimulatedSite, type SimulatedSite } from './simulatedSite.ts';

const hour = (n: number) => epochMs((monday + n * HOUR) as Instant);
let site: SimulatedSite;
beforeAll(async () => {
  site = await openSimulatedSite(18, { seed: 11, lively: 3 });
});
afterAll(() => site?.close());

async function answer(query: string): Promise<AttributedAnswer> {
  const response = await site.get(`past/attributed?${query}`);
  expect(response.status).toBe(200);
  const body: unknown = await response.json();
  expect(attributed.safeParse(body).error?.issues ?? []).toEqual([]);
  return body as AttributedAnswer;
}

describe('who may have spoiled the rejects of a period', () => {
  it('[AT1] adds up to the rejects that are counted, by reason, by station and over time', async () => {
    for (const query of [
      `from=${hour(0)}&to=${hour(8)}`,
      `from=${hour(8)}&to=${hour(16)}`,
      `from=${hour(0)}`,
    ]) {
      const { rejects, reasons, stations, unattributed } = await answer(query);
      const figures = (await (await site.get(`past/figures?${query}`)).json()) as FiguresAnswer;
      expect(rejects, query).toBe(figures.values.find(({ id }) => id === 'rejected')?.value);
      const laid = stations.reduce((sum, { cartons }) => sum + cartons, 0);
      expect(laid + unattributed!, query).toBeCloseTo(rejects!, 6);
      expect(
        stations.reduce((sum, { charged }) => sum + charged, 0),
        query,
      ).toBe(rejects);
      for (const reason of reasons) {
        const sum = reason.stations.reduce((total, { cartons }) => total + cartons, reason.nobody);
        expect(sum, `${query} ${reason.id}`).toBeCloseTo(reason.rejects, 6);
      }
    }
    const [first, second, both] = await Promise.all(
      [
        `from=${hour(0)}&to=${hour(8)}`,
        `from=${hour(8)}&to=${hour(16)}`,
        `from=${hour(0)}&to=${hour(16)}`,
      ].map(answer),
    );
    for (const { station, cartons } of both!.stations) {
      const of = ({ stations }: AttributedAnswer) =>
        stations.find((one) => one.station.id === station.id)?.cartons ?? 0;
      expect(of(first!) + of(second!), station.id).toBeCloseTo(cartons, 6);
    }
  });

  it('[AT1] of a time that nobody saw nothing is told, and least of all none', async () => {
    const before = await answer(`from=${hour(-48)}&to=${hour(-24)}`);
    expect(before).toMatchObject({ reasons: [], stations: [] });
    expect([before.rejects, before.unattributed]).toEqual([undefined, undefined]);
    expect((await answer(`from=${hour(-24)}&to=${hour(8)}`)).rejects).toBeGreaterThan(0);
  });

  it('[AT5] says what its shares may be held to', async () => {
    const { heldTo, doubted } = await answer(`from=${hour(0)}`);
    expect([heldTo, doubted]).toEqual(['sensed', []]);
  });

  it('[AT1] is told on the report as well, beside what the file charges', async () => {
    const { stations } = await answer(`from=${hour(0)}&to=${hour(8)}`);
    const { now } = (await (await site.get(`past/report?kind=shift&at=${hour(3)}`)).json()) as {
      now: Report;
    };
    for (const { station, cartons } of stations)
      expect(now.stations.find(({ id }) => id === station.id)?.laid, station.id).toBe(cartons);
  });
});
