import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { byLineTime } from '../../model/signals/signals.ts';
import { instantFromMs, seconds } from '../../model/units/units.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { at, changes, goods, running, smallLine } from './smallLine.ts';

const line = smallLine();
type Rows = Parameters<typeof changes>[1];

const story: Rows = [
  ...running(),
  ...goods(1, 20, 1),
  [20.5, 'state', 11],
  [20.5, 'reason', 51],
  [24, 'panel', true],
  [24, 'panelCount', 1],
  [24.01, 'state', 9],
  [40, 'panel', false],
  [41, 'state', 1],
  [45, 'state', 6],
  [45, 'reason', 0],
  ...goods(50, 80, 21),
  [81, 'rejectOpen', 1],
  [82, 'rejectEmpty', 1],
  [90, 'state', 2],
  [90, 'reason', 202],
  [91, 'mode', 4],
  [95, 'size', 48],
  [200, 'mode', 1],
  [200, 'state', 6],
  [200, 'reason', 0],
  ...goods(202, 260, 52),
];

describe('time', () => {
  it('[TI1] a moment keeps its 100 ns, and sums of time lose nothing', () => {
    const first = instantFromMs(Date.parse('2026-03-17T05:00:00.123Z'), 4567);
    expect(first % 10_000).toBe(4567);
    expect(Number.isSafeInteger(instantFromMs(Date.parse('2047-12-31T23:59:59.999Z'), 9999))).toBe(true);
    expect(seconds(0.0000001)).toBe(1);
  });

  it('[TI2] changes that come in another order give the state of line time', () => {
    const all = changes(line, story);
    const inOrder = new LineFold(line);
    inOrder.take(all);
    fc.assert(
      fc.property(fc.array(fc.nat(all.length - 1), { maxLength: 12 }), (moves) => {
        const shuffled = [...all];
        for (const from of moves) {
          const [change] = shuffled.splice(from, 1);
          shuffled.splice(Math.min(shuffled.length, from + 7), 0, change!);
        }
        const fold = new LineFold(line);
        for (const change of shuffled) fold.take([change]);
        // the same moment's two values of one signal keep their order of arrival, and the story has none
        expect(fold.text()).toBe(inOrder.text());
      }),
      { numRuns: 60 },
    );
  });

  it('[TI2] a late value amends what was told, and says from when', () => {
    const fold = new LineFold(line);
    fold.take(
      changes(line, [
        ...running(),
        [10, 'state', 11],
        [10, 'reason', 51],
        [30, 'state', 6],
        [30, 'reason', 0],
      ]),
    );
    const events = fold.take(
      changes(line, [
        [5, 'good', 3],
        [31, 'good', 4],
      ]),
    );
    expect(events.filter((event) => event.kind === 'Amended')).toEqual([
      { kind: 'Amended', at: at(31), from: at(5), again: expect.any(Array) },
    ]);
    expect(fold.state.stops[0]?.lastGoodBefore).toBe(at(5));
  });

  it('[TI2] what others saw at the moment of late data is told again with it', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, [...running(), [10, 'state', 11], [10, 'reason', 51], [31, 'good', 4]]));
    const events = fold.take(changes(line, [[10, 'good', 3]]));
    const again = events.flatMap((event) => (event.kind === 'Amended' ? event.again : []));
    expect(again.map((event) => event.kind)).toContain('StopBegan');
  });

  it('[TI2] data older than the fold can work in is told, not swallowed', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, running(10)));
    const resumed = new LineFold(line, fold.save());
    expect(resumed.take(changes(line, [[3, 'good', 3]])).map((event) => event.kind)).toContain('BeyondReach');
  });

  it('[TI3] any chunks, and any restart in between, give the same state', () => {
    const all = changes(line, story).sort(byLineTime);
    const whole = new LineFold(line);
    whole.take(all);
    fc.assert(
      fc.property(fc.array(fc.nat(all.length), { maxLength: 6 }), (cuts) => {
        const edges = [0, ...[...cuts].sort((a, b) => a - b), all.length];
        let fold = new LineFold(line);
        for (let n = 1; n < edges.length; n += 1) {
          fold.take(all.slice(edges[n - 1], edges[n]));
          fold = new LineFold(line, JSON.parse(JSON.stringify(fold.save())));
        }
        expect(fold.text()).toBe(whole.text());
        expect(viewOf(fold, at(261), { servers: [] })).toEqual(viewOf(whole, at(261), { servers: [] }));
      }),
      { numRuns: 40 },
    );
  });

  it('[TI4] an unchanged value changes nothing but the age of the data', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, story));
    const before = fold.save().state;
    fold.take(
      changes(line, [
        [265, 'state', 6],
        [265, 'panel', false],
        [265, 'good', 110],
      ]),
    );
    const {
      at: _at,
      signal: _signal,
      heardAt: _heard,
      ats: _ats,
      spokeAt: _spoke,
      ...rest
    } = fold.save().state;
    const {
      at: _at0,
      signal: _signal0,
      heardAt: _heard0,
      ats: _ats0,
      spokeAt: _spoke0,
      ...restBefore
    } = before;
    expect(rest).toEqual(restBefore);
  });

  it('[SI1] a state with a bad status makes the line unknown, not stopped and not running', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, [...running(), [10, 'good', 10], [20, 'state', null, 0x808c0000]]));
    const view = viewOf(fold, at(25), { servers: [] });
    expect(view.head).toMatchObject({ kind: 'unknown' });
    expect(view.rate.perMinute).toBeUndefined();
    expect(view.path.none.causes).toEqual([
      { cause: 'slow', cartons: 10 },
      { cause: 'unknown', cartons: 5 },
    ]);
  });

  it('[SI1] a stop device with a bad status reads unknown', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, [...running(), [10, 'panel', null, 0x80000000]]));
    expect(viewOf(fold, at(10.5), { servers: [] }).devices.devices[0]).toMatchObject({
      id: 'panel',
      reads: 'unknown',
    });
  });

  it('[CV1] coverage is the share of the shift that was observed', () => {
    const fold = new LineFold(line);
    fold.take(
      changes(line, [
        ...running(),
        [50, 'good', 50],
        [50, 'link', false],
        [75, 'good', 70],
        [75, 'link', true],
        [100, 'good', 95],
      ]),
    );
    const { sight } = viewOf(fold, at(100), { servers: [] });
    expect(sight.coverage).toBe(0.75);
    expect(sight.unknown).toBe(25_000);
  });

  it('[CO5] what was counted while nobody looked belongs to the gap', () => {
    const fold = new LineFold(line);
    fold.take(
      changes(line, [
        ...running(),
        ...goods(1, 50, 1),
        [50, 'link', false],
        [75, 'good', 70],
        [75, 'link', true],
      ]),
    );
    const { path } = viewOf(fold, at(75), { servers: [] });
    expect(path.good).toBe(70);
    expect(path.none.causes).toEqual([{ cause: 'unknown', cartons: 5 }]);
  });

  it('[CV1] an outage through which nothing was missed is no gap', () => {
    const rows = (end: string | boolean): Rows => [
      ...running(),
      ...goods(1, 50, 1),
      [50.2, 'link', false],
      ...goods(51, 55, 51),
      [55.2, 'link', end as never],
    ];
    const whole = new LineFold(line);
    whole.take(changes(line, rows('whole')));
    expect(whole.state.shift.gaps).toEqual([]);
    expect(viewOf(whole, at(55.5), { servers: [] }).sight.coverage).toBe(1);
  });
});
