import type { EpochMs, Millis } from '../../../model/units/units.ts';
import type { Happening, LineView, PressView } from '../../../model/view/view.ts';
import { bucketsOf, ms, span, t } from './build.ts';
import { quiet } from './running.ts';
import { stopped } from './stopped.ts';

const press: PressView = {
  id: 'p9',
  device: 'loading-front',
  name: 'loading front',
  candidates: [],
  pressed: t('10:40:10'),
  released: undefined,
  reset: undefined,
  restarted: undefined,
  firstGood: undefined,
  role: 'during',
  known: 'edge',
};

const fault = (t('10:40:05') + 200) as EpochMs;

function fromFault(at: EpochMs): Millis {
  return (at - fault) as Millis;
}

function came(at: EpochMs, kind: Happening['kind'], name: string, station?: string): Happening {
  return { at, offset: fromFault(at), kind, name, station };
}

/** Loading front latched in for 41 s, five seconds after a flap was not closed. */
export const pressed: LineView = {
  ...stopped,
  at: t('10:40:51'),
  sight: { ...stopped.sight, lastAt: t('10:40:50') },
  head: {
    kind: 'pressed',
    press,
    stop: 's-10:40:05',
    standsSince: t('10:40:05'),
    firstFault: {
      name: 'flap not closed',
      station: 'top-major',
      at: fault,
      untilPress: fromFault(press.pressed),
    },
    going: { at: t('10:40:29'), who: 'loading back' },
    before: [
      came(t('10:39:07'), 'reject', 'top open', 'top-major'),
      came(t('10:39:57'), 'reject', 'top open', 'top-major'),
      came(fault, 'firstFault', 'flap not closed', 'top-major'),
      came((fault + 300) as EpochMs, 'setOff', 'line stood, held by its program'),
      came(press.pressed, 'press', 'loading front', 'loading'),
    ],
  },
  plan: { ...stopped.plan, finish: undefined, needed: undefined },
  devices: {
    devices: stopped.devices.devices.map((device) =>
      device.id === 'loading-front' ? { ...device, reads: 'pressed' as const } : device,
    ),
    guards: stopped.devices.guards.map((guard) =>
      guard.id === 'door-3' ? { ...guard, uncertain: true } : guard,
    ),
  },
};

/** Released, not reset: stopped again, with the steps still to come. */
export const released: LineView = {
  ...stopped,
  head: {
    ...(stopped.head as Extract<LineView['head'], { kind: 'stopped' }>),
    press: { ...press, released: t('10:42:01') },
  },
};

/** The PLC has been silent for three minutes while the line stood. */
export const lost: LineView = {
  ...quiet,
  at: t('09:27:02'),
  sight: {
    kind: 'lost',
    age: ms(3),
    lastAt: t('09:24:02'),
    servers: [{ id: 'plc', up: false, since: t('09:24:03'), clockOffset: undefined }],
    coverage: 0.984,
    unknown: ms(3),
  },
  head: { kind: 'unknown', since: t('09:24:02'), isolatedLikely: false },
  rate: {
    ...quiet.rate,
    perMinute: undefined,
    running: undefined,
    pockets: Array.from({ length: 44 }, () => 'unknown' as const),
  },
  trend: {
    ...quiet.trend,
    now: t('09:27:02'),
    spans: [
      ...quiet.trend.spans,
      span('unknown', '08:50:00', '08:56:00'),
      span('isolated', '09:10:00', '09:18:00'),
      span('unknown', '09:24:02', undefined),
    ],
    buckets: bucketsOf(6968, t('06:00:00'), t('09:27:02'), [
      ...quiet.trend.spans,
      span('unknown', '08:50:00', '08:56:00'),
      span('isolated', '09:10:00', '09:18:00'),
      span('unknown', '09:24:02', undefined),
    ]),
  },
  matters: [
    { kind: 'notSeen', from: t('09:24:02'), to: undefined },
    { kind: 'notSeen', from: t('08:50:00'), to: t('08:56:00') },
    { kind: 'clockOff', server: 'plc', offset: ms(0, -4) },
  ],
};

/** Five seconds without data: what is shown was true then. */
export const stale: LineView = {
  ...stopped,
  sight: { ...stopped.sight, kind: 'stale', age: ms(0, 5), lastAt: t('10:42:09') },
  rate: { ...stopped.rate, uncertain: true },
};

/** Names, numbers and lists longer than any line file of ours has. */
export const long: LineView = {
  ...stopped,
  line: {
    ...stopped.line,
    name: 'Verpackungslinie 13 Nord',
    product: 'Kräutertee-Doppelkammerbeutel im Aromakuvert',
    size: 'Doppelkammer-Großpackung 240',
  },
  head: {
    ...(stopped.head as Extract<LineView['head'], { kind: 'stopped' }>),
    since: t('00:40:00'),
    reason: {
      name: 'Steckverschluss nicht eingerastet oder Karton verkantet',
      station: 'bottom-major',
      stopKind: 'machine',
    },
    nth: 14,
    attempt: 3,
    from: 'cycles',
    going: { at: t('10:41:00'), who: 'Instandhaltung Nachtschicht Bereitschaft' },
  },
  rate: {
    ...stopped.rate,
    perMinute: 1234,
    before: 0,
    target: 80,
    pockets: Array.from(
      { length: 80 },
      (_, i) => (['good', 'reject', 'notLoaded', 'missed', 'none', 'unknown'] as const)[i % 6] ?? 'none',
    ),
  },
  plan: {
    ...stopped.plan,
    good: 1_234_567,
    planned: 2_345_678,
    plannedSoFar: 1_300_000,
    behind: -98_765,
    finish: { short: -12_345, shortLow: -20_000, shortHigh: 4_000 },
  },
  path: {
    ...stopped.path,
    stations: stopped.path.stations.map((station, i) => ({
      ...station,
      name: i === 4 ? 'Hauptbodenklappenverschluss unten' : i === 6 ? 'Beladestation' : station.name,
      lost: i === 4 ? 123_455 : station.lost,
      rejects: i === 4 ? { inLast: 1000, of: 1000, normal: 104 } : station.rejects,
    })),
  },
  matters: [
    ...stopped.matters,
    {
      kind: 'guardOpenRunning',
      guard: 'Schutztür Auslaufseite hinten rechts neben der Hauptantriebskupplung',
      at: t('10:01:00'),
      lasted: ms(0, 4),
      id: 'g1',
    },
    { kind: 'devicePressedRunning', device: 'main panel', at: t('10:05:00'), lasted: undefined, id: 'd1' },
    {
      kind: 'whichButton',
      press: 'p7',
      at: t('10:06:00'),
      candidates: [
        { id: 'a', name: 'main panel' },
        { id: 'b', name: 'loading front' },
        { id: 'c', name: 'loading back' },
      ],
    },
    {
      kind: 'counterReset',
      mark: 'reset',
      counts: 'goodCount',
      of: undefined,
      at: t('10:07:00'),
      times: 1,
    },
  ],
};
