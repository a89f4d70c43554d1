import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { Balance } from '../../../dashboard/figures/balance.tsx';
import { placed } from '../../../dashboard/figures/balanceStrip.tsx';
import type { BalanceAnswer } from '../../../model/past/balanceAnswer.ts';
import type { EpochMs, Millis } from '../../../model/units/units.ts';

const zone = 'Europe/Berlin';
const six = Date.parse('2026-03-17T05:00:00Z');
const hour = (n: number) => (six + n * 3_600_000) as EpochMs;

/** An early shift of three hours in which hands took six out, of which two were entered. */
const answer: BalanceAnswer = {
  seen: { from: hour(0), to: hour(3), since: undefined, unknown: 0 as Millis, isolated: 0 as Millis },
  counted: true,
  parts: {
    from: hour(0),
    to: hour(3),
    before: 25,
    picked: 7_800,
    good: 7_700,
    rejected: 75,
    crushed: 18,
    inPockets: 26,
    takenOut: 2,
    sample: 2,
    byHand: 0,
    broughtBack: 0,
    unaccounted: 4,
    notSeen: 0,
  },
  unknown: [],
  step: 'hour',
  days: 1,
  points: [0, 1, 4].map((unaccounted, n) => ({
    from: hour(n),
    to: hour(n + 1),
    name: undefined,
    picked: 2_600,
    unaccounted,
  })),
  changes: [{ from: hour(2), to: (hour(2) + 60_000) as EpochMs, by: 3, entered: 2 }],
  orders: {
    list: [
      {
        number: '4472',
        size: 'Sachet 48',
        blend: 'mint',
        from: hour(2),
        to: undefined,
        counted: { least: 2_000, most: 2_000 },
        handedOver: undefined,
        apart: undefined,
      },
      {
        number: '4471',
        size: 'Sachet 20',
        blend: undefined,
        from: hour(-20),
        to: hour(2),
        counted: { least: 5_412, most: 5_420 },
        handedOver: 5_398,
        apart: { least: -22, most: -14 },
      },
    ],
    further: 0,
  },
};

const drawn = (change: Partial<BalanceAnswer> = {}) =>
  renderToStaticMarkup(<Balance answer={{ ...answer, ...change }} zone={zone} />);

/** Its words as they would be read, one piece a line. */
const read = (change: Partial<BalanceAnswer> = {}) =>
  drawn(change)
    .replace(/<\/?(?:b|data|tspan)\b[^>]*>/g, '')
    .replace(/<[^>]+>/g, '\n')
    .replace(/\n+/g, '\n')
    .replaceAll('&#x27;', '’');

/** The numbers of the sum, with their signs. */
function sumOf(change: Partial<BalanceAnswer> = {}): readonly string[] {
  const list = drawn(change).match(/<ol class="balancesum"[\s\S]*?<\/ol>/)![0];
  return [...list.matchAll(/<span class="sign">(.*?)<\/span><b>(.*?)<\/b>/g)].map(
    ([, sign, number]) => `${sign}${number!.replace(/<[^>]+>/g, '')}`,
  );
}

/** What it is when a person adds up what stands on each side. */
function added(terms: readonly string[]): readonly [number, number] {
  const equals = terms.findIndex((term) => term.startsWith('='));
  const value = (term: string) => Number(term.replace(/[=+,]/g, '').replace('−', '-'));
  const total = (some: readonly string[]) => some.reduce((sum, term) => sum + value(term), 0);
  return [total(terms.slice(0, equals)), total(terms.slice(equals))];
}

describe('the balance of blanks and cartons', () => {
  it('shows numbers that add up, in the order in which cartons go', () => {
    expect(sumOf()).toEqual(['25', '+7,800', '=7,700', '+75', '+18', '+26', '+2', '+4']);
    expect(added(sumOf())).toEqual([7_825, 7_825]);
    expect(read()).toContain('in the pockets at 06:00');
    expect(read()).toContain('4 of 7,800 blanks are unaccounted for.');
    expect(read()).toContain('Taken out as people entered it: 2 as samples.');
  });

  it('adds up with what was brought back, came too many, or was not seen, each with its own sign', () => {
    const parts = { ...answer.parts!, takenOut: -2, sample: 0, broughtBack: 2, unaccounted: -4, notSeen: 12 };
    expect(added(sumOf({ parts }))).toEqual([7_825, 7_825]);
    expect(sumOf({ parts }).slice(-3)).toEqual(['−2', '+12', '−4']);
    expect(read({ parts })).toContain('4 cartons too many.');
    expect(read({ parts })).toContain('a counter began anew');
  });

  it('says of cartons that were entered as brought back and did not come that they did not, and not that blanks went', () => {
    const base = { ...answer.parts!, good: 7_706, takenOut: -2, sample: 0, broughtBack: 2 };
    const none = {
      ...base,
      before: 25,
      picked: 0,
      good: 0,
      rejected: 0,
      crushed: 0,
      inPockets: 25,
      unaccounted: 2,
    };
    expect(read({ parts: none })).toContain('2 cartons entered as brought back did not come to the check.');
    expect(read({ parts: none })).not.toContain('of 0 blanks');
    const some = { ...base, good: 7_703, unaccounted: 5 };
    expect(read({ parts: some })).toContain('5 of 7,800 blanks are unaccounted for.');
    expect(read({ parts: some })).toContain(
      '3 went without being counted, and 2 more were entered as brought back',
    );
    const gone = { ...none, takenOut: 0, broughtBack: 0, inPockets: 22, unaccounted: 3 };
    expect(read({ parts: gone })).toContain('3 cartons are unaccounted for.');
  });

  it('tells a stretch of a second with its seconds, and what went before as cycles that may have stood still', () => {
    const unknown = [{ from: (hour(2) + 11_000) as EpochMs, to: (hour(2) + 13_000) as EpochMs }];
    expect(read({ unknown })).toContain('from Tue 17 Mar 08:00:11 to 08:00:13, for 2 s.');
    const long = [{ from: hour(1), to: hour(2) }];
    expect(read({ unknown: long })).toContain('from Tue 17 Mar 07:00 to Tue 17 Mar 08:00.');
    expect(read()).toContain('and longer where it stood');
  });

  it('hangs out a flap where something is unaccounted for, and none where nothing is', () => {
    expect(drawn()).toContain('flapout');
    const parts = { ...answer.parts!, good: 7_704, unaccounted: 0 };
    expect(drawn({ parts })).not.toContain('flapout');
    expect(read({ parts })).toContain('Every blank is accounted for.');
    expect(added(sumOf({ parts }))).toEqual([7_825, 7_825]);
  });

  it('says of no blank that it is accounted for where a counter began anew', () => {
    const parts = { ...answer.parts!, unaccounted: 0, notSeen: 4 };
    expect(read({ parts })).toContain('No blank is known to be missing.');
    expect(read({ parts })).not.toContain('Every blank');
  });

  it('hatches what nobody can say and joins nothing across it', () => {
    const [first, , last] = answer.points;
    const points = [first!, { ...answer.points[1]!, unaccounted: undefined }, last!];
    expect(drawn({ points })).toContain('unseenbox');
    expect(drawn()).not.toContain('unseenbox');
    expect(
      drawn({ points })
        .match(/class="cutline" d="([^"]*)"/)![1]!
        .match(/M/g)!.length,
    ).toBe(2);
    expect(read({ points })).toContain('not known');
    expect(read({ unknown: [{ from: hour(1), to: hour(2) }] })).toContain(
      'The pockets were not known from Tue 17 Mar 07:00 to Tue 17 Mar 08:00.',
    );
  });

  it('tells the largest changes with their time, and what was entered around them', () => {
    expect(read()).toContain(
      '3 cartons missing\ntold Tue 17 Mar 08:01; 2 entered as taken out within half an hour',
    );
  });

  it('sets what was handed over of each order beside what was counted, with a sign, and names what is not entered', () => {
    const words = read();
    expect(words).toContain('4472\nSachet 48, mint\nTue 17 Mar 08:00 to now\n2,000\nruns');
    expect(words).toContain(
      '4471\nSachet 20\nMon 16 Mar 10:00 to Tue 17 Mar 08:00\n5,412 to 5,420\n5,398\n−22 to −14',
    );
    const [, ended] = answer.orders.list;
    const none = { ...ended!, handedOver: undefined, apart: undefined };
    expect(read({ orders: { list: [none], further: 3 } })).toContain('not entered');
    expect(read({ orders: { list: [none], further: 3 } })).toContain('3 earlier orders are not listed.');
  });

  it('says why there is none, and shows no number then', () => {
    expect(read({ parts: undefined })).toContain('The pockets were known at no two moments of this time.');
    expect(read({ parts: undefined, counted: false })).toContain('The line has no counter of blanks picked');
    expect(drawn({ parts: undefined })).not.toContain('balancesum');
  });
});

describe('parts of the strip', () => {
  it('are as long as they count, fill the strip, and are never too small to be seen', () => {
    const places = placed([646, 162, 25, 1], 800);
    expect(places.at(-1)!.from + places.at(-1)!.long).toBeCloseTo(800, 6);
    expect(Math.min(...places.map(({ long }) => long))).toBeCloseTo(16, 6);
    expect(places[0]!.long / places[1]!.long).toBeGreaterThan(3.5);
    expect(placed([5], 300)).toEqual([{ from: 0, long: 300 }]);
  });
});
