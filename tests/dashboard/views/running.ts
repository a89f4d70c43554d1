import type { LineView } from '../../../model/view/view.ts';
import { bucketsOf, ms, pathOf, pocketsOf, t } from './build.ts';
import { endedOrder, handedOrder, openOrders, runningOrder } from './orders.ts';
import { stopped } from './stopped.ts';
import { morning } from './trend.ts';

const now = t('09:24:00');
const path = pathOf(
  6968,
  {
    magazine: { stopped: 48 },
    pick: { stopped: 28, missedPick: 19, reject: 4 },
    open: { reject: 12 },
    'bottom-minor': { reject: 7 },
    'bottom-major': { stopped: 33, reject: 25, crushed: 2 },
    capture: { reject: 3 },
    loading: { stopped: 162, slow: 22, notLoaded: 44, reject: 10 },
    'top-minor': { reject: 6 },
    'top-major': { stopped: 38, reject: 15, crushed: 1 },
    'tuck-cam': { reject: 6 },
    discharge: { stopped: 95, reject: 1 },
  },
  { changeover: 104, slow: 12, reject: 6 },
);
const running = runningOrder(6968);

/** At rate, and nothing wanted: no colour anywhere. An order ended the evening before. */
export const quiet: LineView = {
  ...stopped,
  at: now,
  line: {
    ...stopped.line,
    lossPatterns: ['stopped', 'slow', 'notLoaded', 'missedPick', 'reject', 'crushed', 'changeover'],
  },
  sight: { ...stopped.sight, lastAt: t('09:23:59') },
  head: { kind: 'running', pace: 'atRate', since: t('09:03:00'), stopsThisShift: 9, shortStopsThisShift: 8 },
  rate: {
    perMinute: 43,
    uncertain: false,
    running: 43,
    before: undefined,
    target: 44,
    crew: 2,
    pockets: pocketsOf(44, { 25: 'reject' }),
  },
  plan: {
    ...stopped.plan,
    order: running,
    good: 6968,
    plannedSoFar: 7671,
    possible: 7671,
    behind: 703,
    finish: { short: 1600, shortLow: 1190, shortHigh: 2010 },
    needed: 46.9,
    nextPause: { name: 'break', at: t('09:30:00'), allowance: ms(20) },
  },
  path,
  trend: {
    ...stopped.trend,
    now,
    buckets: bucketsOf(6968, t('06:00:00'), now, morning),
    spans: morning,
    pauses: [
      { name: 'break', from: t('09:30:00'), to: t('09:50:00') },
      { name: 'pause', from: t('12:00:00'), to: t('12:10:00') },
    ],
    presses: stopped.trend.presses.slice(0, 1),
  },
  loading: stopped.loading.map((position, i) => ({ ...position, notLoadedThisShift: i === 0 ? 17 : 27 })),
  matters: [],
  orders: [running, ...openOrders, endedOrder],
};

/** A changeover of size, trial cartons running; what the order before it handed over is counted. */
export const changeover: LineView = {
  ...quiet,
  head: { kind: 'changeover', phase: 'trial', since: t('09:06:00'), from: 'Sachet 20', to: 'Sachet 48' },
  rate: { ...quiet.rate, perMinute: 0, running: undefined, before: 41, pockets: pocketsOf(44, {}, 0) },
  changeover: {
    current: true,
    kind: 'size',
    from: 'Sachet 20',
    to: 'Sachet 48',
    began: t('09:06:00'),
    firstGood: undefined,
    atRate: undefined,
    lasted: undefined,
    trialCartons: 12,
  },
  orders: [running, ...openOrders, handedOrder],
};

/** The planned break, three minutes beyond its allowance. */
export const pause: LineView = {
  ...quiet,
  at: t('09:53:00'),
  sight: { ...quiet.sight, lastAt: t('09:52:59') },
  head: { kind: 'pause', name: 'break', since: t('09:30:00'), allowanceEnds: t('09:50:00'), over: true },
  rate: { ...quiet.rate, perMinute: 0, running: undefined, before: 43, pockets: pocketsOf(44, {}, 0) },
};

/** No sachets at loading: it waits for others, and nothing is broken. */
export const starved: LineView = {
  ...quiet,
  head: { kind: 'starved', since: t('09:23:20'), name: 'no sachets', station: 'loading', stop: 's-09:23:20' },
  rate: { ...quiet.rate, perMinute: 14, running: 42, before: 43, pockets: pocketsOf(44, {}, 14) },
};

/** Five minutes of a shift: next to nothing is known yet, and one number runs below zero. */
export const justStarted: LineView = {
  ...quiet,
  at: t('06:05:00'),
  sight: { ...quiet.sight, lastAt: t('06:04:59') },
  line: { ...quiet.line, size: undefined },
  head: { kind: 'running', pace: 'fast', since: t('06:00:00'), stopsThisShift: 0, shortStopsThisShift: 0 },
  rate: { ...quiet.rate, perMinute: 47, running: 47, pockets: pocketsOf(44) },
  plan: {
    ...quiet.plan,
    order: undefined,
    good: 232,
    planned: 18_480,
    plannedSoFar: 220,
    possible: 220,
    behind: -12,
    finish: undefined,
    needed: undefined,
    nextPause: undefined,
  },
  changeover: {
    current: false,
    kind: 'startUp',
    from: undefined,
    to: undefined,
    began: undefined,
    firstGood: undefined,
    atRate: undefined,
    lasted: undefined,
    trialCartons: 0,
  },
  path: pathOf(232, { loading: { notLoaded: 2 }, discharge: { reject: 1 } }, { slow: -15 }),
  trend: {
    ...quiet.trend,
    now: t('06:05:00'),
    spans: [],
    buckets: bucketsOf(232, t('06:00:00'), t('06:05:00'), []),
    presses: [],
  },
  loading: quiet.loading.map((position) => ({ ...position, last: [], notLoadedThisShift: 0 })),
  orders: [],
};

/** Between shifts. */
export const offShift: LineView = {
  ...justStarted,
  at: t('22:30:00'),
  sight: { ...quiet.sight, lastAt: t('22:29:59') },
  line: quiet.line,
  head: { kind: 'offShift', next: { name: 'early shift', at: t('06:00:00', 18) } },
  rate: {
    perMinute: 0,
    uncertain: false,
    running: undefined,
    before: undefined,
    target: undefined,
    crew: 2,
    pockets: [],
  },
  plan: {
    ...justStarted.plan,
    shift: undefined,
    good: 0,
    planned: 0,
    plannedSoFar: 0,
    possible: 0,
    behind: 0,
  },
  path: pathOf(0, {}, {}),
  trend: {
    ...justStarted.trend,
    from: t('22:00:00'),
    to: t('06:00:00', 18),
    now: t('22:30:00'),
    target: undefined,
    buckets: [],
  },
};
