import { describe, expect, it } from 'vitest';
import { begunOf } from '../../../gateway/api/pastAsked.ts';
import { rejectsGrown, runsWithStops, stopsAsked } from '../../../gateway/notices/stationEvidence.ts';
import { after, type Instant, type Span } from '../../../model/units/units.ts';
import type { StopsAsked } from '../../../model/watch/repeated.ts';
import { isBackToNormal, judgeStops } from '../../../model/watch/repeatedStops.ts';
import { line, runsWith, type Standing, standing } from './jammed.ts';

function askedNow({ records, live }: Standing, station: string): StopsAsked {
  const to = after(live.now(), 1 as Span);
  const runs = runsWithStops(records, live, to, begunOf(records, live, { to }));
  const rejects = rejectsGrown(records, live, runs.at(-1)!);
  return stopsAsked(runs, station, { after: 0 as Instant, cartonsPerShift: 20_000, rejects })!;
}

describe('what a station is judged by', () => {
  it('looks at the run that is on go on from one another, and say what looks say that know nothing', async () => {
    const rows = runsWith(3, 2, 4, 3, 60);
    const before = rows.findIndex(([second]) => second > rows.at(-1)![0] * 0.4);
    const stands = await standing(rows.slice(0, before));
    const said = new Set<string>();
    for (let place = before; place < rows.length; place += 40) {
      await stands.take(rows.slice(place, place + 40));
      for (const { id } of line.stations) {
        const asked = askedNow(stands, id);
        const { kept: _kept, ...anew } = asked;
        const judged = judgeStops(asked);
        expect(judged).toEqual(judgeStops(anew));
        expect(isBackToNormal(asked)).toBe(isBackToNormal(anew));
        said.add(JSON.stringify(judged));
      }
    }
    expect(said.size).toBeGreaterThan(20);
  });

  it('the past of a run is the same thing at each look, so that what is usual is worked out once', async () => {
    const rows = runsWith(3, 2, 4, 3, 5);
    const [then, now] = [40, 20].map((place) => rows.at(-place)![0]) as [number, number];
    const stands = await standing(rows.filter(([second]) => second <= then));
    const first = askedNow(stands, 'fold');
    await stands.take(rows.filter(([second]) => second > then && second <= now));
    const next = askedNow(stands, 'fold');
    expect(next.nowCartons).toBeGreaterThan(first.nowCartons);
    expect(next.earlier).toBe(first.earlier);
    expect(next.kept).toBe(first.kept);
  });
});
