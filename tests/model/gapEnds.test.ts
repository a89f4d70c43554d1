import { describe, expect, it } from 'vitest';
import { counterStep } from '../../model/counters/counters.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { minutes, seconds } from '../../model/units/units.ts';
import { at, boundSignals, changes, goods, type Rows, running, smallLine } from './smallLine.ts';

const BAD = 0x80050000; // BadCommunicationError, OPC 10000-4
const { settings } = smallLine();
/** A line whose counters of good and rejected cartons are 16 bits wide. */
const narrow = smallLine(
  {},
  boundSignals.map((signal) => (signal.role === 'goodCount' ? { ...signal, wraps: 65_536 } : signal)),
);

function foldOf(rows: Rows, on: Line = smallLine()): LineFold {
  const fold = new LineFold(on);
  fold.take(changes(on, rows));
  return fold;
}

/** Running, with some first values other than usual. */
const runningFrom = (...first: Rows): Rows => [
  ...running().filter(([, id]) => !first.some(([, other]) => other === id)),
  ...first,
];

const gaps = (fold: LineFold) =>
  fold.state.shift.gaps.map(({ from, to, kind }) => [
    (from - at(0)) / seconds(1),
    (to - at(0)) / seconds(1),
    kind,
  ]);
const marks = (fold: LineFold) => fold.state.counterMarks.map(({ mark }) => mark);
const good = (fold: LineFold) => fold.state.shift.account.good;

describe('a gap of which only a part came back whole', () => {
  it('[CV1] a cut that ends whole does not take back a value that was bad before it and in it', () => {
    const fold = foldOf([
      ...running(),
      ...goods(1, 60, 1),
      [60, 'state', null, BAD],
      [100, 'link', false],
      [120, 'state', 6],
      [130, 'link', 'whole'],
    ]);
    expect(gaps(fold)).toEqual([[60, 130, 'unknown']]);
  });

  it('[CV1] [CV2] nor a program that stood still when the cut began', () => {
    const beating = smallLine({ settings: { ...settings, heartbeatSeconds: 10 } });
    const fold = foldOf(
      [
        ...running(),
        ...Array.from({ length: 60 }, (_, n) => [n + 1, 'heartbeat', n] as const),
        [75, 'link', true],
        [150, 'link', false],
        [200, 'heartbeat', 61],
        [200, 'good', 80],
        [210, 'link', 'whole'],
      ],
      beating,
    );
    expect(gaps(fold)).toEqual([[60, 210, 'unknown']]);
  });

  it('[CV1] nor what another server lost at the same time', () => {
    const two = smallLine({ servers: ['plc', 'counter'] }, [
      ...boundSignals.map((signal) =>
        signal.role === 'goodCount' ? { ...signal, server: 'counter' } : signal,
      ),
      { id: 'counterLink', role: 'link', type: 'boolean', server: 'counter' },
    ]);
    const rows = (counterEnds: boolean | string, first: 'counterLink' | 'link'): Rows => [
      [0, 'counterLink', true],
      ...running(),
      ...goods(1, 60, 1),
      [60, 'link', false],
      [62, 'counterLink', false],
      [90, first, first === 'link' ? 'whole' : counterEnds],
      [100, first === 'link' ? 'counterLink' : 'link', first === 'link' ? counterEnds : 'whole'],
    ];
    for (const first of ['counterLink', 'link'] as const) {
      expect(gaps(foldOf(rows(true, first), two))).toEqual([[60, 100, 'unknown']]);
      expect(gaps(foldOf(rows('whole', first), two))).toEqual([]);
    }
  });
});

describe('time that stood by its counters', () => {
  const stood = (cycles: Rows): Rows => [
    ...running(),
    [1, 'cycles', 100],
    [50, 'state', 11],
    ...cycles,
    [100, 'link', false],
    [400, 'link', true],
  ];

  it('[ST10] is not inferred from a cycle counter that nobody could read at either end', () => {
    expect(gaps(foldOf(stood([])))).toEqual([[100, 400, 'isolated']]);
    expect(gaps(foldOf(stood([[90, 'cycles', null, BAD]])))).toEqual([[100, 400, 'unknown']]);
    const badAtTheEnd: Rows = [...stood([]).slice(0, -1), [399, 'cycles', null, BAD], [400, 'link', true]];
    expect(gaps(foldOf(badAtTheEnd))).toEqual([[100, 400, 'unknown']]);
  });
});

describe('counters that fall', () => {
  it('[CO3] one that is set to another number counts nothing, as it cannot have made that since', () => {
    expect(counterStep(50_000, 49_970, 2 ** 32, seconds(1), 120)).toEqual({ gained: 0, mark: 'set' });
    const fold = foldOf([
      ...runningFrom([0, 'good', 2_999_996]),
      ...goods(1, 3, 2_999_997),
      [4, 'good', 2_999_950],
    ]);
    expect([good(fold), marks(fold)]).toEqual([3, ['set']]);
  });

  it('[CO3] what a counter made since it began anew in a gap is counted, as far as it can have made it', () => {
    const gap = (now: number) =>
      foldOf([
        ...running(),
        ...goods(1, 60, 1),
        [60, 'link', false],
        [180, 'good', now],
        [180, 'link', true],
      ]);
    expect([good(gap(59)), marks(gap(59))]).toEqual([60, ['correction']]);
    expect([good(gap(30)), marks(gap(30))]).toEqual([60 + 30, ['reset']]);
  });

  it('[CO2] [CO3] over a time in which half its width may have been made a fall is a reset', () => {
    expect(counterStep(60_000, 10, 65_536, minutes(30), 120)).toMatchObject({ mark: 'reset' });
    expect(counterStep(60_400, 10, 65_536, minutes(30), 120)).toEqual({ gained: 5146, mark: 'rollover' });
    expect(counterStep(20_000, 0, 65_536, minutes(60 * 8), 120)).toEqual({ gained: 0, mark: 'reset' });
  });

  it('[CO2] [CO3] in a gap it rolled over, unless the cycles or another counter say that its PLC was reset', () => {
    const gap = (told: Rows) =>
      foldOf(
        [
          ...runningFrom([0, 'cycles', 900_000], [0, 'rejectOpen', 300], [0, 'good', 62_000]),
          [1, 'good', 62_001],
          [60, 'link', false],
          ...told,
          [1860, 'link', true],
        ],
        narrow,
      );
    const rolled = gap([
      [1859, 'good', 100],
      [1859.5, 'cycles', 903_700],
    ]);
    expect([good(rolled), marks(rolled)]).toEqual([1 + 3635, []]);
    const cyclesFell = gap([
      [1859, 'good', 100],
      [1859.5, 'cycles', 140],
    ]);
    expect([good(cyclesFell), marks(cyclesFell)]).toEqual([1 + 100, ['reset']]);
    const rejectsFell = gap([
      [1859, 'good', 100],
      [1859.2, 'rejectOpen', 1],
    ]);
    expect([good(rejectsFell), marks(rejectsFell)]).toEqual([1 + 100, ['reset', 'reset']]);
  });
});

describe('presses around what was not seen', () => {
  const presses = (rows: Rows) =>
    foldOf([...runningFrom([0, 'panel', false], [0, 'panelCount', 7]), ...rows]).state.presses.map(
      ({ known, role, pressed }) => [known, role, (pressed - at(0)) / seconds(1)],
    );

  it('[PS3] a counted twin that was set anew does not swallow a press that nobody saw', () => {
    expect(
      presses([
        [10, 'panel', true],
        [11, 'panel', false],
        [20, 'panelCount', 0],
        [30, 'panelCount', 1],
      ]),
    ).toEqual([
      ['edge', 'caused', 10],
      ['count', 'uncertain', 30],
    ]);
  });

  it('[PS1] a device that reads pressed after its value was bad was found so: since when nobody knows', () => {
    expect(
      presses([
        [10, 'panel', null, BAD],
        [60, 'panel', true],
      ]),
    ).toEqual([['found', 'uncertain', 60]]);
  });
});
