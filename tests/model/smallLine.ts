import { LineFold } from '../../model/fold/fold.ts';
import type { Line, Size } from '../../model/line/line.ts';
import { opc30050 } from '../../model/packml/packml.ts';
import type { Change, Role, Signal, Value } from '../../model/signals/signals.ts';
import { type Instant, instantFromMs, seconds } from '../../model/units/units.ts';

type Bound = Partial<Signal> & { readonly id: string; readonly role: Role };

/** A line small enough to work out by hand: three stations, two sizes at 60 and 30 a minute, one break. */
export function smallLine(change: Partial<Line> = {}, signals: readonly Bound[] = boundSignals): Line {
  return {
    id: 'small',
    name: 'Small line',
    product: 'tea sachets',
    zone: 'Europe/Berlin',
    machines: [
      {
        id: 'cartoner',
        name: 'cartoner',
        states: opc30050,
        modes: new Map([
          [1, 'produce'],
          [2, 'maintenance'],
          [3, 'manual'],
          [4, 'setup'],
        ]),
      },
    ],
    pace: 'cartoner',
    stations: [station('pick', 1, 4), station('fold', 2, 2), station('discharge', 3, 0)],
    sizes: [size('sachet-20', 'Sachet 20', 20, 60), size('sachet-48', 'Sachet 48', 48, 30)],
    loading: {
      station: 'fold',
      crew: 2,
      crews: [{ people: 2, note: 'front and back' }],
      positions: [
        { id: 'front', name: 'loading front', side: 'front' },
        { id: 'back', name: 'loading back', side: 'back' },
      ],
    },
    rejects: [
      { id: 'open', name: 'open', station: 'fold', means: 'reject' },
      { id: 'empty', name: 'empty', station: 'fold', means: 'notLoaded' },
    ],
    reasons: [
      { number: 51, kind: 'machine', station: 'fold', name: 'tuck jam' },
      { number: 52, kind: 'machine', station: 'pick', name: 'no blank picked' },
      { number: 11, kind: 'starved', station: 'pick', name: 'magazine empty' },
      { number: 112, kind: 'blocked', station: 'discharge', name: 'conveyor full' },
      { number: 201, kind: 'operator', name: 'stopped at the panel' },
      { number: 202, kind: 'changeover', name: 'changeover' },
      { number: 301, kind: 'safety', name: 'stop device pressed' },
    ],
    answers: [
      { id: 'material', name: 'board missing', drawing: 'magazine' },
      { id: 'cleaning', name: 'cleaning', drawing: 'discharge' },
    ],
    devices: [
      { id: 'panel', name: 'main panel', kind: 'button', side: 'front', candidates: [] },
      { id: 'circuit', name: 'stop circuit', kind: 'circuit', side: 'back', candidates: ['front', 'back'] },
    ],
    guards: [{ id: 'door', name: 'guard door 1', side: 'back', from: 'pick', to: 'fold' }],
    adjustments: [],
    changeoverSteps: [],
    conditions: [],
    calendar: {
      shifts: [
        { id: 'early', name: 'early shift', from: '06:00', to: '14:00', days: [1, 2, 3, 4, 5, 6, 7] },
        { id: 'late', name: 'late shift', from: '14:00', to: '22:00', days: [1, 2, 3, 4, 5, 6, 7] },
        { id: 'night', name: 'night shift', from: '22:00', to: '06:00', days: [1, 2, 3, 4, 5, 6, 7] },
      ],
      pauses: [
        { id: 'break', name: 'break', shift: 'early', from: '09:00', to: '10:00', allowanceMinutes: 20 },
      ],
    },
    settings: {
      minorStopMinutes: 10,
      rejamCartons: 10,
      askAfterSeconds: 20,
      atRateMinutes: 1,
      atRateShare: 0.9,
      trialCartons: 0,
      orderCertainMs: 20,
      planShare: 1,
      staleSeconds: 3,
      lostSeconds: 60,
      // most tests tell nothing for long; those of the heartbeat set it
      heartbeatSeconds: 1_000_000_000,
      rateMax: 120,
    },
    servers: ['plc'],
    signals: signals.map((signal, index) => ({
      machine: 'cartoner',
      server: signal.role === 'entry' ? '' : 'plc',
      type: 'number',
      ...signal,
      index,
    })),
    ...change,
  };
}

export const boundSignals: readonly Bound[] = [
  { id: 'state', role: 'state' },
  { id: 'mode', role: 'mode' },
  { id: 'reason', role: 'stopReason' },
  { id: 'size', role: 'size' },
  { id: 'order', role: 'order', type: 'text' },
  { id: 'panel', role: 'stopDevice', of: 'panel', type: 'boolean' },
  { id: 'panelCount', role: 'stopDeviceCount', of: 'panel', wraps: 65536 },
  { id: 'circuit', role: 'stopDevice', of: 'circuit', type: 'boolean' },
  { id: 'door', role: 'guard', of: 'door', type: 'boolean' },
  { id: 'enabling', role: 'enabling', type: 'boolean' },
  { id: 'cycles', role: 'cycleCount', wraps: 4294967296 },
  { id: 'missed', role: 'missedPickCount', wraps: 65536 },
  { id: 'notLoadedFront', role: 'notLoadedCount', of: 'front', wraps: 65536 },
  { id: 'presented', role: 'presentedCount', of: 'fold', wraps: 65536 },
  { id: 'crushed', role: 'crushedCount', of: 'fold', wraps: 65536 },
  { id: 'rejectOpen', role: 'rejectCount', of: 'open', wraps: 65536 },
  { id: 'rejectEmpty', role: 'rejectCount', of: 'empty', wraps: 65536 },
  { id: 'good', role: 'goodCount', wraps: 4294967296 },
  { id: 'heartbeat', role: 'heartbeat', wraps: 65536 },
  { id: 'link', role: 'link', type: 'boolean' },
  { id: 'entry', role: 'entry', type: 'text' },
];

/** Seconds after six, a signal, its value, and its status where that is not good. */
export type Rows = readonly (readonly [number, string, Value, number?])[];

/** 2026-03-17 06:00 in Berlin, the beginning of an early shift. */
export const MORNING = instantFromMs(Date.parse('2026-03-17T05:00:00Z'));

export function at(secondsAfterSix: number): Instant {
  return (MORNING + seconds(secondsAfterSix)) as Instant;
}

/** Changes of a line by signal name, in line time as they are written down. */
export function changes(line: Line, rows: Rows): Change[] {
  const place = new Map(line.signals.map((signal) => [signal.id, signal.index]));
  return rows.map(([after, id, value, status = 0]) => {
    const signal = place.get(id);
    if (signal === undefined) throw new Error(`The small line has no signal ${id}`);
    return { signal, at: at(after), received: at(after), status, value };
  });
}

/** A fold that has taken such rows. */
export function foldOf(rows: Rows, line = smallLine()): LineFold {
  const fold = new LineFold(line);
  fold.take(changes(line, rows));
  return fold;
}

/** First values of a line that runs Sachet 20 from `after` on. */
export function running(after = 0): (readonly [number, string, Value])[] {
  return [
    [after, 'state', 6],
    [after, 'mode', 1],
    [after, 'reason', 0],
    [after, 'size', 20],
    [after, 'panel', false],
    [after, 'panelCount', 0],
    [after, 'circuit', false],
    [after, 'door', false],
    [after, 'enabling', false],
    [after, 'cycles', 0],
    [after, 'missed', 0],
    [after, 'notLoadedFront', 0],
    [after, 'presented', 0],
    [after, 'crushed', 0],
    [after, 'rejectOpen', 0],
    [after, 'rejectEmpty', 0],
    [after, 'good', 0],
    [after, 'link', true],
  ];
}

/** One good carton each second from `from` to `to`, counted from `first`. */
export function goods(from: number, to: number, first: number): (readonly [number, string, Value])[] {
  const rows: (readonly [number, string, Value])[] = [];
  for (let second = from, count = first; second <= to; second += 1, count += 1)
    rows.push([second, 'good', count]);
  return rows;
}

function station(id: string, number: number, pocketsToDischarge: number): Line['stations'][number] {
  return { id, number, name: id, machine: 'cartoner', pocketsToDischarge, drawing: id, answers: [] };
}

function size(id: string, name: string, code: number, target: number): Size {
  return { id, name, code, targets: new Map([[2, target]]), ideal: target };
}
