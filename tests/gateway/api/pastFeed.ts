import type { CorrectableBody, CorrectableKind } from '../../../model/entries/saidEntries.ts';
import type { Millis } from '../../../model/units/units.ts';
import { entry, PERSON } from '../../model/setpoints/setLine.ts';
import { type Rows, running } from '../../model/smallLine.ts';

type Row = Rows[number];

/** Stops are called by the moment at which they began. */
export type StopName = (second: number) => string;

/** Milliseconds. */
const HOUR = 3_600_000;

/**
 * An hour of the line with four adjustments, in the order in which it happened: two sizes, a changeover, stops with their
 * reasons, presses, a guard, rejects, an outage, an order, and what people said and corrected.
 */
export function eventfulHour(stopAt: StopName): Rows {
  const rows: Row[] = [
    ...running(),
    [0, 'guide', 12],
    ...counted(0, 900, { good: 0, missed: 0, open: 0 }),
    entry(60, 'crew', { kind: 'crew', people: 2 }),
    entry(120, 'o1', order('4471', 'sachet-20')),
    ...stop(300, 340, 51),
    entry(345, 'why', { kind: 'reason', stop: stopAt(300), reason: 'cleaning' }),
    entry(350, 'n1', { kind: 'note', words: 'the flap was bent' }, PERSON),
    ...stop(360, 380, 51),
    ...pressed(500, 'panel', 560),
    entry(600, 'tested', { kind: 'tested', device: 'panel', method: 'pressed', person: '7' }, PERSON),
    entry(640, 'n1-again', corrected('n1', 'note', { kind: 'note', words: 'the flap was wet' }), PERSON),
    [700, 'door', true],
    [705, 'door', false],
    entry(720, 'moved', changed('fold', '2.2')),
    entry(730, 'looked', { kind: 'looked', station: 'fold', symptom: 'out-of-square' }),
    ...stop(900, 960, 202),
    [905, 'size', 48],
    [910, 'guide', 13],
    [915, 'guide', 14.5],
    entry(950, 'lot', { kind: 'fitted', what: 'lot', name: 'L-7' }),
    ...counted(960, 1800, { good: 90, missed: 3, open: 4 }),
    entry(1000, 'o2', order('4472', 'sachet-48')),
    entry(1010, 'why-again', corrected('why', 'reason'), PERSON),
    entry(1030, 'target', { kind: 'target', size: 'sachet-48', crew: 2, perMinute: 25 }),
    ...stop(1100, 1300, 11),
    entry(1350, 'read', { kind: 'reading', station: 'fold', adjustment: '2.2', value: 30, how: 'typed' }),
    [1400, 'link', false],
    [1480, 'link', true],
    ...stop(1600, 1620, 52),
    entry(1610, 'going', { kind: 'notNow', stop: stopAt(1600) }),
    ...pressed(1700, 'circuit', 1720),
    ...counted(1800, 2700, { good: 170, missed: 6, open: 9 }),
    entry(1900, 'handed', { kind: 'handedOver', order: '4471', cartons: 88 }),
    [1990, 'size', 20],
    ...stop(2000, 2060, 51),
    ...stop(2300, 2400, 201),
    [2350, 'size', 48],
    [2320, 'reason', 52],
    [2330, 'reason', 201],
    [2500, 'size', 20],
    entry(2100, 'cause', {
      kind: 'cause',
      stop: stopAt(2000),
      parts: [{ after: 0 as Millis, station: 'pick', class: 'stopped' }],
      words: 'a blank stuck',
    }),
    entry(
      2150,
      'handed-again',
      corrected('handed', 'handedOver', { kind: 'handedOver', order: '4471', cartons: 86 }),
    ),
    entry(2200, 'signed', {
      kind: 'signed',
      of: 'shift 2026-03-17 early',
      person: '7',
      as: 'handsOver',
      page: JSON.stringify({ any: 'page' }),
    }),
    entry(2300, 'moved-again', corrected('moved', 'changed')),
  ];
  return rows.sort((a, b) => a[0] - b[0]);
}

/** What an hour is asked for, as screens and programs do. */
export function questions(stop: string, from: number): readonly string[] {
  const span = `from=${from}&to=${from + HOUR}`;
  return [
    '',
    '/stops',
    `/stops?${span}&most=5`,
    '/stops.csv',
    `/around?stop=${stop}`,
    '/stations',
    '/stations/fold',
    '/stations/pick?size=sachet-20',
    '/stations/fold/diagnosis',
    '/figures',
    '/figures?size=sachet-20',
    `/figures?${span}&order=4471`,
    '/figures.csv',
    '/attributed',
    '/report?kind=shift',
    '/report?kind=week',
    '/report?kind=order&order=4471',
    '/report.csv?kind=shift',
    '/balance',
    '/safety',
    '/safety.csv',
    '/changeovers',
    '/course',
    `/course?${span}`,
    '/runs',
    ...['clock', 'changeover', 'cartons'].map(
      (align) =>
        `/compared?from=${from}&to=${from + HOUR / 2}&otherFrom=${from + HOUR / 2}&otherTo=${from + HOUR}&align=${align}`,
    ),
    '/signals',
    '/entries',
    '/maintenance',
    '/done?station=fold',
    '/setpoints',
    '/setpoints/2.2?size=sachet-20',
    '/setpoints/2.1',
  ];
}

function stop(from: number, to: number, reason: number): Row[] {
  return [
    [from, 'reason', reason],
    [from, 'state', 11],
    [to, 'state', 6],
    [to, 'reason', 0],
  ];
}

function pressed(at: number, device: 'panel' | 'circuit', until: number): Row[] {
  const twin: Row[] = device === 'panel' ? [[at, 'panelCount', 1]] : [];
  return [
    [at, device, true],
    ...twin,
    [at + 0.02, 'state', 8],
    [at + 0.02, 'reason', 301],
    [at + 20, device, false],
    [until, 'state', 6],
    [until, 'reason', 0],
  ];
}

/** Ten seconds bring a good carton, now and then a missed pick and a reject instead. */
function counted(from: number, to: number, first: { good: number; missed: number; open: number }): Row[] {
  const rows: Row[] = [];
  let { good, missed, open } = first;
  for (let second = from + 10; second < to; second += 10) {
    if (second % 300 === 0) missed += 1;
    if (second % 170 === 0) open += 1;
    good += 1;
    rows.push([second, 'missed', missed], [second, 'rejectOpen', open], [second, 'good', good]);
  }
  return rows;
}

function order(number: string, size: string) {
  return { kind: 'order', number, size, blend: 'green', quantity: 500, starts: 'now', crew: 2 } as const;
}

function changed(station: string, adjustment: string) {
  return {
    kind: 'changed',
    station,
    changed: { of: 'adjustment', adjustment, from: '26', to: '27' },
    words: 'opened it',
    expects: { measure: 'stops', direction: 'fewer' },
  } as const;
}

function corrected(of: string, was: CorrectableKind, body?: CorrectableBody) {
  return { kind: 'correction', of, was, ...(body ? { body } : {}), why: 'looked again' } as const;
}
