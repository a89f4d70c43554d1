import { describe, expect, it } from 'vitest';
import type { Instant } from '../../../model/units/units.ts';
import { evidenceFor, onceInStops, SHAPES, shareOf, STOPS_PER_RUN } from '../../../model/watch/falseRate.ts';
import { FALSE_ONCE } from '../../../model/watch/falseRateTable.ts';
import type { RecentStop, RepeatedStops, StopsAsked } from '../../../model/watch/repeated.ts';
import { isBackToNormal, judgeStops, ONCE_MOST } from '../../../model/watch/repeatedStops.ts';
import { cell } from './falseRateCells.ts';

/** Ten runs of 20,000 cartons with a stop each: one stop in about 20,000 cartons is usual. */
const earlier = Array.from({ length: 10 }, () => ({ stops: 1, retries: 0, of: 20_000, rejects: 50 }));

function stopsAt(...places: readonly (number | readonly [cartons: number, tries: number])[]): RecentStop[] {
  return places.map((place, index) => {
    const [cartons, tries] = typeof place === 'number' ? [place, 1] : place;
    return { id: `s${index}`, at: (cartons * 10) as Instant, cartons, tries };
  });
}

function asked(recent: readonly RecentStop[], more: Partial<StopsAsked> = {}): StopsAsked {
  const nowCartons = recent.at(-1)?.cartons ?? 5000;
  return { earlier, recent, runBegan: 0 as Instant, nowCartons, cartonsPerShift: 20_000, ...more };
}

function judged(one: StopsAsked): Extract<RepeatedStops, { kind: 'judged' }> {
  const said = judgeStops(one);
  if (said.kind !== 'judged') throw new Error('too thin');
  return said;
}

const once = (one: StopsAsked) => judged(one).onceInShifts;

/** One reject in 400 cartons is usual; `times` as many from a place on. */
function rejectsBy(to: number, from: number, times: number) {
  return Array.from({ length: to / 250 }, (_, place) => {
    const cartons = 250 * (place + 1);
    return { cartons, rejects: (Math.min(from, cartons) + times * Math.max(0, cartons - from)) / 400 };
  });
}

describe('repeated stops of a station', () => {
  it('[NO1] one stop says nothing, and two the more the fewer cartons lie between them', () => {
    expect(judged(asked(stopsAt(9000)))).toMatchObject({ onceInShifts: 0, window: undefined });
    const apart = [5000, 2000, 500, 100].map((between) => once(asked(stopsAt(9000, 9000 + between))));
    expect(apart).toEqual(apart.toSorted((a, b) => a - b));
    expect(apart[0]).toBeGreaterThan(0);
    expect(apart[3]! / apart[0]!).toBeGreaterThan(5);
  });

  it('[NO1] tells the stops that say most: how many, since when, in how many cartons, and what is usual in as many', () => {
    const said = judged(asked(stopsAt(1000, 14_000, 14_800, 15_500, 16_000)));
    expect(said.window).toMatchObject({ since: 140_000, stops: 4, retries: 0, cartons: 2000 });
    expect(said.by).toBe('stops');
    // between runs, a stop in 20,000 cartons; and this one brought one in its first 14,000
    expect(said.usualCartons).toBeGreaterThan(15_000);
    expect(said.usualCartons).toBeLessThan(21_000);
    expect(said.window!.expected).toBeGreaterThan(0.07);
    expect(said.window!.expected).toBeLessThan(0.15);
  });

  it('[NO1] a thin past, or one whose runs differ, makes the same stops less strong', () => {
    const recent = stopsAt(9000, 10_000, 11_000);
    const apart = [0, 0, 5, 0, 0, 0, 4, 0, 0, 1].map((stops) => ({ stops, of: 20_000 }));
    const thick = once(asked(recent));
    expect(once(asked(recent, { earlier: earlier.slice(0, 3) }))).toBeLessThan(thick / 2);
    expect(once(asked(recent, { earlier: apart }))).toBeLessThan(thick / 2);
  });

  it('[NO1] where too few runs or cartons are there it says so, with what is needed', () => {
    const recent = stopsAt(100, 200, 300);
    expect(judgeStops(asked(recent, { earlier: earlier.slice(0, 2) }))).toEqual({
      kind: 'tooThin',
      runs: 2,
      cartons: 40_000,
      needs: { runs: 3, cartons: 3000 },
    });
    const short = Array.from({ length: 5 }, () => ({ stops: 0, of: 500 }));
    expect(judgeStops(asked(recent, { earlier: [...short, { stops: 0, of: 0 }] }))).toMatchObject({
      kind: 'tooThin',
      runs: 5,
      cartons: 2500,
    });
  });

  it('[NO1] rejects of the station that rise with its stops make them stronger, and rejects as usual hardly weaker', () => {
    const recent = stopsAt(9000, 10_500);
    const without = once(asked(recent));
    const risen = asked(recent, { rejects: rejectsBy(10_500, 8000, 5) });
    expect(once(risen)).toBeGreaterThan(5 * without);
    expect(judged(risen).window!.rejects!.seen).toBeGreaterThan(3 * judged(risen).window!.rejects!.expected);
    const usual = once(asked(recent, { rejects: rejectsBy(10_500, 0, 1) }));
    expect(usual).toBeLessThan(without);
    expect(usual).toBeGreaterThan(without / 3);
    // a past without rejects holds them against nothing
    const bare = earlier.map(({ stops, of }) => ({ stops, of }));
    expect(judged(asked(recent, { earlier: bare, rejects: rejectsBy(10_500, 0, 1) })).window!.rejects).toBe(
      undefined,
    );
  });

  it('[NO1] a station whose jams go wrong again is found by its tries, though its stops are no more frequent', () => {
    const cleared = judged(asked(stopsAt(6000, 8000)));
    const again = judged(asked(stopsAt([6000, 4], [8000, 4])));
    expect(again.by).toBe('tries');
    expect(again.onceInShifts).toBeGreaterThan(20 * cleared.onceInShifts);
    expect(again.window).toMatchObject({ stops: 2, retries: 6 });
    // where its earlier jams went wrong again as often, nothing is unusual about it
    const always = earlier.map((run) => ({ ...run, retries: 3 }));
    expect(once(asked(stopsAt([6000, 4], [8000, 4]), { earlier: always }))).toBeLessThan(
      again.onceInShifts / 10,
    );
  });

  it('[NO1] a stop that is read ahead of the count of cartons is judged as if the count had come up to it', () => {
    const recent = stopsAt(9000, 9400);
    expect(once(asked(recent, { nowCartons: 8000 }))).toBe(once(asked(recent)));
  });

  it('[NO2] trouble is over after so many cartons without a stop as its own rate seldom leaves, and what comes then is judged anew', () => {
    const recent = stopsAt(9000, 9500, 10_000, 10_500);
    const at = (nowCartons: number) => asked(recent, { nowCartons });
    expect(isBackToNormal(at(11_500))).toBe(false);
    // four stops in 1,500 cartons, and a rate first thought an eighth of 20,000: none in about 4,000 comes once in twenty
    const over = [12_000, 13_000, 14_000, 15_000, 16_000].find((cartons) => isBackToNormal(at(cartons)));
    expect(over).toBe(15_000);
    expect(judged(at(over!))).toMatchObject({ onceInShifts: 0, window: undefined });
    const later = stopsAt(9000, 9500, 10_000, 10_500, 18_000);
    expect(judged(asked(later))).toMatchObject({ onceInShifts: 0, window: undefined });
    expect(judged(asked(stopsAt(9000, 9500, 10_000, 10_500, 18_000, 18_400))).window).toMatchObject({
      since: 180_000,
      stops: 2,
    });
  });

  it('[NO2] stops that told of no trouble are not forgotten, and before the first one all is normal', () => {
    expect(isBackToNormal(asked(stopsAt(2000), { nowCartons: 19_000 }))).toBe(false);
    expect(isBackToNormal(asked([]))).toBe(true);
  });

  it('[NO3] how seldom evidence comes by chance rises with it, and evidence for a rate gives that rate', () => {
    for (const shape of [0.5, 1, 3, 20, 100])
      for (const stopsPerRun of [0.1, 0.7, 3, 40]) {
        const of = { shape, stopsPerRun };
        const rates = [0.1, 1, 5, 30, 200, 5000].map((evidence) => onceInStops(evidence, of));
        expect(rates).toEqual(rates.toSorted((a, b) => a - b));
        // never oftener than the sum itself promises, up to what chance leaves in the table
        expect(onceInStops(200, of)).toBeGreaterThan(200);
        for (const stops of [20, 200, 5000])
          expect(onceInStops(evidenceFor(stops, of), of) / stops).toBeCloseTo(1, 6);
      }
    expect(onceInStops(0, { shape: 2, stopsPerRun: 1 })).toBe(0);
  });

  it('[NO3] stops without end are told as once in a million shifts, whatever the rejects say', () => {
    const recent = stopsAt(...Array.from({ length: 600 }, (_, place) => [10 * place, 3] as const));
    expect(once(asked(recent, { rejects: rejectsBy(6000, 0, 40) }))).toBe(ONCE_MOST);
    expect(once(asked(recent, { rejects: [{ cartons: 6000, rejects: 0 }] }))).toBe(ONCE_MOST);
  });

  it('[NO3] a cell of the table taken at random comes out of its simulation again, exactly', () => {
    expect(FALSE_ONCE.map((row) => row.length)).toEqual(SHAPES.map(() => STOPS_PER_RUN.length));
    const shape = Math.floor(Math.random() * SHAPES.length);
    const run = Math.floor(Math.random() * STOPS_PER_RUN.length);
    expect(cell(shape, run)).toEqual(FALSE_ONCE[shape]![run]);
  });

  it('[NO4] a budget is divided over the stations and rules that somebody watches', () => {
    expect(shareOf({ falseOnceInShifts: 5 }, { stations: 11 })).toEqual({ falseOnceInShifts: 55 });
    expect(shareOf({ falseOnceInShifts: 5 }, { stations: 22, rules: 2 })).toEqual({ falseOnceInShifts: 220 });
    expect(shareOf({ falseOnceInShifts: 5 }, { stations: 0 })).toEqual({ falseOnceInShifts: 5 });
  });
});
