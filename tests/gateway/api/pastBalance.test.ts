import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { balanceAnswer } from '../../../gateway/api/balanceSchema.ts';
import type { BalanceAnswer } from '../../../model/past/balanceAnswer.ts';
import { epochMs, HOUR, type Instant } from '../../../model/units/units.ts';
import { take } from '../../../simulator/machine/cartons.ts';
import { cartonsInPockets, type Machine } from '../../../simulator/machine/machine.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { openSimulatedSite, type SimulatedSite } from './simulatedSite.ts';

const HOURS = 26;
const hour = (n: number) => epochMs((monday + n * HOUR) as Instant);
const author = { kind: 'position', position: 'front' };
/** Cartons that hands took out, by the hour at whose beginning they did. */
const took = new Map<number, number>();
let machine: Machine | undefined;
let site: SimulatedSite;

/** Each third hour three pockets are emptied by hand, and nobody counts it. */
function takeByHand(one: Machine, at: Instant): void {
  machine = one;
  const hours = (at - monday) / HOUR;
  if (hours % 3 !== 1) return;
  took.set(hours, [8, 9, 10].filter((pocket) => take(one.plant.pockets, pocket) !== undefined).length);
}

beforeAll(async () => {
  site = await openSimulatedSite(HOURS, { seed: 11, lively: 3 }, takeByHand);
});
afterAll(() => site?.close());

async function balance(query = `from=${hour(0)}`): Promise<BalanceAnswer> {
  const response = await site.get(`past/balance?${query}`);
  expect(response.status).toBe(200);
  const answer: unknown = await response.json();
  expect(balanceAnswer.safeParse(answer).error?.issues ?? []).toEqual([]);
  return answer as BalanceAnswer;
}

const tookBy = (hours: number) =>
  [...took].filter(([at]) => at < hours).reduce((sum, [, cartons]) => sum + cartons, 0);

function expectAddsUp({ parts }: BalanceAnswer): void {
  const { before, picked, good, rejected, crushed, inPockets, takenOut, unaccounted, notSeen } = parts!;
  expect(before + picked).toBe(good + rejected + crushed + inPockets + takenOut + unaccounted + notSeen);
}

describe('the balance over the API', () => {
  it('[BA1] adds up over any stretch, and in the pockets lies what lies there', async () => {
    const all = await balance();
    expectAddsUp(all);
    expect(all.parts).toMatchObject({ takenOut: 0, notSeen: 0, inPockets: cartonsInPockets(machine!) });
    expect(all.parts!.unaccounted).toBe(tookBy(HOURS));
    expect(tookBy(HOURS)).toBeGreaterThan(15);
    for (const [from, to] of [
      [0, 8],
      [8, 16],
      [5, 6],
      [1.5, 25.2],
    ] as const)
      expectAddsUp(await balance(`from=${hour(from)}&to=${hour(to)}`));
  });

  it('[BA1] stretches that follow one another have the parts of the whole', async () => {
    const [whole, ...each] = await Promise.all(
      [
        [0, 24],
        [0, 8],
        [8, 16],
        [16, 24],
      ].map(([from, to]) => balance(`from=${hour(from!)}&to=${hour(to!)}`)),
    );
    for (const part of ['good', 'rejected', 'crushed', 'unaccounted', 'picked'] as const)
      expect(
        each.reduce((sum, one) => sum + one.parts![part], 0),
        part,
      ).toBe(whole!.parts![part]);
    expect(each[1]!.parts!.before).toBe(each[0]!.parts!.inPockets);
  });

  it('[CV1] looks at no more than a week of the time before there were records, and says from when on there are', async () => {
    const all = await balance();
    const { seen, points, parts } = await balance('from=0');
    const begun = seen.since!;
    expect(seen.from).toBe(begun - 7 * 24 * 3_600_000);
    expect(points.length).toBeLessThanOrEqual(160);
    expect(parts).toEqual(all.parts);
  });

  it('[BA2] tells by the hour how the unaccounted came about, and its largest changes', async () => {
    const { step, points, changes, parts } = await balance();
    expect(step).toBe('hour');
    expect(points.length).toBe(HOURS);
    expect(points.at(-1)!.unaccounted).toBe(parts!.unaccounted);
    for (const [place, { unaccounted }] of points.entries()) {
      expect(unaccounted).toBeGreaterThanOrEqual(tookBy(place));
      expect(unaccounted).toBeLessThanOrEqual(tookBy(place + 1));
    }
    const picked = points.reduce((sum, point) => sum + point.picked!, 0);
    expect(picked - parts!.picked).toBeLessThan(120);
    expect(changes[0]!.by).toBeGreaterThanOrEqual(2);
    expect(changes.every(({ by, from, to }) => by > 0 && to > from)).toBe(true);
    const told = changes.reduce((sum, { by }) => sum + by, 0);
    expect(told).toBeGreaterThan(tookBy(HOURS) / 2);
  });

  it('[OR3] sets what was handed over beside what was counted, order by order', async () => {
    const { orders } = await balance();
    const [running, ended] = orders.list;
    expect(running!.to).toBeUndefined();
    expect(ended!.to).toBe(running!.from);
    for (const { counted, apart, handedOver } of orders.list) {
      expect(counted.most).toBeGreaterThanOrEqual(counted.least);
      expect([apart, handedOver]).toEqual([undefined, undefined]);
    }
    const good = orders.list.reduce((sum, { counted }) => sum + counted.least, 0);
    const { account } = site.live.fold().state.shift;
    expect(good).toBeGreaterThan(account.good);
  });

  it('[BA4] what people enter as taken out or brought back is a part of its own', async () => {
    const before = await balance();
    for (const [cartons, why] of [
      [5, 'sample'],
      [3, 'byHand'],
      [2, 'broughtBack'],
    ] as const) {
      const entry = { id: `e-${why}`, author, kind: 'takenOut', cartons, why };
      expect((await site.enter(entry)).status).toBe(201);
    }
    const after = await balance();
    expectAddsUp(after);
    expect(after.parts).toEqual({
      ...before.parts,
      takenOut: 6,
      sample: 5,
      byHand: 3,
      broughtBack: 2,
      unaccounted: before.parts!.unaccounted - 6,
    });
  });

  it('[OR3] tells the difference of an order of which the count handed over was entered', async () => {
    const [, ended] = (await balance()).orders.list;
    const entry = {
      id: 'e-listed',
      author,
      kind: 'order',
      number: ended!.number,
      size: 'sachet-20',
      blend: 'mint',
      quantity: 100,
      starts: 'whenEnded',
    };
    expect((await site.enter(entry)).status).toBe(201);
    const handed = { id: 'e-handed', author, kind: 'handedOver', order: ended!.number };
    const cartons = ended!.counted.most - 12;
    expect((await site.enter({ ...handed, cartons })).status).toBe(201);
    const [, now] = (await balance()).orders.list;
    expect(now).toMatchObject({ handedOver: cartons, counted: ended!.counted, blend: 'mint' });
    expect(now!.apart!.least).toBe(-12);
  });

  it('refuses what is no stretch of time', async () => {
    expect((await site.get('past/balance?from=soon')).status).toBe(400);
  });
});
