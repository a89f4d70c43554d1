import { describe, expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { at, boundSignals, changes, goods, running, smallLine } from './smallLine.ts';

type Rows = Parameters<typeof changes>[1];

const BAD = 0x80050000; // BadCommunicationError, OPC 10000-4
const { settings } = smallLine();
/** A line whose PLC's heartbeat must not stand still for longer than 10 s. */
const beating = smallLine({ settings: { ...settings, heartbeatSeconds: 10 } });
/** A line whose good cartons are counted by another server than the one that tells its state. */
const two = smallLine({ servers: ['plc', 'counter'] }, [
  ...boundSignals.map((signal) => (signal.role === 'goodCount' ? { ...signal, server: 'counter' } : signal)),
  { id: 'counterLink', role: 'link', type: 'boolean', server: 'counter' },
]);

function foldOf(rows: Rows, on: Line): LineFold {
  const fold = new LineFold(on);
  fold.take(changes(on, rows));
  return fold;
}

const beats = (from: number, to: number): Rows =>
  Array.from({ length: to - from + 1 }, (_, n) => [from + n, 'heartbeat', from + n]);
const stillHeard = (from: number, to: number): Rows =>
  Array.from({ length: Math.floor((to - from) / 5) + 1 }, (_, n) => [from + 5 * n, 'link', true]);
const seenAt = (fold: LineFold, second: number) => viewOf(fold, at(second), { servers: [] });
const unknownCartons = (fold: LineFold, second: number) =>
  seenAt(fold, second).path.none.causes.find(({ cause }) => cause === 'unknown')?.cartons;

describe('what is not heard', () => {
  it('[CV2] a PLC that answers while its program tells nothing is not running, and not standing', () => {
    const fold = foldOf([...running(), ...beats(1, 60), ...goods(1, 60, 1), ...stillHeard(65, 660)], beating);
    expect(fold.state.gap).toMatchObject({ from: at(60), missing: ['heartbeat'] });
    const view = seenAt(fold, 660);
    expect(view.head).toMatchObject({ kind: 'unknown' });
    expect(view.rate.perMinute).toBeUndefined();
    // ten minutes at 60 a minute, charged to nobody but what was not seen
    expect(unknownCartons(fold, 660)).toBe(600);
  });

  it('[CV2] its age grows although it answers', () => {
    const fold = foldOf([...running(), ...beats(1, 60), ...stillHeard(65, 65)], beating);
    expect(seenAt(fold, 66).sight).toMatchObject({ kind: 'stale', age: 6000 });
  });

  it('[CV2] with its first value it is heard again, and what it gained meanwhile belongs to the gap', () => {
    const fold = foldOf(
      [
        ...running(),
        ...beats(1, 60),
        ...goods(1, 60, 1),
        ...stillHeard(65, 120),
        [121, 'heartbeat', 61],
        [121, 'good', 90],
        [122, 'heartbeat', 62],
      ],
      beating,
    );
    expect(fold.state.gap).toBeNull();
    expect(fold.state.shift.gaps).toEqual([{ from: at(60), to: at(121), kind: 'unknown' }]);
    expect(fold.state.shift.account.good).toBe(90);
  });

  it('[CV2] a gap within a stop is isolated time only where all that is told with its end says that it stood', () => {
    const stop: Rows = [
      ...running(),
      ...beats(1, 20),
      [20, 'state', 11],
      [20, 'reason', 51],
      ...stillHeard(25, 60),
    ];
    const stood = foldOf([...stop, [61, 'heartbeat', 21], [62, 'heartbeat', 22]], beating);
    expect(stood.state.shift.gaps).toEqual([{ from: at(20), to: at(61), kind: 'isolated' }]);
    const ran = foldOf(
      [...stop, [61, 'state', 6], [61, 'cycles', 40], [61, 'heartbeat', 21], [62, 'heartbeat', 22]],
      beating,
    );
    expect(ran.state.shift.gaps).toEqual([{ from: at(20), to: at(61), kind: 'unknown' }]);
  });

  it('[CV2] a heartbeat that stands still while other values move is no gap', () => {
    const fold = foldOf([...running(), ...beats(1, 5), ...goods(1, 120, 1)], beating);
    expect(fold.state.gap).toBeNull();
  });

  it('[CV2] a heartbeat that the server will not tell says nothing of a line that stands', () => {
    const fold = foldOf(
      [
        ...running(),
        [1, 'heartbeat', null, BAD],
        [20, 'state', 11],
        [20, 'reason', 51],
        ...stillHeard(25, 60),
      ],
      beating,
    );
    expect(fold.state.gap).toBeNull();
    fold.take(changes(beating, [[65, 'state', 6]]));
    expect(fold.state.shift.gaps).toEqual([]);
  });

  it('[SI1] a count of good cartons that is bad is no zero: how fast is not known, that it runs is', () => {
    const fold = foldOf([...running(), ...goods(1, 60, 1), [60, 'good', null, BAD]], smallLine());
    fold.take(changes(smallLine(), [[660, 'heartbeat', 1]]));
    const view = seenAt(fold, 660);
    expect(view.rate.perMinute).toBeUndefined();
    expect(view.head).toMatchObject({ kind: 'running' });
    expect(view.plan.finish).toBeUndefined();
    expect(unknownCartons(fold, 660)).toBe(600);
    fold.take(changes(smallLine(), [[661, 'good', 640]]));
    expect(fold.state.gap).toBeNull();
    expect(fold.state.shift.account.good).toBe(640);
    expect(seenAt(fold, 662).rate).toMatchObject({ uncertain: true });
  });

  it('[CV3] another server is missed where it counts the good cartons, and no longer than it is away', () => {
    const fold = foldOf(
      [
        ...running(),
        [0, 'counterLink', true],
        ...goods(1, 60, 1),
        [60.5, 'counterLink', false],
        [660, 'heartbeat', 1],
      ],
      two,
    );
    expect(seenAt(fold, 660).rate.perMinute).toBeUndefined();
    expect(seenAt(fold, 660).head).toMatchObject({ kind: 'running' });
    fold.take(
      changes(two, [
        [661, 'good', 640],
        [661, 'counterLink', true],
      ]),
    );
    expect(fold.state.shift.gaps).toEqual([{ from: at(60.5), to: at(661), kind: 'unknown' }]);
    expect(fold.state.shift.account.good).toBe(640);
  });

  it('[CV1] a finish is told from what was seen: an hour not seen is no hour without cartons', () => {
    const hour = 3600;
    const seen: Rows = [...running(), ...goods(1, 2 * hour, 1)];
    const before = seenAt(foldOf(seen, smallLine()), 2 * hour).plan.finish!;
    const gap: Rows = [
      [2 * hour + 1, 'link', false],
      [3 * hour, 'good', 100],
      [3 * hour, 'link', true],
      ...goods(3 * hour + 1, 3 * hour + 600, 101),
    ];
    const after = seenAt(foldOf([...seen, ...gap], smallLine()), 3 * hour + 600).plan.finish!;
    // it made 60 a minute before and after; what nobody saw is short, and nothing more is expected to be
    expect(before.short).toBeLessThanOrEqual(0);
    expect(after.short).toBeGreaterThan(3200);
    expect(after.short).toBeLessThan(3700);
  });
});

describe('counters over time', () => {
  const good = (rows: Rows) => {
    const fold = foldOf([...running(), ...rows], smallLine());
    return { counted: fold.state.shift.account.good, marks: fold.state.counterMarks.map(({ mark }) => mark) };
  };

  it('[CO3] one that is sent on once a minute is plausible', () => {
    const minutely = Array.from(
      { length: 10 },
      (_, n): Rows => [
        [60 * (n + 1) - 1, 'heartbeat', n],
        [60 * (n + 1), 'good', 52 * (n + 1)],
      ],
    ).flat();
    expect(good(minutely)).toEqual({ counted: 520, marks: [] });
  });

  it('[CO3] one that stood for hours has not rolled over: it was reset', () => {
    const narrow = smallLine(
      {},
      boundSignals.map((signal) => (signal.role === 'goodCount' ? { ...signal, wraps: 65_536 } : signal)),
    );
    const stood: Rows = [
      ...running(),
      [1, 'good', 40_000],
      [4 * 3600 - 1, 'heartbeat', 1],
      [4 * 3600, 'good', 3],
    ];
    const fold = new LineFold(narrow);
    fold.take(changes(narrow, stood));
    expect(fold.state.counterMarks.at(-1)).toMatchObject({ mark: 'reset' });
  });
});
