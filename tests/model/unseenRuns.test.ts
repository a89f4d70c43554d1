import { describe, expect, it } from 'vitest';
import { seenAt } from '../../model/view/seen.ts';
import { timeClasses } from '../../model/view/classes.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { seconds } from '../../model/units/units.ts';
import { at, boundSignals, foldOf, goods, type Rows, running, smallLine } from './smallLine.ts';

/** It jams at 10.5 s; the link is cut from 20 s to 80 s. */
const jammed: Rows = [
  ...running(),
  ...goods(1, 10, 1),
  [10, 'cycles', 10],
  [10.5, 'state', 11],
  [10.5, 'reason', 51],
  [20, 'link', false],
];
const heard = (...more: Rows): Rows => [...jammed, ...more, [80, 'link', true]];
const stopsOf = (rows: Rows, line = smallLine()) =>
  foldOf(rows, line).state.stops.map(({ begin, end, endSeen, reason }) => ({ begin, end, endSeen, reason }));
const one = [{ begin: at(10.5), end: null, endSeen: true, reason: 51 }];

describe('a run that nobody saw', () => {
  it('[ST11] cycles made in the gap say that it ran: the stop ended there, and another began with the state’s moment', () => {
    const rows = heard([60, 'state', 11], [60, 'reason', 52], [79, 'cycles', 40]);
    expect(stopsOf(rows)).toEqual([
      { begin: at(10.5), end: at(20), endSeen: false, reason: 51 },
      { begin: at(60), end: null, endSeen: true, reason: 52 },
    ]);
  });

  it('[ST11] where the state’s moment is no newer than the gap, the other stop is first seen at the gap’s end', () => {
    expect(stopsOf(heard([79, 'cycles', 40]))).toEqual([
      { begin: at(10.5), end: at(20), endSeen: false, reason: 51 },
      { begin: at(80), end: null, endSeen: true, reason: 51 },
    ]);
  });

  it('[ST11] without a cycle it is one stop, and so it is where the counter began again', () => {
    expect(stopsOf(heard([60, 'reason', 51]))).toEqual(one);
    expect(stopsOf(heard([79, 'cycles', 4]))).toEqual(one);
  });

  it('[ST11] a counter that rolled over in the gap moved on', () => {
    const narrow = smallLine(
      {},
      boundSignals.map((signal) => (signal.id === 'cycles' ? { ...signal, wraps: 65_536 } : signal)),
    );
    const rows = jammed.map((row): Rows[number] => (row[1] === 'cycles' ? [row[0], 'cycles', 65_530] : row));
    expect(stopsOf([...rows, [79, 'cycles', 3], [80, 'link', true]], narrow)).toHaveLength(2);
  });

  it('[ST11] cycles of a jog are no run: the mode moved in the gap, or was none of production', () => {
    expect(stopsOf(heard([30, 'mode', 3], [70, 'mode', 1], [79, 'cycles', 13]))).toEqual(one);
    expect(stopsOf(heard([70, 'mode', 1], [79, 'cycles', 13]))).toEqual(one);
    const manual: Rows = [...jammed.slice(0, -1), [15, 'mode', 3], [20, 'link', false]];
    expect(stopsOf([...manual, [79, 'cycles', 13], [80, 'link', true]])).toEqual(one);
  });

  it('[ST11] the trial cartons of a changeover split nothing', () => {
    const changing: Rows = [
      ...running(),
      [10, 'cycles', 10],
      [10.5, 'state', 11],
      [10.5, 'reason', 202],
      [20, 'link', false],
      [79, 'cycles', 40],
      [80, 'link', true],
    ];
    expect(stopsOf(changing)).toHaveLength(1);
  });

  it('[ST11] [LO2] the gap stays unknown, and what was lost adds up', () => {
    const fold = foldOf(
      heard([60, 'state', 11], [79, 'good', 30], [79, 'cycles', 40], [100, 'heartbeat', 1]) as Rows,
    );
    expect(fold.state.shift.gaps).toEqual([{ from: at(20), to: at(80), kind: 'unknown' }]);
    expect(timeClasses(seenAt(fold, at(100)))).toMatchObject({
      producing: seconds(10.5),
      stopped: seconds(29.5),
      unknown: seconds(60),
    });
    const { plan, path } = viewOf(fold, at(100), { servers: [] });
    const lost = [...path.stations, path.none]
      .flatMap(({ causes }) => causes)
      .reduce((sum, { cartons }) => sum + cartons, 0);
    expect(lost).toBe(plan.possible - plan.good);
  });

  it('[ST11] [PS1] what came of a press in the first stop is not told by the restart after the second', () => {
    const fold = foldOf([
      ...jammed.slice(0, -1),
      [12, 'panel', true],
      [15, 'panel', false],
      [20, 'link', false],
      [60, 'state', 11],
      [79, 'cycles', 40],
      [80, 'link', true],
      [90, 'state', 15],
      [95, 'state', 6],
      [97, 'good', 31],
    ]);
    expect(fold.state.presses).toMatchObject([
      { pressed: at(12), released: at(15), reset: null, restarted: null, firstGood: null },
    ]);
  });

  it('[ST11] [ST5] a second stop at the same station soon after is another try, by the cartons made in the gap', () => {
    const tries = (cartons: number) =>
      foldOf(heard([60, 'state', 11], [79, 'good', 10 + cartons], [79, 'cycles', 40])).state.stops.map(
        ({ attempt }) => attempt,
      );
    expect(tries(8)).toEqual([1, 2]);
    expect(tries(30)).toEqual([1, 1]);
  });

  it('[ST11] [ST6] an unexplained stop whose end nobody saw says that it lasted so long at least', () => {
    const unexplained = foldOf([
      ...running(),
      [10, 'cycles', 10],
      [10.5, 'state', 11],
      [60, 'link', false],
      [100, 'cycles', 40],
      [110, 'state', 6],
      [120, 'link', true],
    ]);
    // it ended with the state's own moment, though in a gap: that is seen
    expect(unexplained.state.stops).toMatchObject([{ end: at(110), endSeen: true }]);
    const twice = foldOf([
      ...running(),
      [10, 'cycles', 10],
      [10.5, 'state', 11],
      [60, 'link', false],
      [100, 'cycles', 40],
      [120, 'link', true],
    ]);
    expect(viewOf(twice, at(121), { servers: [] }).matters.slice(0, 1)).toMatchObject([
      { kind: 'unexplainedStop', lasted: 49_500, endSeen: false },
    ]);
  });
});
