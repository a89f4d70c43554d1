import type { LineView } from '../../../model/view/view.ts';
import { bucketsOf, ms, pathOf, pocketsOf, t } from './build.ts';
import { devices, loading } from './devices.ts';
import { crews, openOrders, runningOrder } from './orders.ts';
import { beforeNoon, morning, presses } from './trend.ts';

const LOADING_ANSWERS = [
  { id: 'no-product', name: 'no sachets', drawing: 'capture' },
  { id: 'fouled', name: 'carton fouled', drawing: 'open' },
  { id: 'fell', name: 'sachet fell', drawing: 'loading' },
  { id: 'flap', name: 'flap in the way', drawing: 'capture-off' },
] as const;

const spans = [...morning, ...beforeNoon];
const running = runningOrder(8885);
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

/** A tuck jam at the bottom major flap, third in twenty minutes: the wall of the pictures. */
export const stopped: LineView = {
  line: {
    id: 'line-3',
    name: 'Line 3',
    product: 'tea sachets',
    zone: 'Europe/Berlin',
    size: 'Sachet 48',
    emergencyNumber: '333',
    lossPatterns: [
      'stopped',
      'slow',
      'notLoaded',
      'missedPick',
      'reject',
      'crushed',
      'changeover',
      'pauseOver',
    ],
  },
  at: t('10:42:14'),
  sight: {
    kind: 'live',
    age: ms(0, 1),
    lastAt: t('10:42:13'),
    servers: [
      {
        id: 'plc',
        up: true,
        since: t('05:12:00'),
        clockOffset: 12 as LineView['sight']['servers'][number]['clockOffset'],
      },
    ],
    coverage: 1,
    unknown: ms(0),
  },
  head: {
    kind: 'stopped',
    since: t('10:40:00'),
    stop: 's-10:40:00',
    reason: { name: 'tuck jam', station: 'bottom-major', stopKind: 'machine' },
    from: 'state',
    nth: 3,
    within: ms(20),
    attempt: 1,
    going: undefined,
    press: undefined,
  },
  rate: {
    perMinute: 0,
    uncertain: false,
    running: undefined,
    before: 39,
    target: 44,
    crew: 2,
    pockets: pocketsOf(44, {}, 0),
  },
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
  changeover: {
    current: false,
    kind: 'size',
    from: 'Sachet 20',
    to: 'Sachet 48',
    began: t('06:00:00'),
    firstGood: t('06:24:00'),
    atRate: t('06:41:00'),
    lasted: ms(41),
    trialCartons: 35,
  },
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
  devices,
  loading,
  matters: [
    {
      kind: 'stationAbnormal',
      station: 'bottom-major',
      since: t('10:21:50'),
      inLast: 23,
      of: 1000,
      normal: 4,
    },
    {
      kind: 'unexplainedStop',
      stop: 's-09:52:20',
      at: t('09:52:20'),
      lasted: ms(1, 30),
      endSeen: true,
      station: 'loading',
      answers: LOADING_ANSWERS,
    },
  ],
  question: undefined,
  orders: [running, ...openOrders],
  crews,
  notices: { open: [], counts: { open: 0, untaken: 0, shelved: 0 }, further: 0, ended: [] },
  sheets: { sizes: [], next: undefined, offered: undefined, open: undefined, ended: undefined, before: [] },
  fitted: [],
};

/** The stop of 09:52 as it was asked about: one question, four answers from this station's own history. */
export const question: LineView = {
  ...stopped,
  at: t('09:52:58'),
  sight: { ...stopped.sight, lastAt: t('09:52:57') },
  head: {
    kind: 'stopped',
    since: t('09:52:20'),
    stop: 's-09:52:20',
    reason: undefined,
    from: 'state',
    nth: 1,
    within: ms(20),
    attempt: 1,
    going: undefined,
    press: undefined,
  },
  question: {
    stop: 's-09:52:20',
    since: t('09:52:20'),
    until: undefined,
    station: 'loading',
    answers: LOADING_ANSWERS.map((answer, i) => ({ ...answer, times: [12, 9, 6, 3][i] ?? 0 })),
    days: 30,
  },
};
