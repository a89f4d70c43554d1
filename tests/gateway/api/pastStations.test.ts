import { describe, expect, it } from 'vitest';
import type { AroundStop } from '../../../model/past/around.ts';
import type { StationPast } from '../../../model/past/stationPast.ts';
import type { StationsPast } from '../../../model/past/stationsPast.ts';
import { changes, goods, type Rows } from '../../model/smallLine.ts';
import { line, siteForTest } from './web.ts';

/** After the twenty cartons that the site begins with: two rejects, a jam, and ten cartons more. */
const more: Rows = [
  [22, 'rejectOpen', 2],
  [23, 'presented', 24],
  [30, 'state', 11],
  [30, 'reason', 51],
  [40, 'state', 6],
  [40, 'reason', 0],
  ...goods(41, 130, 21),
];

async function asked() {
  const site = await siteForTest();
  await site.live.offer(changes(line, more));
  site.clock.second = 131;
  const get = async <Body>(path: string) => {
    const response = await site.get(`/api/lines/small/past/${path}`);
    return { status: response.status, body: (await response.json()) as Body };
  };
  return { site, get };
}

describe('stations over the API', () => {
  it('counts up to now, and what is lost adds up', async () => {
    const { get, site } = await asked();
    const { body } = await get<StationsPast>('stations');
    const fold = body.stations.find(({ station }) => station.id === 'fold')!;
    expect(fold).toMatchObject({ presented: 24, rejects: 2, stops: 1, stood: 10_000 });
    expect(body.lost.good).toBe(110);
    const lost = body.stations.reduce((sum, one) => sum + one.lost, 0) + body.none.lost;
    expect(lost).toBe(body.lost.possible - body.lost.good);
    expect(body.lost.total).toBe(site.live.view().path.total);
  });

  it('[RJ1] tells one station with its trend, its stops and what its past is too short for', async () => {
    const { get } = await asked();
    const { body } = await get<StationPast>('stations/fold');
    expect(body.trend).toMatchObject({ kind: 'reject', size: { id: 'sachet-20' }, all: 0, earlier: 0 });
    expect(body.trend!.normal).toBeUndefined();
    expect(body.trend!.leftOut).toBe(112);
    expect(body.stops.list.map(({ name }) => name)).toEqual(['tuck jam']);
    expect((await get('stations/nowhere')).status).toBe(404);
    expect((await get('stations/fold?batches=9999')).status).toBe(400);
  });

  it('tells what the tape holds around a stop, and refuses one that is not there', async () => {
    const { get } = await asked();
    const { body: one } = await get<StationPast>('stations/fold');
    const { body } = await get<AroundStop>(`around?stop=${one.stops.list[0]!.id}`);
    expect(body.lanes.find(({ id }) => id === 'state')!.readings).toEqual([
      { after: -10_000, value: 6, means: 'Execute' },
      { after: 0, value: 11, means: 'Held' },
    ]);
    for (const stop of ['zz', '0', '!']) {
      const refused = await get<{ trouble: string }>(`around?stop=${encodeURIComponent(stop)}`);
      expect(refused.status).toBe(404);
      expect(refused.body.trouble).toContain(stop);
    }
    expect((await get('around')).status).toBe(400);
  });
});
