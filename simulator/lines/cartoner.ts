/**
 * What the simulated cartoner is made of. Names and numbers are invented for the demonstration; the order of the
 * stations and what each does are facts of the trade (common practice, no source).
 */
export interface StationFacts {
  readonly id: string;
  readonly name: string;
  /** Machine cycles from here to the discharge check. */
  readonly pockets: number;
}

export const stations: readonly StationFacts[] = [
  { id: 'magazine', name: 'magazine', pockets: 26 },
  { id: 'pick', name: 'pick', pockets: 25 },
  { id: 'open', name: 'open', pockets: 23 },
  { id: 'bottom-minor', name: 'bottom minor flaps', pockets: 21 },
  { id: 'bottom-major', name: 'bottom major flap', pockets: 19 },
  { id: 'capture', name: 'top flap capture', pockets: 16 },
  { id: 'loading', name: 'loading', pockets: 12 },
  { id: 'top-minor', name: 'top minor flaps', pockets: 7 },
  { id: 'top-major', name: 'top major flap', pockets: 5 },
  { id: 'tuck-cam', name: 'tuck cam', pockets: 3 },
  { id: 'discharge', name: 'discharge', pockets: 0 },
];

/** Stations that count what is presented to them, and cartons crushed in them: all but the magazine. */
export const countingStations: readonly StationFacts[] = stations.filter(({ id }) => id !== 'magazine');

/** Stations that fold or shape a carton: each can do it badly. */
export const foldingStations: readonly StationFacts[] = stations.filter(
  ({ id }) => !['magazine', 'pick', 'loading', 'discharge'].includes(id),
);

export interface SizeFacts {
  readonly id: string;
  readonly name: string;
  readonly code: number;
  readonly perCase: number;
}

export const sizes: readonly SizeFacts[] = [
  { id: 'sachet-20', name: 'Sachet 20', code: 20, perCase: 36 },
  { id: 'sachet-48', name: 'Sachet 48', code: 48, perCase: 24 },
  { id: 'sampler-12', name: 'Sampler 12', code: 12, perCase: 24 },
];

export type SizeId = 'sachet-20' | 'sachet-48' | 'sampler-12';

export interface AdjustmentFacts {
  readonly number: string;
  readonly name: string;
  readonly station: string;
  readonly unit: 'mm' | 'deg';
  readonly decimals: number;
  readonly range: readonly [number, number];
  readonly book: Readonly<Record<SizeId, number>>;
  /** Tag of its encoder, where it may have one. */
  readonly tag?: string;
  readonly wheel?: { readonly clockwise: 'up' | 'down'; readonly perTurn: number };
  /** From which side it is come up to, against the play of its screw. */
  readonly approach?: 'below' | 'above';
  readonly clamp?: boolean;
  /** Stations beside its own whose cartons it spoils when it is off. */
  readonly actsOn?: readonly string[];
}

const book = (twenty: number, fortyEight: number, sampler: number): Readonly<Record<SizeId, number>> => ({
  'sachet-20': twenty,
  'sachet-48': fortyEight,
  'sampler-12': sampler,
});

export const adjustments: readonly AdjustmentFacts[] = [
  {
    number: '1.1',
    name: 'magazine width',
    station: 'magazine',
    unit: 'mm',
    decimals: 0,
    range: [40, 160],
    book: book(72, 96, 118),
    wheel: { clockwise: 'up', perTurn: 4 },
    clamp: true,
  },
  {
    number: '2.1',
    name: 'pick height',
    station: 'pick',
    unit: 'mm',
    decimals: 1,
    range: [0, 60],
    book: book(21.5, 27, 33.5),
    wheel: { clockwise: 'down', perTurn: 1 },
    approach: 'above',
  },
  {
    number: '3.1',
    name: 'opening finger',
    station: 'open',
    unit: 'mm',
    decimals: 1,
    range: [0, 80],
    book: book(34, 41.5, 52),
    wheel: { clockwise: 'up', perTurn: 1 },
    approach: 'below',
  },
  {
    number: '4.1',
    name: 'kicker timing',
    station: 'bottom-minor',
    unit: 'deg',
    decimals: 0,
    range: [0, 359],
    book: book(142, 150, 164),
    tag: 'BottomMinor.KickerTiming',
  },
  {
    number: '4.2',
    name: 'plough guide',
    station: 'bottom-minor',
    unit: 'mm',
    decimals: 1,
    range: [0, 60],
    book: book(18, 22.5, 27),
    wheel: { clockwise: 'up', perTurn: 1 },
    approach: 'below',
    clamp: true,
    actsOn: ['bottom-major'],
  },
  {
    number: '5.1',
    name: 'tuck folder',
    station: 'bottom-major',
    unit: 'mm',
    decimals: 1,
    range: [0, 40],
    book: book(12, 14.5, 16),
    wheel: { clockwise: 'down', perTurn: 0.5 },
    approach: 'below',
    clamp: true,
  },
  {
    number: '5.2',
    name: 'bottom closing guide',
    station: 'bottom-major',
    unit: 'mm',
    decimals: 1,
    range: [0, 60],
    book: book(26, 31.5, 38),
    wheel: { clockwise: 'up', perTurn: 1 },
    approach: 'below',
    clamp: true,
    tag: 'BottomMajor.ClosingGuide',
  },
  {
    number: '6.1',
    name: 'top flap guide',
    station: 'capture',
    unit: 'mm',
    decimals: 0,
    range: [0, 120],
    book: book(58, 66, 80),
    wheel: { clockwise: 'up', perTurn: 2 },
    clamp: true,
  },
  {
    number: '8.1',
    name: 'top kicker timing',
    station: 'top-minor',
    unit: 'deg',
    decimals: 0,
    range: [0, 359],
    book: book(205, 212, 226),
  },
  {
    number: '9.1',
    name: 'top closing guide',
    station: 'top-major',
    unit: 'mm',
    decimals: 1,
    range: [0, 60],
    book: book(24.5, 30, 36.5),
    wheel: { clockwise: 'up', perTurn: 1 },
    approach: 'below',
    clamp: true,
    tag: 'TopMajor.ClosingGuide',
  },
  {
    number: '9.2',
    name: 'chain phase',
    station: 'top-major',
    unit: 'deg',
    decimals: 0,
    range: [-45, 45],
    book: book(0, 4, 9),
    clamp: true,
  },
  {
    number: '10.1',
    name: 'tuck cam height',
    station: 'tuck-cam',
    unit: 'mm',
    decimals: 1,
    range: [0, 120],
    book: book(62, 70.5, 84),
    wheel: { clockwise: 'up', perTurn: 1 },
    approach: 'above',
    tag: 'TuckCam.Height',
  },
];

/** What made the line leave production. The same words as the model's, kept apart so that it stays a witness. */
export type ReasonKind = 'machine' | 'starved' | 'blocked' | 'changeover' | 'operator' | 'safety' | 'pause';

export interface ReasonFacts {
  readonly number: number;
  readonly kind: ReasonKind;
  readonly station?: string;
  readonly name: string;
}

/** Numbers of the first-out word; also the alarm numbers and their texts. */
export const reasons: readonly ReasonFacts[] = [
  { number: 11, kind: 'starved', station: 'magazine', name: 'magazine empty' },
  { number: 21, kind: 'machine', station: 'pick', name: 'no blank picked' },
  { number: 31, kind: 'machine', station: 'open', name: 'carton not opened' },
  { number: 41, kind: 'machine', station: 'bottom-minor', name: 'jam' },
  { number: 51, kind: 'machine', station: 'bottom-major', name: 'tuck jam' },
  { number: 61, kind: 'machine', station: 'capture', name: 'flap not captured' },
  { number: 71, kind: 'machine', station: 'loading', name: 'carton fouled' },
  { number: 72, kind: 'starved', station: 'loading', name: 'no sachets' },
  { number: 81, kind: 'machine', station: 'top-minor', name: 'jam' },
  { number: 91, kind: 'machine', station: 'top-major', name: 'flap not closed' },
  { number: 101, kind: 'machine', station: 'tuck-cam', name: 'tuck not closed' },
  { number: 111, kind: 'blocked', station: 'discharge', name: 'conveyor full' },
  { number: 112, kind: 'machine', station: 'discharge', name: 'jam' },
  { number: 201, kind: 'operator', name: 'stopped at the panel' },
  { number: 205, kind: 'operator', station: 'loading', name: 'stopped at loading' },
  { number: 202, kind: 'changeover', name: 'changeover' },
  { number: 203, kind: 'pause', name: 'pause' },
  { number: 301, kind: 'safety', name: 'stop device pressed' },
  { number: 302, kind: 'safety', name: 'guard opened' },
];

export interface GuardFacts {
  readonly id: string;
  readonly name: string;
  readonly tag: string;
  readonly from: string;
  readonly to: string;
  /** Stations behind it, by pocket distance: from the farthest to the nearest. */
  readonly pockets: readonly [number, number];
}

export const guards: readonly GuardFacts[] = [
  {
    id: 'door-1',
    name: 'guard door 1',
    tag: 'Guard.Door1Open',
    from: 'pick',
    to: 'bottom-minor',
    pockets: [25, 21],
  },
  {
    id: 'door-2',
    name: 'guard door 2',
    tag: 'Guard.Door2Open',
    from: 'bottom-major',
    to: 'capture',
    pockets: [19, 16],
  },
  {
    id: 'door-3',
    name: 'guard door 3',
    tag: 'Guard.Door3Open',
    from: 'top-minor',
    to: 'tuck-cam',
    pockets: [7, 3],
  },
];

export interface ConditionFacts {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly normal: readonly [number, number];
  readonly tag: string;
}

export const conditions: readonly ConditionFacts[] = [
  { id: 'vacuum', name: 'pick vacuum', unit: 'kPa', normal: [-65, -50], tag: 'Pick.Vacuum' },
  { id: 'air', name: 'air pressure', unit: 'bar', normal: [5.5, 6.5], tag: 'Cartoner.AirPressure' },
  { id: 'main-drive', name: 'main drive load', unit: '%', normal: [35, 70], tag: 'Cartoner.MainDriveLoad' },
];

/**
 * Coarse reasons of the discharge check, the stations that people of the line would look at for each, and the tag that
 * counts it.
 */
export const rejects = [
  {
    id: 'top-open',
    name: 'top open',
    station: 'top-major',
    from: ['capture', 'top-minor', 'top-major'],
    tag: 'Discharge.RejectTopOpen',
  },
  {
    id: 'bottom-open',
    name: 'bottom open',
    station: 'bottom-major',
    from: ['bottom-minor', 'bottom-major'],
    tag: 'Discharge.RejectBottomOpen',
  },
  { id: 'empty', name: 'empty', station: 'loading', from: undefined, tag: 'Discharge.RejectEmpty' },
  {
    id: 'crushed',
    name: 'crushed',
    station: 'tuck-cam',
    from: ['open', 'tuck-cam'],
    tag: 'Discharge.RejectCrushed',
  },
  {
    id: 'code',
    name: 'code or print',
    station: 'discharge',
    from: ['discharge'],
    tag: 'Discharge.RejectCode',
  },
] as const;

export type RejectId = (typeof rejects)[number]['id'];

/** The station's name as tags write it: `bottom-major` is `BottomMajor`. */
export function tagName(id: string): string {
  return id
    .split('-')
    .map((part) => part.charAt(0).toUpperCase() + part.slice(1))
    .join('');
}
