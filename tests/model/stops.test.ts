import { describe, expect, it } from 'vitest';
import { millis, minutes, seconds } from '../../model/units/units.ts';
import { timeClasses } from '../../model/view/classes.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { seenAt } from '../../model/view/seen.ts';
import { at, boundSignals, changes, foldOf, goods, running, smallLine, type Rows } from './smallLine.ts';

const line = smallLine();

const jam: Rows = [
  ...running(),
  [10, 'good', 10],
  [10.5, 'state', 11],
  [10.5, 'reason', 51],
  [30, 'state', 6],
  [30, 'reason', 0],
];

describe('stops', () => {
  it('[PR1] the line produces in Execute and produce mode, and in nothing else', () => {
    expect(foldOf(running()).state.producing).toBe(true);
    expect(foldOf([...running(), [1, 'state', 5]]).state.producing).toBe(false);
    expect(foldOf([...running(), [1, 'mode', 2]]).state.producing).toBe(false);
  });

  it('[PR2] what is counted in maintenance mode is never production and never a loss', () => {
    const fold = foldOf([
      ...running(),
      [5, 'good', 5],
      [6, 'mode', 2],
      [7, 'good', 9],
      [7.5, 'rejectOpen', 3],
      [8, 'mode', 1],
    ]);
    expect(fold.state.shift.account.good).toBe(5);
    expect(fold.state.shift.rejects).toBe(0);
  });

  it('[ST1] a stop begins when the pace-setting machine leaves production and ends when it returns', () => {
    const [stop] = foldOf(jam).state.stops;
    expect([stop?.begin, stop?.end]).toEqual([at(10.5), at(30)]);
    expect(stop?.from).toBe('state');
  });

  it('[ST2] the output pause runs from the last good carton before to the first one after', () => {
    const [stop] = foldOf([...jam, [33, 'good', 11]]).state.stops;
    expect([stop?.lastGoodBefore, stop?.firstGood]).toEqual([at(10), at(33)]);
  });

  it('[ST3] the first number of the first-out word is the first fault, and later ones are what it set off', () => {
    const fold = foldOf([...running(), [10, 'state', 11], [10, 'reason', 51], [12, 'reason', 52]]);
    expect(fold.state.stops[0]).toMatchObject({ reason: 51, station: 'fold', class: 'stopped' });
    expect(fold.state.happenings.map((row) => row.kind)).toEqual(['firstFault', 'setOff']);
  });

  it('[ST3] a word that was set just before the state changed is that stop’s first fault', () => {
    const fold = foldOf([...running(), [9.99, 'reason', 51], [10, 'state', 11]]);
    expect(fold.state.stops[0]).toMatchObject({ reason: 51, station: 'fold' });
  });

  it('[ST3] without a first-out word the earliest alarm is the first fault', () => {
    const signals = boundSignals.map((signal) =>
      signal.id === 'reason' ? { ...signal, role: 'alarmNumber' as const } : signal,
    );
    const other = smallLine({}, signals);
    const fold = foldOf([...running(), [10, 'state', 11], [10.1, 'reason', 52], [10.2, 'reason', 51]], other);
    expect(fold.state.stops[0]).toMatchObject({ reason: 52, station: 'pick' });
  });

  it('[ST4] a stop shorter than the limit is a minor stop', () => {
    const { trend } = viewOf(foldOf(jam), at(31), { servers: [] });
    expect(trend.spans).toMatchObject([{ kind: 'stopped', minor: true, station: 2, reason: 'tuck jam' }]);
    const long = foldOf([...running(), [10, 'state', 11], [10, 'reason', 51], [610, 'heartbeat', 1]]);
    expect(viewOf(long, at(611), { servers: [] }).trend.spans).toMatchObject([{ minor: false }]);
  });

  it('[ST5] a stop at the same station within ten cartons of restart is another try', () => {
    const again: Rows = [...jam, [35, 'good', 15], [36, 'state', 11], [36, 'reason', 51]];
    expect(foldOf(again).state.stops[1]).toMatchObject({ attempt: 2, episode: at(10.5).toString(36) });
    const later: Rows = [...jam, [45, 'good', 25], [46, 'state', 11], [46, 'reason', 51]];
    expect(foldOf(later).state.stops[1]).toMatchObject({ attempt: 1 });
    const elsewhere: Rows = [...jam, [35, 'good', 15], [36, 'state', 11], [36, 'reason', 52]];
    expect(foldOf(elsewhere).state.stops[1]).toMatchObject({ attempt: 1 });
  });

  it('[ST6] a stop by a person that lasts is asked about until somebody answers', () => {
    const rows: Rows = [...running(), [10, 'state', 2], [10, 'reason', 201]];
    const fold = foldOf(rows);
    expect(viewOf(fold, at(29), { servers: [] }).question).toBeUndefined();
    expect(viewOf(fold, at(31), { servers: [] }).question).toMatchObject({
      stop: at(10).toString(36),
      days: 30,
    });
    const entry = {
      id: 'e1',
      at: 0,
      author: { kind: 'position', position: 'front' },
      kind: 'reason',
      stop: at(10).toString(36),
      reason: 'cleaning',
    };
    fold.take(changes(line, [[32, 'entry', JSON.stringify(entry)]]));
    expect(viewOf(fold, at(33), { servers: [] }).question).toBeUndefined();
    expect(fold.state.stops[0]?.answer).toMatchObject({ reason: 'cleaning' });
    expect(fold.state.answers).toEqual([expect.objectContaining({ answer: 'cleaning', times: 1 })]);
    fold.take(changes(line, [[34, 'entry', JSON.stringify(entry)]]));
    expect(fold.state.answers[0]?.times).toBe(1);
  });

  it('[ST6] “not now” asks again at the next pause', () => {
    const fold = foldOf([...running(), [10, 'state', 2], [10, 'reason', 201]]);
    const entry = {
      id: 'e1',
      at: 0,
      author: { kind: 'position', position: 'front' },
      kind: 'notNow',
      stop: at(10).toString(36),
    };
    fold.take(changes(line, [[35, 'entry', JSON.stringify(entry)]]));
    expect(viewOf(fold, at(36), { servers: [] }).question).toBeUndefined();
    fold.take(
      changes(line, [
        [40, 'state', 6],
        [40, 'reason', 0],
        [60, 'state', 11],
        [60, 'reason', 51],
      ]),
    );
    expect(viewOf(fold, at(61), { servers: [] }).question).toMatchObject({ stop: at(10).toString(36) });
  });

  it('[ST7] without a state tag the line stands from its last cycle on when none follows in three cycles’ time', () => {
    const other = smallLine(
      {},
      boundSignals.filter((signal) => signal.role !== 'state' && signal.role !== 'mode'),
    );
    const cycles = (from: number, to: number): Rows =>
      Array.from({ length: to - from + 1 }, (_, n) => [from + n, 'cycles', from + n]);
    const start = running().filter(([, id]) => id !== 'state' && id !== 'mode') as Rows;
    const fold = foldOf([...start, ...cycles(1, 10), [12, 'heartbeat', 1], [14, 'heartbeat', 2]], other);
    expect(fold.state.stops[0]).toMatchObject({ begin: at(10), end: null, from: 'cycles' });
    fold.take(changes(other, [[20, 'cycles', 11]]));
    expect(fold.state.stops[0]).toMatchObject({ begin: at(10), end: at(20) });
  });

  it('[ST7] without a state tag a line that is first seen standing stands from then on', () => {
    const other = smallLine(
      {},
      boundSignals.filter((signal) => signal.role !== 'state' && signal.role !== 'mode'),
    );
    const start = running().filter(([, id]) => !['state', 'mode', 'cycles'].includes(id)) as Rows;
    const fold = foldOf([...start, [2, 'cycles', 4711], [3, 'heartbeat', 1]], other);
    expect(fold.state).toMatchObject({ producing: false, judged: false, stops: [] });
    fold.take(changes(other, [[9, 'heartbeat', 2]]));
    expect(fold.state.stops).toMatchObject([{ begin: at(2), end: null, from: 'cycles' }]);
  });

  it('[ST7] without a state tag a gap’s cycles are not known, and looking begins again at its end', () => {
    const other = smallLine(
      {},
      boundSignals.filter((signal) => signal.role !== 'state' && signal.role !== 'mode'),
    );
    const cycles: Rows = Array.from({ length: 10 }, (_, n) => [n + 1, 'cycles', n + 1]);
    const start = running().filter(([, id]) => id !== 'state' && id !== 'mode') as Rows;
    const gap: Rows = [
      [11, 'link', false],
      [60, 'link', true],
    ];
    const fold = foldOf([...start, ...cycles, ...gap, [61, 'heartbeat', 1]], other);
    expect(fold.state).toMatchObject({ producing: true, stops: [] });
    fold.take(changes(other, [[70, 'heartbeat', 2]]));
    expect(fold.state.stops).toMatchObject([{ begin: at(60), end: null, from: 'cycles' }]);
  });

  it('[ST8] a stop by a person within a pause’s window is that pause, and a fault there is not', () => {
    const nine = 3 * 3600;
    const taken = foldOf([...running(nine), [nine + 60, 'state', 2], [nine + 60, 'reason', 201]]);
    expect(taken.state.stops[0]).toMatchObject({
      class: 'pause',
      pauseRule: 'break',
      allowance: minutes(20),
    });
    expect(viewOf(taken, at(nine + 90), { servers: [] }).head).toMatchObject({ kind: 'pause', over: false });
    taken.take(changes(line, [[nine + 1260, 'heartbeat', 1]]));
    expect(viewOf(taken, at(nine + 60 + 1201), { servers: [] }).head).toMatchObject({
      kind: 'pause',
      over: true,
    });
    const fault = foldOf([...running(nine), [nine + 60, 'state', 11], [nine + 60, 'reason', 51]]);
    expect(fault.state.stops[0]).toMatchObject({ class: 'stopped' });
  });

  it('[ST8] a pause whose allowance is used up does not excuse the next stop', () => {
    const nine = 3 * 3600;
    const fold = foldOf([
      ...running(nine),
      [nine + 60, 'state', 2],
      [nine + 60, 'reason', 201],
      [nine + 1300, 'state', 6],
      [nine + 1300, 'reason', 0],
      [nine + 1400, 'state', 2],
      [nine + 1400, 'reason', 201],
    ]);
    expect(fold.state.stops[1]).toMatchObject({ class: 'stopped', pauseRule: null });
  });

  it('[ST10] a gap within a stop that ends with cycles unchanged is isolated, and its time is still the stop’s', () => {
    const rows: Rows = [
      ...running(),
      [9, 'cycles', 9],
      [10, 'good', 10],
      [10.5, 'state', 11],
      [10.5, 'reason', 51],
      [20, 'link', false],
      [80, 'link', true],
      [90, 'state', 6],
      [90, 'reason', 0],
      [93, 'good', 11],
    ];
    const fold = foldOf(rows);
    expect(fold.state.shift.gaps).toEqual([{ from: at(20), to: at(80), kind: 'isolated' }]);
    expect(timeClasses(seenAt(fold, at(93)))).toMatchObject({
      isolated: seconds(60),
      stopped: seconds(19.5),
      unknown: 0,
    });
    const inside = foldOf(rows.slice(0, -4));
    expect(viewOf(inside, at(50), { servers: [] }).head).toMatchObject({
      kind: 'unknown',
      isolatedLikely: true,
    });
  });

  it('[ST10] if cycles moved in the gap it stays unknown', () => {
    const fold = foldOf([
      ...running(),
      [9, 'cycles', 9],
      [10.5, 'state', 11],
      [10.5, 'reason', 51],
      [20, 'link', false],
      [79.9, 'cycles', 30],
      [80, 'link', true],
    ]);
    expect(fold.state.shift.gaps).toEqual([{ from: at(20), to: at(80), kind: 'unknown' }]);
  });

  it('[CL1] every tick of a shift belongs to one class', () => {
    const fold = foldOf([
      ...jam,
      ...goods(31, 40, 11),
      [50, 'state', 5],
      [50, 'reason', 11],
      [70, 'link', false],
      [100, 'link', true],
    ]);
    const classes = timeClasses(seenAt(fold, at(120)));
    expect(Object.values(classes).reduce((a, b) => a + b, 0)).toBe(seconds(120));
    expect(classes).toMatchObject({
      producing: seconds(30.5),
      stopped: seconds(19.5),
      starved: seconds(40),
      isolated: seconds(30),
    });
  });

  it('says how often lately: third in 20 minutes', () => {
    const again = (from: number): Rows => [
      [from, 'state', 11],
      [from, 'reason', 51],
      [from + 30, 'state', 6],
      [from + 30, 'reason', 0],
    ];
    const fold = foldOf([
      ...running(),
      ...again(60),
      [200, 'good', 100],
      ...again(300),
      [500, 'good', 300],
      [600, 'state', 11],
      [600, 'reason', 51],
    ]);
    const { head } = viewOf(fold, at(610), { servers: [] });
    expect(head).toMatchObject({ kind: 'stopped', nth: 3, reason: { name: 'tuck jam', station: 'fold' } });
    expect(head.kind === 'stopped' && head.within).toBe(millis(minutes(9)));
  });
});
