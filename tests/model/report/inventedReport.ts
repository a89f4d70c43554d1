import type { PastChangeover } from '../../../model/past/changeover.ts';
import type { PastUse } from '../../../model/past/safetyPast.ts';
import type { PastStop } from '../../../model/past/stopsPast.ts';
import type { Report, Signature } from '../../../model/report/report.ts';
import type { EpochMs, Millis } from '../../../model/units/units.ts';

const START = Date.parse('2026-11-27T05:00Z');
const at = (minutes: number) => (START + minutes * 60_000) as EpochMs;
const long = (minutes: number) => (minutes * 60_000) as Millis;
/** So many signs of words that say nothing. */
export const wordy = (signs: number) =>
  'tuck blade looked at, set by two marks, '.repeat(20).slice(0, signs).trim();

const station = (number: number, name: string) => ({ id: `s${number}`, number, name, drawing: 'discharge' });
const STATIONS = [station(1, 'pick'), station(2, 'fold'), station(3, 'close')];

/** The page of an early shift that nobody worked: every list is empty unless it is said otherwise. */
export function inventedReport(change: Partial<Report> = {}): Report {
  return {
    format: 1,
    line: { id: 'line-3', name: 'Line 3', product: 'tea sachets' },
    zone: 'Europe/Berlin',
    kind: 'shift',
    shift: 'early shift',
    size: undefined,
    order: undefined,
    from: at(0),
    to: at(480),
    goesOn: false,
    sizes: ['Sachet 20'],
    seen: { from: at(0), to: at(480), since: undefined, unknown: long(0), isolated: long(0) },
    figures: [],
    lost: undefined,
    strip: { bucketMs: 120_000, rates: [50, 48, null, 51], target: 52, cuts: [] },
    stations: STATIONS.map((one) => ({ ...stationRow, id: one.id, station: one })),
    stops: {
      list: [],
      more: { stops: 0, stood: long(0) },
      carried: { stops: 0, stood: long(0) },
      rows: [],
      moreRows: { rows: 0, stops: 0, stood: long(0) },
    },
    safety: { list: [], uses: 0, caused: 0, ranOn: 0, notExplained: 0 },
    changeovers: [],
    moreChangeovers: 0,
    unseen: [],
    moreUnseen: 0,
    notes: [],
    moreNotes: 0,
    handedOver: [],
    model: '12.a',
    position: 4321,
    made: at(481),
    ...change,
  };
}

const stationRow = {
  kind: 'reject',
  counted: 4,
  among: 20_000,
  usual: undefined,
  perThousand: 0.2,
  lower: 0.1,
  upper: 0.5,
  more: false,
  laid: undefined,
  lost: undefined,
  stops: 0,
  stood: long(0),
} as const;

/** A stop so many minutes after the beginning. */
export function inventedStop(minutes: number, change: Partial<PastStop> = {}): PastStop {
  return {
    id: `stop-${minutes}`,
    at: at(minutes),
    until: at(minutes + 3),
    lasted: long(3),
    endSeen: true,
    minor: true,
    kind: 'machine',
    name: 'tuck jam',
    station: STATIONS[2],
    size: 'sachet-20',
    order: undefined,
    lost: 150,
    attempt: 1,
    chain: [{ kind: 'firstFault', name: 'tuck jam', after: long(0) }],
    said: undefined,
    answers: [],
    ...change,
  };
}

export function inventedUse(minutes: number, name = 'stop button front'): PastUse {
  return {
    id: `use-${minutes}`,
    of: 'front',
    name,
    kind: 'pressed',
    at: at(minutes),
    owned: true,
    role: 'during',
    released: long(1),
    reset: long(2),
    restarted: long(3),
    firstGood: long(4),
    parts: [],
    before: { kind: 'nothing' } as unknown as PastUse['before'],
    candidates: [],
    candidate: undefined,
  };
}

export function inventedChangeover(minutes: number): PastChangeover {
  return {
    id: `changeover-${minutes}`,
    kind: 'size',
    from: 'Sachet 20',
    to: 'Sachet 48',
    at: at(minutes),
    over: at(minutes + 20),
    ends: 'atRate',
    lasted: long(20),
    lost: 900,
  } as unknown as PastChangeover;
}

/** More than a page holds: every list full, every text as long as it may be, and what found no room before. */
export function crowdedReport(change: Partial<Report> = {}): Report {
  const name = `close: ${wordy(60)}`;
  const list = Array.from({ length: 10 }, (_, n) =>
    inventedStop(20 + 40 * n, {
      name,
      said: wordy(500),
      attempt: 3,
      chain: ['firstFault', 'setOff', 'setOff', 'setOff'].map((kind, place) => ({
        kind: kind as 'firstFault' | 'setOff',
        name,
        after: long(place / 10),
      })),
    }),
  );
  const rows = list.map((stop, n) => ({
    id: `row-${n}`,
    name,
    station: stop.station,
    kind: stop.kind,
    stops: 3,
    stood: long(9),
  }));
  return inventedReport({
    sizes: ['Sachet 20', 'Sachet 48', 'Sampler 12'],
    stops: {
      list,
      more: { stops: 16, stood: long(30) },
      carried: { stops: 1, stood: long(2) },
      rows,
      moreRows: { rows: 4, stops: 9, stood: long(20) },
    },
    safety: {
      list: [1, 2, 3].map((n) => inventedUse(30 * n)),
      uses: 12,
      caused: 2,
      ranOn: 3,
      notExplained: 1,
    },
    changeovers: [1, 2, 3].map((n) => inventedChangeover(60 * n)),
    moreChangeovers: 4,
    unseen: [1, 2, 3].map((n) => ({ from: at(100 * n), to: at(100 * n + 2) })),
    moreUnseen: 7,
    notes: [1, 2, 3].map((n) => ({ at: at(90 * n), words: wordy(500), by: 'loading front' })),
    moreNotes: 5,
    handedOver: Array.from({ length: 12 }, (_, n) => ({
      order: `${n} ${wordy(98)}`,
      counted: 1000 + n,
      handedOver: 990,
    })),
    ...change,
  });
}

export function inventedSignatures(count: number, words?: string): readonly Signature[] {
  return Array.from({ length: count }, (_, n) => ({
    id: `signature-${n}`,
    at: at(485 + n),
    person: String(4711 + n),
    as: n === 0 ? 'handsOver' : n === 1 ? 'takesOver' : 'seen',
    words,
  }));
}
