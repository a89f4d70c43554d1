import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { figureDefinition, figuresAnswer } from '../../../gateway/api/figuresSchema.ts';
import type { FigureId } from '../../../model/figures/figures.ts';
import type { PastOverview } from '../../../model/past/overview.ts';
import type { FiguresAnswer } from '../../../model/figures/figuresAnswer.ts';
import { epochMs, HOUR, type Instant, SECOND, type Span } from '../../../model/units/units.ts';
import { runUntil, startMachine } from '../../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../../simulator/simulatedLine.ts';
import { openSimulatedSite, type SimulatedSite } from './simulatedSite.ts';

/** Three shifts and a bit of the fourth, with a changeover, pauses and everything else. */
const HOURS = 26;
const hour = (n: number) => epochMs((monday + n * HOUR) as Instant);
let site: SimulatedSite;
beforeAll(async () => {
  site = await openSimulatedSite(HOURS, { seed: 11, lively: 3 });
});
afterAll(() => site?.close());

async function figures(query: string): Promise<FiguresAnswer> {
  const response = await site.get(`past/figures?${query}`);
  expect(response.status).toBe(200);
  const answer: unknown = await response.json();
  expect(figuresAnswer.safeParse(answer).error?.issues ?? []).toEqual([]);
  return answer as FiguresAnswer;
}

const figure = (answer: FiguresAnswer, id: FigureId) => answer.values.find((one) => one.id === id)!.value!;
const whole = `from=${hour(0)}&to=${hour(24)}`;
/** What adds up: counts and times, and no ratio. */
const adding = [
  'good',
  'rejected',
  'crushed',
  'notLoaded',
  'missedPick',
  'produced',
  'plannedOperationTime',
  'plannedDownTime',
  'plannedBusyTime',
  'actualProductionTime',
  'setupTime',
  'delayTime',
  'downTime',
  'idealTime',
  'stops',
  'ownStops',
  'minorStops',
  'stood',
  'causedStops',
  'failures',
] as const satisfies readonly FigureId[];

/** Figures of parts, added up, are those of the whole. */
async function expectSum(parts: readonly string[]): Promise<void> {
  const [all, ...each] = await Promise.all([whole, ...parts].map(figures));
  for (const id of adding) {
    const sum = each.reduce((total, part) => total + figure(part, id), 0);
    expect(sum, id).toBeCloseTo(figure(all!, id), 6);
  }
}

describe('figures of a period', () => {
  it('[KP4] [LO2] agree with what the line itself says of its shift', async () => {
    const now = await figures(`from=${hour(24)}`);
    const { plan, path } = site.live.view();
    expect([figure(now, 'good'), figure(now, 'possible'), figure(now, 'lost')]).toEqual([
      plan.good,
      path.possible,
      path.total,
    ]);
    expect(now.seen.unknown).toBe(0);
  });

  it('[KP4] add up over shifts, wherever the period is cut', async () => {
    await expectSum([0, 8, 16].map((n) => `from=${hour(n)}&to=${hour(n + 8)}`));
    await expectSum([`from=${hour(0)}&to=${hour(5)}`, `from=${hour(5)}&to=${hour(24)}`]);
  });

  it('[KP4] add up over kinds of shift, sizes and orders', async () => {
    await expectSum(['early', 'late', 'night'].map((shift) => `${whole}&shift=${shift}`));
    await expectSum(['sachet-20', 'sachet-48', 'sampler-12'].map((size) => `${whole}&size=${size}`));
    const overview = (await (await site.get('past')).json()) as PastOverview;
    expect(overview.orders.length).toBeGreaterThan(2);
    expect(overview.orders.at(-1)).not.toHaveProperty('to');
    await expectSum(overview.orders.map(({ number }) => `${whole}&order=${encodeURIComponent(number)}`));
  });

  it('[KP4] have no loss where the period is no whole shift, and say so', async () => {
    const parts = [`from=${hour(1)}&to=${hour(24)}`, `${whole}&size=sachet-20`];
    for (const part of parts)
      expect((await figures(part)).values.find(({ id }) => id === 'lost')).toEqual({
        id: 'lost',
        none: 'byShift',
      });
  });

  it('[KP4] [LO2] of a shift that goes on are made at one moment, so its loss is known', async () => {
    site.setGoing((SECOND / 1000) as Span);
    const now = await figures(`from=${hour(24)}`);
    site.setGoing(0 as Span);
    expect(figure(now, 'possible') - figure(now, 'good')).toBe(figure(now, 'lost'));
  });

  it('[KP4] of what there was nothing of are none, and no zero', async () => {
    const nothing = await figures(`${whole}&size=none-such`);
    expect(nothing.parts).toBe(0);
    expect(nothing.values.find(({ id }) => id === 'oee')).toEqual({ id: 'oee', none: 'noTime' });
  });

  it('[KP5] are defined for programs, each as the screens tell it', async () => {
    const response = await fetch(new URL('/api/figures', (await site.get('past')).url));
    const list = (await response.json()) as { id: string }[];
    expect(list.map((one) => figureDefinition.safeParse(one).success)).not.toContain(false);
    const { values } = await figures(whole);
    for (const { id } of values)
      expect(
        list.some((one) => one.id === id),
        id,
      ).toBe(true);
  });
});

describe('figures of a period with time that nobody saw', () => {
  /** One early shift; the link is gone from the fifth hour on, for so long. */
  async function shiftWithGap(hours: number) {
    const bound = boundLine();
    const cut = (monday + 5 * HOUR) as Instant;
    const back = (cut + hours * HOUR) as Instant;
    const dark = await openSimulatedSite(5, { seed: 11 });
    const machine = startMachine({ seed: 11, start: monday });
    const link = bound.line.signals.findIndex(({ role }) => role === 'link');
    const told = (at: Instant, value: boolean) => ({ signal: link, at, received: at, status: 0, value });
    changesOf(bound, runUntil(machine, cut));
    await dark.live.offer([told(cut, false)]);
    return {
      dark,
      at: (moment: Instant) => dark.setNow(moment),
      comesBack: async (until: Instant) => {
        changesOf(bound, runUntil(machine, back));
        await dark.live.offer([told(back, true)]);
        await dark.live.offer(changesOf(bound, runUntil(machine, until)));
      },
      close: () => dark.close(),
    };
  }
  const early = `from=${hour(0)}&to=${hour(8)}`;
  const answerOf = async (of: SimulatedSite) =>
    (await (await of.get(`past/figures?${early}`)).json()) as FiguresAnswer;

  it('[CV1] count a gap that lasts as not seen, exactly as they do when it is over', async () => {
    const { dark, at, comesBack, close } = await shiftWithGap(4);
    at((monday + 9 * HOUR) as Instant);
    const lasting = await answerOf(dark);
    expect(figure(lasting, 'notSeen')).toBeCloseTo(180, 6);
    expect(figure(lasting, 'coverage')).toBeCloseTo(5 / 8, 6);
    expect(figure(lasting, 'actualProductionTime')).toBeLessThan(5 * 60);
    await comesBack((monday + 9.5 * HOUR) as Instant);
    at((monday + 9.5 * HOUR) as Instant);
    const over = await answerOf(dark);
    for (const id of ['notSeen', 'actualProductionTime', 'plannedBusyTime', 'goodSeen', 'oee'] as const)
      expect(figure(over, id), id).toBeCloseTo(figure(lasting, id), 6);
    await close();
  });

  it('[KP2] [CO5] take what was counted in a gap for good cartons, and for no ratio with time', async () => {
    const { dark, at, comesBack, close } = await shiftWithGap(2);
    await comesBack((monday + 8.5 * HOUR) as Instant);
    at((monday + 8.5 * HOUR) as Instant);
    const answer = await answerOf(dark);
    expect(figure(answer, 'goodNotSeen')).toBeGreaterThan(3000);
    expect(figure(answer, 'goodSeen') + figure(answer, 'goodNotSeen')).toBe(figure(answer, 'good'));
    expect(figure(answer, 'effectiveness')).toBeLessThan(1.05);
    expect(figure(answer, 'oee')).toBeLessThan(1);
    expect(figure(answer, 'runningRate')).toBeLessThan(60);
    await close();
  });

  it('[CV1] of a shift before there were records are not known, and no zero', async () => {
    const nothing = await figures(`from=${hour(-48)}&to=${hour(-40)}`);
    for (const id of ['good', 'produced', 'rejected', 'stops', 'causedStops', 'lost'] as const)
      expect(
        nothing.values.find((one) => one.id === id),
        id,
      ).toEqual({ id, none: 'notSeen' });
  });
});
