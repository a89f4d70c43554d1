import { describe, expect, it } from 'vitest';
import type { PastOverview } from '../../../model/past/overview.ts';
import type { StopsPast } from '../../../model/past/stopsPast.ts';
import { epochMs } from '../../../model/units/units.ts';
import { at, changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { type Site, siteForTest } from './web.ts';

const line = smallLine();

async function ask<Answer>(site: Site, path: string): Promise<{ status: number; body: Answer }> {
  const response = await site.get(`/api/lines/small/past${path}`);
  return { status: response.status, body: (await response.json()) as Answer };
}

/** A line that made 20 cartons by second 20, and jams at second 100. */
async function jammed(): Promise<Site> {
  const site = await siteForTest();
  site.clock.second = 200;
  await site.live.offer(
    changes(line, [...goods(21, 99, 21), [100, 'state', 11], [100, 'reason', 51], [199, 'heartbeat', 1]]),
  );
  return site;
}

describe('the past under /api', () => {
  it('says what there is to look at, and by what it can be chosen', async () => {
    const site = await jammed();
    const { body } = await ask<PastOverview>(site, '');
    expect(body).toMatchObject({
      past: { kind: 'whole' },
      begun: epochMs(at(0)),
      zone: 'Europe/Berlin',
      shifts: [{ rule: 'early', name: 'early shift', from: epochMs(at(0)) }],
      sizes: [
        { id: 'sachet-20', name: 'Sachet 20' },
        { id: 'sachet-48', name: 'Sachet 48' },
      ],
    });
    expect(body.stations.map(({ number }) => number)).toEqual([1, 2, 3]);
  });

  it('begins with what was heard, also where something was entered before that', async () => {
    const site = await siteForTest({ unheard: true });
    const author = { kind: 'screen', screen: 'desk' };
    expect((await site.enter({ id: 'n-1', author, kind: 'note', words: 'early' })).status).toBe(201);
    // nobody knows its shift yet, and the strip begins now
    const { plan, trend } = site.live.view();
    expect([plan.shift, trend.from]).toEqual([undefined, epochMs(site.live.now())]);
    site.clock.second = 200;
    await site.live.offer(changes(line, [...running(), ...goods(1, 99, 1), [199, 'heartbeat', 1]]));
    const { body } = await ask<PastOverview>(site, '');
    expect([body.begun, body.shifts.length]).toEqual([epochMs(at(0)), 1]);
    expect(site.live.view().plan.shift?.name).toBe('early shift');
  });

  it('a stop stands in the stretch that is asked for, and can be answered while the line remembers it', async () => {
    const site = await jammed();
    const { body } = await ask<StopsPast>(site, `/stops?from=${epochMs(at(0))}`);
    expect(body).toMatchObject({ stops: 1, stood: 99_000, own: { rows: [{ name: 'tuck jam' }] } });
    const before = await ask<StopsPast>(site, `/stops?from=${epochMs(at(0))}&to=${epochMs(at(90))}`);
    expect(before.body.stops).toBe(0);
    const elsewhere = await ask<StopsPast>(site, `/stops?from=${epochMs(at(0))}&station=pick`);
    expect(elsewhere.body.stops).toBe(0);
  });

  it('a stretch that ends before it begins, or lies ahead, is none; what is no number is refused with words', async () => {
    const site = await jammed();
    const turned = await ask<StopsPast>(site, `/stops?from=${epochMs(at(150))}&to=${epochMs(at(90))}`);
    expect(turned.body).toMatchObject({ stops: 0, seen: { from: epochMs(at(90)), to: epochMs(at(90)) } });
    const ahead = await ask<StopsPast>(site, `/stops?from=${epochMs(at(9000))}`);
    expect(ahead.body.stops).toBe(0);
    for (const query of [
      'from=yesterday',
      'most=-1',
      'most=5000',
      'from=1.5',
      `station=${'x'.repeat(101)}`,
    ]) {
      const { status, body } = await ask<{ trouble: string; mend: string }>(site, `/stops?${query}`);
      expect([query, status]).toEqual([query, 400]);
      expect(body.trouble).not.toBe('');
      expect(body.mend).not.toBe('');
    }
  });

  it('of a line that there is not, or a question that there is not, nothing is told', async () => {
    const site = await jammed();
    expect((await site.get('/api/lines/none/past/stops')).status).toBe(404);
    expect((await site.get('/api/lines/small/past/nothing')).status).toBe(404);
  });
});
