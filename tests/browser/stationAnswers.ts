import { adjustmentsNow } from '../../model/past/adjustmentsNow.ts';
import { aroundStop } from '../../model/past/around.ts';
import type { Batch } from '../../model/past/batches.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import type { StationSum } from '../../model/past/stationsPast.ts';
import { MEASURED } from '../../model/normal/measured.ts';
import type { StationNormal, StationsTold, StationTold } from '../../model/past/worsePast.ts';
import { epochMs, type EpochMs, type Millis } from '../../model/units/units.ts';
import { recorded } from '../model/past/recorded.ts';
import { at, boundSignals, changes, type Rows, running, smallLine } from '../model/smallLine.ts';

const SHIFT = 8 * 3600;
const ms = (second: number): EpochMs => epochMs(at(second));
const names = ['magazine', 'pick', 'open', 'bottom minor flaps', 'bottom major flap', 'discharge'] as const;
const stations = names.map((name, place) => {
  const id = name.replace(/ flaps?$/, '').replace(' ', '-');
  return { id, number: place + 1, name, drawing: id };
});
const seen = {
  from: ms(0),
  to: ms(SHIFT),
  since: undefined,
  unknown: 60_000 as Millis,
  isolated: 0 as Millis,
};

const overview: PastOverview = {
  past: { kind: 'whole' },
  begun: ms(0),
  now: ms(SHIFT),
  zone: 'Europe/Berlin',
  shifts: [{ rule: 'early', name: 'early shift', from: ms(0), to: ms(2 * SHIFT) }],
  sizes: [{ id: 'sachet-20', name: 'Sachet 20' }],
  stations,
  orders: [],
};

const sums: readonly StationSum[] = stations.map((station, place) => ({
  station,
  presented: place === 0 ? undefined : 20_000 + place,
  rejects: place > 3 ? 30 : undefined,
  empty: undefined,
  missed: place === 1 ? 12 : undefined,
  crushed: place,
  stops: place,
  stood: (place * 60_000) as Millis,
  lost: 100 * place,
  causes: [{ cause: 'stopped', cartons: 100 * place }],
}));

const all: StationsTold = {
  seen,
  shifts: 1,
  stations: sums,
  none: { lost: 40, causes: [{ cause: 'changeover', cartons: 40 }] },
  lost: { total: 1540, possible: 21_540, good: 20_000 },
  worse: stations.map(({ id }) => ({
    station: id,
    outside: id === 'bottom-major' ? ['run'] : [],
    tooThin: id === 'bottom-major' ? ['stops'] : [],
  })),
};

/** One rule outside, one inside, and one with too little to say anything. */
const normal: StationNormal = {
  size: { id: 'sachet-20', name: 'Sachet 20' },
  from: ms(0),
  to: ms(40 * 400),
  since: undefined,
  byHand: false,
  earlierRuns: 14,
  rules: [
    {
      rule: 'run',
      since: ms(0),
      seen: 103,
      of: 12_080,
      expected: 46.2,
      interval: { lower: 21, upper: 82 },
      most: 97,
      seenFrom: 2.1,
      outside: true,
      tooThin: undefined,
      measured: MEASURED.run,
    },
    {
      rule: 'drift',
      since: ms(38 * 400),
      seen: 9,
      of: 600,
      expected: 5.1,
      interval: { lower: 1, upper: 11 },
      most: undefined,
      seenFrom: 3.4,
      outside: false,
      tooThin: undefined,
      measured: MEASURED.drift,
    },
    {
      rule: 'stops',
      since: ms(0),
      seen: 1,
      of: 12_080,
      expected: undefined,
      interval: undefined,
      most: undefined,
      seenFrom: undefined,
      outside: false,
      tooThin: { kind: 'past', runs: 1, cartons: 2400 },
      measured: MEASURED.stops,
    },
  ],
};

/** Forty batches of which the last two lie above the line, and one run before them. */
const batches: readonly Batch[] = Array.from({ length: 40 }, (_, n) => ({
  from: ms(n * 400),
  to: ms(n * 400 + 400),
  of: 300 + (n % 5),
  counted: n > 37 ? n - 29 : n % 3,
  most: n < 8 ? undefined : 6,
  above: n > 37,
  apart: n === 0 || n === 8,
}));

const line = smallLine(
  {
    adjustments: ['5.1', '5.2'].map((number) => ({
      number,
      name: `guide ${number}`,
      station: 'fold',
      unit: 'mm',
      decimals: 1,
      min: 0,
      max: 60,
      book: new Map([['sachet-20', 31.5]]),
    })),
    conditions: [{ id: 'vacuum', name: 'pick vacuum', unit: 'kPa', normal: [-65, -50] }],
  },
  [
    ...boundSignals,
    { id: 'guide', role: 'adjustment', of: '5.2' },
    { id: 'vacuum', role: 'condition', of: 'vacuum' },
  ],
);
const rows: Rows = [
  ...running(),
  [5, 'guide', 34],
  [60, 'vacuum', -57],
  [95, 'vacuum', -44],
  [94, 'cycles', 7],
  [100, 'state', 11],
  [100.4, 'reason', 51],
];
const { fold } = recorded(line, rows);

/** What the gateway answers to the Stations screen, by address; undefined where there is nothing. */
export function stationAnswers(path: string): unknown {
  if (path.endsWith('/past')) return overview;
  if (path.endsWith('/around'))
    return aroundStop(
      fold.index,
      { id: 'one', begin: at(100) },
      { changes: changes(line, rows), whole: true, now: at(200) },
    );
  if (path.endsWith('/stations')) return all;
  const sum = sums.find(({ station }) => path.endsWith(`/stations/${station.id}`));
  return sum && stationPast(sum);
}

function stationPast(sum: StationSum): StationTold {
  const size = { id: 'sachet-20', name: 'Sachet 20' };
  return {
    seen,
    shifts: 1,
    sum,
    judged: 'reject',
    normal,
    trend: {
      kind: 'reject',
      size,
      sizes: [size, { id: 'sachet-48', name: 'Sachet 48' }],
      since: undefined,
      byHand: false,
      batches,
      all: 50,
      above: 2,
      leftOut: 120,
      normal: { mean: 1.3, most: 6, onceIn: 1700, worst: 900, earlier: 12_000 },
      earlier: 12_000,
    },
    stops: {
      stops: 1,
      stood: 160_000 as Millis,
      minorMinutes: 10,
      list: [
        {
          id: 'one',
          at: ms(100),
          until: ms(260),
          lasted: 160_000 as Millis,
          endSeen: true,
          minor: true,
          kind: 'machine',
          name: 'tuck jam',
          station: sum.station,
          size: size.name,
          order: '4471',
          lost: 85,
          attempt: 1,
          chain: [{ kind: 'firstFault', name: 'tuck jam', after: 0 as Millis }],
          said: undefined,
          answers: [],
        },
      ],
    },
    adjustments: { size: size.name, list: adjustmentsNow(fold.index, fold.state, 'fold') },
  };
}
