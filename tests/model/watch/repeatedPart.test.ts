import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Instant } from '../../../model/units/units.ts';
import type { RecentStop, RejectsBy, RunSoFar } from '../../../model/watch/repeated.ts';
import { KeptPart } from '../../../model/watch/repeatedKept.ts';
import { partBegins, partOf } from '../../../model/watch/repeatedPart.ts';
import { type UsualStops, usualStops } from '../../../model/watch/repeatedUsual.ts';
import { fastRuns } from '../../../simulator/fast/fast.ts';
import { stationIds } from '../../proof/fastEvidence.ts';
import { families, variants } from '../../proof/normal.ts';
import { askedAt, earlierOf, watched } from '../../proof/noticesRuns.ts';
import { partPlainly } from './repeatedPlain.ts';

/** Stops that come at once after one another, now and then, and after as many cartons as end any trouble. */
const stop = fc.record({
  since: fc.oneof(
    fc.integer({ min: 0, max: 40 }),
    fc.integer({ min: 0, max: 3000 }),
    fc.double({ min: 0, max: 60_000, noNaN: true }),
  ),
  tries: fc.oneof({ weight: 4, arbitrary: fc.constant(1) }, fc.integer({ min: 1, max: 5 })),
});
const level = (cartons: number) =>
  fc
    .record({
      shape: fc.double({ min: 0.2, max: 60, noNaN: true }),
      each: fc.double({ min: cartons / 30, max: 3 * cartons, noNaN: true }),
    })
    .map(({ shape, each }) => ({ shape, cartons: shape * each }));
const usuals: fc.Arbitrary<UsualStops> = fc.record({
  stops: level(15_000),
  rejects: fc.option(level(400), { nil: undefined }),
  again: fc.record({
    yes: fc.double({ min: 1, max: 20, noNaN: true }),
    no: fc.double({ min: 5, max: 60, noNaN: true }),
  }),
});
const points = fc.option(
  fc.array(
    fc.record({ since: fc.integer({ min: 0, max: 2500 }), rejects: fc.integer({ min: 0, max: 30 }) }),
    {
      maxLength: 60,
    },
  ),
  { nil: undefined },
);

/** How a look differs from the one before: more stops, and sometimes what was known has become another. */
const look = fc.record({
  more: fc.integer({ min: 0, max: 6 }),
  ahead: fc.integer({ min: -20, max: 30_000 }),
  pointsTo: fc.constantFrom('now', 'all', 'none'),
  changed: fc.option(
    fc.record({
      place: fc.nat(40),
      since: fc.option(fc.integer({ min: 0, max: 25 }), { freq: 1, nil: undefined }),
      tries: fc.integer({ min: 1, max: 5 }),
    }),
    { freq: 1, nil: undefined },
  ),
  rejectChanged: fc.option(fc.nat(60), { freq: 1, nil: undefined }),
  other: fc.option(fc.constant(true), { freq: 12, nil: undefined }),
});

function stopsOf(rows: readonly { readonly since: number; readonly tries: number }[]): RecentStop[] {
  let cartons = 0;
  return rows.map(({ since, tries }, place) => {
    cartons += since;
    return { id: `s${place}`, at: place as Instant, cartons, tries };
  });
}

function changeStop(
  row: { since: number; tries: number },
  { since = row.since, tries }: { readonly since: number | undefined; readonly tries: number },
): void {
  Object.assign(row, { since, tries });
}

function pointsOf(rows: readonly { readonly since: number; readonly rejects: number }[]): RejectsBy[] {
  let [cartons, rejects] = [0, 0];
  return rows.map((row) => {
    cartons += row.since;
    rejects += row.rejects;
    return { cartons, rejects };
  });
}

const plainFirst = (usual: UsualStops, run: RunSoFar) =>
  run.recent.length - partPlainly(usual, run).stops.length;

describe('the part of a run since trouble was last over', () => {
  it('[NO2] is what it is when all is worked out anew from the beginning, to the last digit', () => {
    const runs = fc.record({
      usual: usuals,
      stops: fc.array(stop, { maxLength: 45 }),
      points,
      ahead: fc.integer({ min: -20, max: 60_000 }),
    });
    fc.assert(
      fc.property(runs, ({ usual, stops, points: rejects, ahead }) => {
        const recent = stopsOf(stops);
        const nowCartons = Math.max(0, (recent.at(-1)?.cartons ?? 0) + ahead);
        const run = { recent, nowCartons, rejects: rejects && pointsOf(rejects) };
        expect(partOf(usual, run)).toEqual(partPlainly(usual, run));
      }),
      { numRuns: 400 },
    );
  });

  it('[NO2] is the same for whoever goes on from looks before, whatever of the run has become another since', () => {
    const all = fc.record({
      usual: usuals,
      otherUsual: usuals,
      stops: fc.array(stop, { minLength: 1, maxLength: 40 }),
      points,
      looks: fc.array(look, { minLength: 1, maxLength: 20 }),
    });
    fc.assert(
      fc.property(all, ({ usual, otherUsual, stops, points: rejects, looks }) => {
        const kept = new KeptPart();
        const rows = stops.map((row) => ({ ...row }));
        const rejectRows = rejects?.map((row) => ({ ...row }));
        let seen = 0;
        for (const { more, ahead, pointsTo, changed, rejectChanged, other } of looks) {
          if (changed) changeStop(rows[changed.place % rows.length]!, changed);
          if (rejectChanged !== undefined && rejectRows?.length)
            rejectRows[rejectChanged % rejectRows.length]!.rejects += 40;
          seen = Math.min(rows.length, seen + more);
          const recent = stopsOf(rows).slice(0, seen);
          const last = recent.at(-1)?.cartons ?? 0;
          const by = rejectRows && pointsOf(rejectRows);
          const some = pointsTo === 'now' ? by?.filter(({ cartons }) => cartons <= last) : by;
          const run = {
            recent,
            nowCartons: Math.max(0, last + ahead),
            rejects: pointsTo === 'none' ? undefined : some,
          };
          const known = other ? otherUsual : usual;
          expect(partOf(known, run, kept)).toEqual(partPlainly(known, run));
          const before = { ...run, recent: recent.slice(0, -1), nowCartons: last };
          expect(partBegins(known, before, kept).first).toBe(plainFirst(known, before));
        }
      }),
      { numRuns: 150 },
    );
  });

  it('[NO2] a try that is told late, of a stop long dealt with, counts for whoever goes on from looks before', () => {
    const usual = usualStops(Array.from({ length: 10 }, () => ({ stops: 1, retries: 0, of: 20_000 })))!;
    const [first, second] = stopsOf([
      { since: 9000, tries: 1 },
      { since: 30_000, tries: 1 },
    ]);
    const kept = new KeptPart();
    const run = { recent: [first!, second!], nowCartons: 40_000 };
    expect(partOf(usual, run, kept).stops).toHaveLength(2);
    const late = { ...run, recent: [{ ...first!, tries: 6 }, second!] };
    expect(partOf(usual, late, kept)).toEqual(partPlainly(usual, late));
    expect(partOf(usual, late, kept).stops).toHaveLength(1);
  });

  it('[NO2] is the same at each try and each point of rejects of simulated runs, with trouble and without', () => {
    let looks = 0;
    const variant = variants.two;
    const before: ReturnType<typeof watched>[] = [];
    const fault = { kind: 'step', station: 'top-minor', from: 8 * 28_800, times: 6 } as const;
    for (const fast of fastRuns({ seed: 11, levels: families.logNormal, variant, fault })) {
      const run = watched(fast, variant);
      if (run.to > 34 * 28_800) break;
      const own = before.filter(({ size }) => size === run.size).slice(-40);
      before.push(run);
      for (const station of stationIds) {
        const earlier = earlierOf(own, station);
        const usual = usualStops(earlier);
        if (!usual) continue;
        const kept = new KeptPart();
        const tries = run.tries.get(station)!;
        const rejects = run.rejects.get(station) ?? [];
        tries.forEach(({ at, cartons }, place) => {
          const seen = rejects.filter((point) => point.at <= at).length;
          const asked = askedAt(run, earlier, station, { tries: place + 1, points: seen, cartons });
          expect(partOf(usual, asked, kept)).toEqual(partPlainly(usual, asked));
          looks += 1;
        });
      }
    }
    expect(looks).toBeGreaterThan(150);
  });
});
