import { scaleOf } from '../../../model/past/adjustmentsNow.ts';
import type {
  Learned,
  SetPointOpened,
  SetPointRow,
  SetPointRun,
  SetPointsPast,
  Stands,
} from '../../../model/past/setPointsPast.ts';
import type { EpochMs } from '../../../model/units/units.ts';

/** An early shift of Line 3, as its book is answered. */
export const zone = 'Europe/Berlin';
export const now = Date.parse('2026-03-17T09:42:14Z') as EpochMs;
const moment = (text: string) => Date.parse(`2026-03-${text}Z`) as EpochMs;
const begun = moment('17T05:19:00');

const STATIONS = [
  ['magazine', 'magazine'],
  ['pick', 'pick'],
  ['open', 'open'],
  ['bottom-minor', 'bottom minor flaps'],
  ['bottom-major', 'bottom major flap'],
  ['capture', 'top flap capture'],
  ['loading', 'loading'],
  ['top-minor', 'top minor flaps'],
  ['top-major', 'top major flap'],
  ['tuck-cam', 'tuck cam'],
] as const;

/** Seven runs at three settings round a number, tried on both sides. */
export function learnedAt(best: number, step: number, change: Partial<Learned> = {}): Learned {
  const cost = [-4, -3, -2, -1, 0, 1, 2, 3, 4].map((away) => ({
    at: best + away * step,
    rejectsPerThousand: 2 + away ** 2 * 0.4,
    low: 1.4 + away ** 2 * 0.25,
    high: 2.9 + away ** 2 * 0.6,
    stopsPerThousand: 0.2 + away ** 2 * 0.03,
    lostPerRun: 20 + away ** 2 * 9,
  }));
  return {
    recommended: best,
    likely: { from: best - step, to: best + step },
    ranWell: { from: best - step, to: best + step },
    sure: 'sure',
    runs: 7,
    settings: 3,
    lots: 3,
    marks: [
      { at: best - 2 * step, runs: 1 },
      { at: best, runs: 5 },
      { at: best + step, runs: 1 },
    ],
    rejects: { mean: 2.1, low: 1.5, high: 2.7 },
    cost,
    together: [],
    teaches: undefined,
    ...change,
  };
}

const asBook = (value: number): Stands => ({
  value,
  known: 'confirmed',
  at: begun,
  off: 0,
  tried: undefined,
});

function rowAt(
  number: string,
  name: string,
  book: number,
  {
    decimals = 1,
    step = 0.5,
    unit = 'mm',
    ...change
  }: Partial<SetPointRow> & { readonly step?: number } = {},
): SetPointRow {
  const place = Number(number.split('.')[0]) - 1;
  const [id, station] = STATIONS[place] ?? STATIONS[0];
  return {
    ...{ number, name, unit, decimals, min: 0, max: decimals === 0 ? 359 : 90 },
    station: { id, number: place + 1, name: station, drawing: id },
    drawing: id,
    book,
    approved: undefined,
    stands: asBook(book),
    datum: undefined,
    scale: scaleOf({ min: 0, max: 359 }, book, change.stands?.value ?? book),
    learned: learnedAt(book, step),
    ...change,
  };
}

const sensor = (value: number, off: number, tried?: Stands['tried']): Stands => ({
  value,
  known: 'sensor',
  at: begun,
  off,
  tried,
});

/** Every way in which a number can be known, and every way of being sure. */
export const rows: readonly SetPointRow[] = [
  rowAt('1.1', 'magazine width', 96, { decimals: 0, step: 2 }),
  rowAt('2.1', 'pick height', 27, {
    learned: learnedAt(27, 0.5, {
      sure: 'fairlySure',
      marks: [
        { at: 26.5, runs: 2 },
        { at: 27, runs: 3 },
        { at: 27.5, runs: 2 },
      ],
    }),
  }),
  rowAt('3.1', 'opening finger', 41.5, {
    stands: { value: 41.5, known: 'readBack', at: moment('17T05:22:00'), off: 0, tried: undefined },
  }),
  rowAt('4.1', 'kicker timing', 150, { decimals: 0, step: 2, unit: 'deg' }),
  rowAt('4.2', 'plough guide', 22.5, {
    stands: { value: 23, known: 'typed', at: begun, off: 0.5, tried: 'well' },
    learned: learnedAt(22.5, 0.5, { together: ['5.1'] }),
  }),
  rowAt('5.1', 'tuck folder', 14.5, {
    learned: learnedAt(14.5, 0.5, {
      ...{ sure: 'neverVaried', settings: 1, marks: [{ at: 14.5, runs: 7 }] },
      ...{ likely: undefined, cost: [], ranWell: { from: 14.5, to: 14.5 } },
      teaches: { to: 15, why: 'neverVaried' },
    }),
  }),
  rowAt('5.2', 'bottom closing guide', 31.5, {
    stands: sensor(36.5, 5, 'never'),
    learned: learnedAt(34, 0.5, { teaches: { to: 35, why: 'otherSide' } }),
  }),
  rowAt('6.1', 'top flap guide', 66, {
    decimals: 0,
    step: 2,
    stands: { value: 66, known: 'silent', at: moment('17T09:12:00'), off: undefined, tried: undefined },
    datum: { number: 2, since: moment('09T07:00:00'), why: 'replaced' },
    learned: learnedAt(66, 2, {
      ...{ sure: 'thin', runs: 3, lots: 2, likely: { from: 60, to: 71 } },
      marks: [62, 66, 68].map((at) => ({ at, runs: 1 })),
      rejects: { mean: 3.9, low: 1.1, high: 6.7 },
    }),
  }),
  rowAt('8.1', 'top kicker timing', 212, {
    ...{ decimals: 0, step: 2, unit: 'deg' },
    stands: { value: undefined, known: 'none', at: undefined, off: undefined, tried: undefined },
  }),
  rowAt('9.1', 'top closing guide', 30, { stands: sensor(31, 1, 'never') }),
  rowAt('9.2', 'chain phase', 4, {
    ...{ decimals: 0, unit: 'deg', min: -45, max: 45 },
    learned: learnedAt(4, 1, {
      ...{ sure: 'cannotSay', recommended: undefined, likely: undefined, ranWell: undefined, cost: [] },
      ...{ runs: 1, settings: 1, lots: 1, marks: [{ at: 4, runs: 1 }] },
      rejects: { mean: 3.1, low: undefined, high: undefined },
    }),
  }),
  rowAt('10.1', 'tuck cam height', 70.5, { stands: sensor(70.5, 0), learned: undefined }),
];

export function bookWith(change: Partial<SetPointsPast> = {}): SetPointsPast {
  return {
    size: { id: 'sachet-48', name: 'Sachet 48' },
    sizes: [
      { id: 'sachet-20', name: 'Sachet 20' },
      { id: 'sachet-48', name: 'Sachet 48' },
      { id: 'sampler-12', name: 'Sampler 12' },
    ],
    runs: 'now',
    from: {
      runs: 7,
      since: Date.parse('2026-01-12T05:00:00Z') as EpochMs,
      lots: ['L114', 'L119', 'L126'],
      parts: ['set B'],
      cartons: 61_400,
    },
    rows,
    sums: { adjustments: 12, off: 3, neverTried: 2, silent: 1, confirmed: 4, unknown: 1 },
    ...change,
  };
}

const run = (day: string, value: number | undefined, change: Partial<SetPointRun> = {}): SetPointRun => ({
  from: moment(`${day}T05:30:00`),
  to: moment(`${day}T11:00:00`),
  value,
  known: value === undefined ? undefined : 'sensor',
  found: undefined,
  datum: 1,
  lot: 'L119',
  parts: 'set B',
  cartons: 9_120,
  rejectsPerThousand: 2.2,
  stops: 2,
  ...change,
});

export function openedWith(number: string, change: Partial<SetPointOpened> = {}): SetPointOpened {
  return {
    row: rows.find((row) => row.number === number)!,
    approvals: [
      {
        value: 31.5,
        at: moment('09T08:10:00'),
        author: { kind: 'person', number: '17' },
        why: 'ran well with lot L119',
        seen: 'Recommended 31.5 mm for Sachet 48. 4 runs, 2 settings, 2 lots, tried on one side only.',
      },
      {
        value: undefined,
        at: moment('02T08:10:00'),
        author: { kind: 'person', number: '17' },
        why: 'the guide was bent',
        seen: undefined,
      },
    ],
    datums: [
      {
        datum: 2,
        at: moment('01T07:00:00'),
        why: 'replaced',
        words: 'new guide plate',
        author: { kind: 'screen', screen: 'desk' },
        offset: undefined,
      },
    ],
    runs: [
      run('17', 36.5, { cartons: 2_400, rejectsPerThousand: 6.1, stops: 4 }),
      run('13', 34, { known: 'typed' }),
      run('11', 33, { known: 'confirmed', lot: undefined }),
      run('06', undefined, { rejectsPerThousand: undefined, datum: 1 }),
    ],
    ...change,
  };
}

/** A line of so many adjustments, each with a long name. */
export function crowdedBook(count: number): SetPointsPast {
  const many = Array.from({ length: count }, (_, n): SetPointRow => {
    const row = rows[n % rows.length]!;
    const station = 1 + Math.floor(n / 4);
    return {
      ...row,
      number: `${station}.${1 + (n % 4)}`,
      name: `${row.name}, on the operator’s side of the upper carrier`,
      station: { ...row.station, id: `s${station}`, number: station, name: 'bottom major flap and tuck' },
    };
  });
  return bookWith({ rows: many, sums: { ...bookWith().sums, adjustments: count } });
}
