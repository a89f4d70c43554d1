import type { LineView } from '../../../model/view/view.ts';
import { bucketsOf, ms, pathOf, pocketsOf, span, t } from './build.ts';

const LOADING_ANSWERS = [
  { id: 'no-product', name: 'no sachets', drawing: 'capture' },
  { id: 'fouled', name: 'carton fouled', drawing: 'open' },
  { id: 'fell', name: 'sachet fell', drawing: 'loading' },
  { id: 'flap', name: 'flap in the way', drawing: 'capture-off' },
] as const;

const spans = [
  span('changeover', '06:00:00', '06:24:00'),
  span('stopped', '06:29:10', '06:30:30', 2, 'missed pick'),
  span('stopped', '06:36:40', '06:37:30', 3, 'carton not square'),
  span('starved', '07:05:30', '07:06:35', 1, 'magazine empty'),
  span('stopped', '07:31:00', '07:31:45', 5, 'tuck jam'),
  span('safety', '07:48:20', '07:52:01', 7, 'loading front pressed'),
  span('stopped', '08:14:00', '08:14:38', 2, 'missed pick'),
  span('blocked', '08:40:30', '08:42:40', 11, 'conveyor full'),
  span('stopped', '09:02:00', '09:02:52', 9, 'flap not closed'),
  span('pause', '09:30:00', '09:50:00', undefined, 'break'),
  span('stopped', '09:52:20', '09:53:50', 7, undefined, true),
  span('stopped', '10:21:50', '10:23:38', 5, 'tuck jam'),
  span('stopped', '10:31:15', '10:35:20', 5, 'tuck jam'),
  span('stopped', '10:40:00', undefined, 5, 'tuck jam'),
];

const presses: LineView['trend']['presses'] = [
  { id: 'p1', device: 'loading-front', name: 'loading front', candidates: [], pressed: t('07:48:20'), released: t('07:50:40'), reset: t('07:51:30'), restarted: t('07:52:01'), firstGood: t('07:52:40'), role: 'caused', known: 'edge' },
  { id: 'p2', device: 'loading-back', name: 'loading back', candidates: [], pressed: t('10:32:40'), released: t('10:34:30'), reset: t('10:35:02'), restarted: t('10:35:20'), firstGood: t('10:35:55'), role: 'during', known: 'edge' },
];

const path = pathOf(
  8885,
  {
    magazine: { stopped: 48 },
    pick: { stopped: 28, missedPick: 26, reject: 6 },
    open: { reject: 17 },
    'bottom-minor': { reject: 9 },
    'bottom-major': { stopped: 390, reject: 54, crushed: 11 },
    capture: { reject: 4 },
    loading: { stopped: 228, slow: 41, notLoaded: 61, reject: 15 },
    'top-minor': { reject: 8 },
    'top-major': { stopped: 38, reject: 20, crushed: 1 },
    'tuck-cam': { reject: 8 },
    discharge: { stopped: 95, reject: 1 },
  },
  { changeover: 104, pauseOver: 73, slow: 38, reject: 9 },
  { 'bottom-major': { mark: 'firstFault', rejects: { inLast: 23, of: 1000, normal: 4 } } },
);

const SIZES: { readonly [id: string]: string } = { 'sachet-20': 'Sachet 20', 'sachet-48': 'Sachet 48', 'sampler-12': 'Sampler 12' };

const order = (number: string, sizeId: string, blend: string, quantity: number, due: LineView['at'] | undefined, state: 'running' | 'open', change: 'none' | 'artwork' | 'size', usual: number | undefined) => ({
  number,
  sizeId,
  size: SIZES[sizeId] ?? sizeId,
  blend,
  quantity,
  due,
  state,
  good: state === 'running' ? 8885 : 0,
  perCase: sizeId === 'sachet-20' ? 36 : 24,
  change,
  usual: usual === undefined ? undefined : ms(usual),
  handedOver: undefined,
});

const running = order('4471', 'sachet-48', 'mint', 18_480, t('14:00:00'), 'running', 'none', undefined);

/** A tuck jam at the bottom major flap, third in twenty minutes: the wall of the pictures. */
export const stopped: LineView = {
  line: { id: 'line-3', name: 'Line 3', product: 'tea sachets', zone: 'Europe/Berlin', size: 'Sachet 48', emergencyNumber: '333', lossPatterns: ['stopped', 'slow', 'notLoaded', 'missedPick', 'reject', 'crushed', 'changeover', 'pauseOver'] },
  at: t('10:42:14'),
  sight: { kind: 'live', age: ms(0, 1), lastAt: t('10:42:13'), servers: [{ id: 'plc', up: true, since: t('05:12:00'), clockOffset: 12 as LineView['sight']['servers'][number]['clockOffset'] }], coverage: 1, unknown: ms(0) },
  head: { kind: 'stopped', since: t('10:40:00'), stop: 's-10:40:00', reason: { name: 'tuck jam', station: 'bottom-major', stopKind: 'machine' }, from: 'state', nth: 3, within: ms(20), attempt: 1, going: undefined, press: undefined },
  rate: { perMinute: 0, uncertain: false, running: undefined, before: 39, target: 44, crew: 2, pockets: pocketsOf(44, {}, 0) },
  plan: {
    shift: { name: 'early shift', from: t('06:00:00'), to: t('14:00:00') },
    order: running,
    good: 8885,
    planned: 18_480,
    plannedSoFar: 10_218,
    possible: 10_218,
    behind: 1333,
    finish: { short: 2380, shortLow: 1920, shortHigh: 2840 },
    needed: 51.1,
    nextPause: { name: 'pause', at: t('12:00:00'), allowance: ms(10) },
  },
  changeover: { current: false, kind: 'size', from: 'Sachet 20', to: 'Sachet 48', began: t('06:00:00'), firstGood: t('06:24:00'), atRate: t('06:41:00'), lasted: ms(41), trialCartons: 35 },
  path,
  trend: {
    from: t('06:00:00'),
    to: t('14:00:00'),
    now: t('10:42:14'),
    target: 44,
    maxRate: 54,
    bucketMs: ms(1),
    buckets: bucketsOf(8885, t('06:00:00'), t('10:42:14'), spans),
    spans,
    pauses: [{ name: 'pause', from: t('12:00:00'), to: t('12:10:00') }],
    presses,
  },
  devices: {
    devices: [
      { id: 'main-panel', name: 'main panel', side: 'front', station: undefined, position: undefined, reads: 'released', uncertain: false, hasTwin: true, candidates: [] },
      { id: 'loading-front', name: 'loading front', side: 'front', station: 'loading', position: 'front', reads: 'released', uncertain: false, hasTwin: true, candidates: [] },
      { id: 'loading-back', name: 'loading back', side: 'back', station: 'loading', position: 'back', reads: 'released', uncertain: false, hasTwin: true, candidates: [] },
    ],
    guards: [
      { id: 'door-1', name: 'guard door 1', side: 'back', from: 'pick', to: 'bottom-minor', reads: 'closed', uncertain: false },
      { id: 'door-2', name: 'guard door 2', side: 'back', from: 'bottom-major', to: 'capture', reads: 'closed', uncertain: false },
      { id: 'door-3', name: 'guard door 3', side: 'back', from: 'top-minor', to: 'tuck-cam', reads: 'closed', uncertain: false },
    ],
  },
  loading: [
    { id: 'front', name: 'loading front', side: 'front', notLoadedThisShift: 27, last: Array.from({ length: 100 }, (_, i) => i === 18 || i === 63) },
    { id: 'back', name: 'loading back', side: 'back', notLoadedThisShift: 34, last: Array.from({ length: 100 }, (_, i) => i === 40) },
  ],
  matters: [
    { kind: 'stationAbnormal', station: 'bottom-major', since: t('10:21:50'), inLast: 23, of: 1000, normal: 4 },
    { kind: 'unexplainedStop', stop: 's-09:52:20', at: t('09:52:20'), lasted: ms(1, 30), station: 'loading', answers: LOADING_ANSWERS },
  ],
  question: undefined,
  orders: [
    running,
    order('4472', 'sachet-48', 'lemon', 12_000, t('02:00:00', 18), 'open', 'artwork', undefined),
    order('4475', 'sachet-20', 'mint', 26_400, t('14:00:00', 18), 'open', 'size', 41),
    order('4468', 'sampler-12', 'mixed', 5_400, t('06:00:00', 19), 'open', 'size', 52),
  ],
  crews: [
    { people: 1, note: 'one position', targets: { 'sachet-20': 30, 'sachet-48': 26, 'sampler-12': 20 }, now: false },
    { people: 2, note: 'front and back', targets: { 'sachet-20': 52, 'sachet-48': 44, 'sampler-12': 36 }, now: true },
    { people: 3, note: 'one relieves the others', targets: { 'sachet-20': 52, 'sachet-48': 44, 'sampler-12': 36 }, now: false },
  ],
};

/** The stop of 09:52 as it was asked about: one question, four answers from this station's own history. */
export const question: LineView = {
  ...stopped,
  at: t('09:52:58'),
  sight: { ...stopped.sight, lastAt: t('09:52:57') },
  head: { kind: 'stopped', since: t('09:52:20'), stop: 's-09:52:20', reason: undefined, from: 'state', nth: 1, within: ms(20), attempt: 1, going: undefined, press: undefined },
  question: { stop: 's-09:52:20', since: t('09:52:20'), until: undefined, station: 'loading', answers: LOADING_ANSWERS.map((answer, i) => ({ ...answer, times: [12, 9, 6, 3][i] ?? 0 })), days: 30 },
};
