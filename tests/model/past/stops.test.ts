import { describe, expect, it } from 'vitest';
import type { RecordBodies } from '../../../model/records/records.ts';
import { recordSteps } from '../../../model/records/records.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { type StopFilter, type StopsPast, stopsPast } from '../../../model/past/stopsPast.ts';
import { epochMs, type Instant } from '../../../model/units/units.ts';
import { at, changes, goods, type Rows, running, smallLine } from '../smallLine.ts';

const base = smallLine();
const line = smallLine({ settings: { ...base.settings, minorStopMinutes: 1 } });

/** A stop from one second to another, with the numbers that the PLC shows in it. */
const stop = (from: number, to: number, ...numbers: readonly number[]): Rows => [
  [from, 'state', 11],
  ...numbers.map((number, n): Rows[number] => [from + n * 0.5, 'reason', number]),
  [to, 'state', 6],
  [to, 'reason', 0],
];

const shift: Rows = [
  ...running(),
  ...goods(1, 100, 1),
  ...stop(101, 111, 51, 52), // tuck jam at fold sets off a missing blank
  ...goods(112, 300, 101),
  ...stop(301, 421, 51), // a long one
  ...goods(422, 500, 290),
  ...stop(501, 531, 11), // starved
  ...goods(532, 600, 369),
  ...stop(601, 631, 201), // at the panel: nobody said why
  ...goods(632, 700, 438),
  [701, 'panel', true],
  [701.05, 'state', 8],
  [701.05, 'reason', 301],
  [705, 'panel', false],
  [720, 'door', true],
  [725, 'door', false],
  [730, 'state', 6],
  [730, 'reason', 0],
  ...goods(732, 800, 507),
];

function kept(rows: Rows) {
  const fold = new LineFold(line);
  const events = fold.take(changes(line, rows));
  const records = new Map<string, RecordBodies[keyof RecordBodies]>();
  for (const step of recordSteps(events, fold.state))
    if (step.kind === 'put')
      records.set(`${step.record.kind} ${step.record.at} ${step.record.id}`, step.record.body);
  const of = <Kind extends keyof RecordBodies>(kind: Kind) =>
    [...records].filter(([key]) => key.startsWith(`${kind} `)).map(([, body]) => body as RecordBodies[Kind]);
  return { index: fold.index, stops: of('stop'), presses: of('press'), guards: of('guard'), gaps: of('gap') };
}

function past(rows: Rows, wish: { from?: number; to?: number; filter?: StopFilter } = {}) {
  const { from = 0, to = 800, filter = {} } = wish;
  return stopsPast({
    ...kept(rows),
    from: at(from),
    to: at(to),
    begun: 0 as Instant,
    filter,
    before: [],
    most: 100,
  });
}

const rowsOf = ({ rows }: StopsPast['own']) =>
  rows.map(({ name, station, minor, long }) => [
    station?.name,
    name,
    minor.stops,
    minor.stood,
    long.stops,
    long.stood,
  ]);

describe('stops of a stretch of the past', () => {
  it('stand in three lists: the machine’s own, from outside, and nobody’s; the one that took most first', () => {
    const found = past(shift);
    expect([found.stops, found.stood]).toEqual([5, 10_000 + 120_000 + 30_000 + 30_000 + 28_950]);
    expect(rowsOf(found.own)).toEqual([
      ['fold', 'tuck jam', 1, 10_000, 1, 120_000],
      [undefined, 'stop device pressed', 1, 28_950, 0, 0],
    ]);
    expect(rowsOf(found.outside)).toEqual([['pick', 'magazine empty', 1, 30_000, 0, 0]]);
    expect(rowsOf(found.unknown)).toEqual([[undefined, 'stopped at the panel', 1, 30_000, 0, 0]]);
    expect(found.own.long).toEqual({ stops: 1, stood: 120_000 });
    expect(found.saidBy).toEqual({ plc: 4, people: 0, nobody: 1 });
  });

  it('each says its first fault, what that set off, and devices and guards in it, with how long after', () => {
    const { list } = past(shift);
    expect(list.map(({ at: begin }) => begin)).toEqual(
      [701.05, 601, 501, 301, 101].map((second) => epochMs(at(second))),
    );
    expect(list[4]!.chain).toEqual([
      { kind: 'firstFault', name: 'tuck jam', after: 0 },
      { kind: 'setOff', name: 'no blank picked', after: 500 },
    ]);
    expect(list[0]!.chain).toEqual([
      { kind: 'caused', name: 'main panel', after: -50 },
      { kind: 'firstFault', name: 'stop device pressed', after: 0 },
      { kind: 'guardOpened', name: 'guard door 1', after: 18_950 },
    ]);
    // 12 s from carton 100 to carton 101, of which one was made
    expect(list[4]).toMatchObject({
      minor: true,
      lost: 11,
      lasted: 10_000,
      endSeen: true,
      size: 'Sachet 20',
    });
    expect(list[3]).toMatchObject({ minor: false, attempt: 1 });
  });

  it('one that nobody explained asks, with the answers of its station; one that somebody did is the machine’s own', () => {
    const unknown = past(shift).list[1]!;
    expect(unknown.answers.map(({ id }) => id)).toEqual(['material', 'cleaning']);
    const answer = JSON.stringify({
      id: 'a-1',
      at: 0,
      author: { kind: 'position', position: 'front' },
      kind: 'reason',
      stop: unknown.id,
      reason: 'cleaning',
    });
    const found = past([...shift, [801, 'entry', answer]]);
    expect(found.unknown.stops).toBe(0);
    expect(found.list[1]).toMatchObject({ said: 'cleaning', answers: [] });
    expect(found.saidBy).toEqual({ plc: 4, people: 1, nobody: 0 });
    expect(rowsOf(found.own)).toContainEqual([undefined, 'cleaning', 1, 30_000, 0, 0]);
  });

  it('pauses and changeovers are none, and what is filtered away is not counted', () => {
    expect(past([...running(), ...goods(1, 10, 1), ...stop(11, 60, 202)]).stops).toBe(0);
    expect(past(shift, { filter: { station: 'fold' } }).stops).toBe(2);
    expect(past(shift, { filter: { size: 'sachet-48' } }).stops).toBe(0);
    expect(past(shift, { filter: { shift: 'early' } }).stops).toBe(5);
    expect(past(shift, { filter: { shift: 'late' } }).stops).toBe(0);
    expect(past(shift, { filter: { order: 'none' } }).stops).toBe(0);
  });

  it('of a stop across an edge only the time within counts; one that lasts counts up to now', () => {
    expect(past(shift, { from: 310, to: 320, filter: { station: 'fold' } }).own).toMatchObject({
      stood: 10_000,
    });
    const open = past([...running(), ...goods(1, 10, 1), [11, 'state', 11], [11, 'reason', 51]], { to: 100 });
    expect(open.list[0]).toMatchObject({ until: undefined, lasted: 89_000, lost: undefined });
  });

  it('what it took in the middle one of as long stretches before is told where there are three of them', () => {
    const { index, stops, presses, guards, gaps } = kept(shift);
    const asked = {
      index,
      stops,
      presses,
      guards,
      gaps,
      from: at(0),
      to: at(800),
      begun: 0 as Instant,
      filter: {},
      most: 9,
    };
    const before = (...counts: number[]) => counts.map((count) => stops.slice(0, count));
    const ordinary = (...counts: number[]) =>
      stopsPast({ ...asked, before: before(...counts) }).own.rows[0]!.ordinary;
    expect(ordinary(1, 2)).toBeUndefined();
    expect(ordinary(1, 0, 2)).toBe(10_000);
    expect(ordinary(2, 2, 0)).toBe(130_000);
  });

  it('says what was not seen, and from when on there are records', () => {
    const gap: Rows = [...shift, [810, 'link', false], [840, 'link', true]];
    const found = stopsPast({
      ...kept(gap),
      from: at(-100),
      to: at(900),
      begun: at(0),
      filter: {},
      before: [],
      most: 3,
    });
    expect(found.seen).toEqual({
      from: epochMs(at(-100)),
      to: epochMs(at(900)),
      since: epochMs(at(0)),
      unknown: 130_000,
      isolated: 0,
    });
    expect(found.list).toHaveLength(3);
  });

  it('lists no more than were asked for, also none', () => {
    const asked = { ...kept(shift), from: at(0), to: at(900), begun: at(0), filter: {}, before: [] };
    const of = (most: number) => stopsPast({ ...asked, most }).list.length;
    expect([0, 1, 2].map(of)).toEqual([0, 1, 2]);
    expect(stopsPast({ ...asked, most: 0 }).stops).toBeGreaterThan(2);
  });
});
