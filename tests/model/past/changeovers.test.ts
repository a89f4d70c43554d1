import { describe, expect, it } from 'vitest';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { ChangeoverRecord, StopRecord } from '../../../model/fold/state.ts';
import type { ChangeoversAsked } from '../../../model/past/changeover.ts';
import type { Nearby } from '../../../model/past/changeoverMeasure.ts';
import { wholeParts } from '../../../model/past/changeoverOpened.ts';
import { changeoversPast } from '../../../model/past/changeoversPast.ts';
import { crewChanges } from '../../../model/past/crewAt.ts';
import { afterWithout, joined, outsideShifts, without } from '../../../model/past/stretches.ts';
import { epochMs, type Instant, instantFromMs, type Span, seconds } from '../../../model/units/units.ts';
import { at, goods, type Rows, running, smallLine } from '../smallLine.ts';
import { recorded } from './recorded.ts';

function everyTwoSeconds(from: number, to: number, first: number): Rows {
  return Array.from(
    { length: Math.floor((to - from) / 2) + 1 },
    (_, n) => [from + 2 * n, 'good', first + n] as const,
  );
}

/** Sachet 20 to Sachet 48, 30 a minute, with a stop of 30 s in its run-up; at rate with the 27th carton after it, at 415 s. */
const rows: Rows = [
  ...running(),
  ...goods(1, 120, 1),
  [120.5, 'state', 2],
  [120.5, 'reason', 202],
  [121, 'mode', 4],
  [150, 'size', 48],
  [240, 'state', 6],
  [245, 'good', 123],
  [250, 'state', 2],
  [300, 'mode', 1],
  [300, 'state', 6],
  [300, 'reason', 0],
  ...everyTwoSeconds(302, 330, 124),
  [331, 'state', 11],
  [331, 'reason', 51],
  [361, 'state', 6],
  [361, 'reason', 0],
  ...everyTwoSeconds(363, 539, 139),
];
const line = smallLine();
const told = recorded(line, rows);
const [record] = told.of('changeover');
const kept: Nearby = { minutes: told.of('minute'), stops: told.of('stop'), gaps: told.of('gap') };

const asked: ChangeoversAsked = {
  index: indexOf(line),
  from: at(0),
  to: at(540),
  now: at(540),
  changeovers: [record!],
  near: (from, to) => ({
    minutes: kept.minutes.filter((minute) => minute.at >= from && minute.at < to),
    stops: kept.stops,
    gaps: kept.gaps,
  }),
  gaps: [],
  begun: at(0),
  alike: () => [],
  remember: (_key, _to, make) => make(),
  crew: () => [],
  numbers: () => ({ told: [], toBook: [], same: [], unknown: [], movedAgain: 0 }),
  filter: {},
  most: 10,
};
const past = (change: Partial<ChangeoversAsked> = {}) =>
  changeoversPast({ ...asked, alike: () => change.changeovers ?? asked.changeovers, ...change });
const near = (change: Partial<Nearby>) => ({ near: () => ({ ...kept, ...change }) });

/** One that began and was at rate so many seconds after six. */
const like = (begin: number, atRate: number | null, change: Partial<ChangeoverRecord> = {}) => ({
  ...record!,
  begin: at(begin),
  trialBegan: null,
  productionBack: at(begin + 10),
  firstGood: null,
  atRate: atRate === null ? null : at(atRate),
  end: atRate === null ? null : at(atRate),
  ...change,
});

describe('a changeover of the past', () => {
  it('[CH2] has its phases, its trial cartons, and how long it took until its first good carton', () => {
    expect(past().list).toMatchObject([
      {
        id: String(epochMs(at(120.5))),
        kind: 'size',
        from: 'Sachet 20',
        to: 'Sachet 48',
        ends: 'atRate',
        over: epochMs(at(415)),
        lasted: 294_500,
        untilTrial: 119_500,
        trial: 60_000,
        stood: 179_500,
        runUp: 115_000,
        untilFirstGood: 181_500,
        idle: 0,
        unseen: 0,
        trialCartons: 3,
        stops: 1,
        target: 30,
        crew: 2,
        crewSaid: false,
      },
    ]);
  });

  it('cost its target × its time less good cartons, of which the minute it ended in is spread over what ran of it', () => {
    // possible 294.5 s at 30 a minute: 147.25; good until 330 s: 15, and 54 of the 59 s that ran of 29 in its last minute
    const all = 147.25 - 15 - (29 * 54) / 59;
    expect(past().list[0]!.lost).toBe(Math.round(all));
    // 179.5 s stood: 89.75; 30 s in a stop: 15; the rest was slow
    expect(past().opened!.parts).toEqual({ all: 106, stood: 90, stops: 15, spoiled: 0, slow: 1 });
  });

  it('a planned pause within its allowance is idle: in no length, and it costs nothing', () => {
    const stops = kept.stops.map(
      (stop): StopRecord =>
        stop.class === 'changeover' ? stop : { ...stop, class: 'pause', allowance: seconds(20) },
    );
    expect(past(near({ stops })).list[0]).toMatchObject({
      idle: 20_000,
      lasted: 274_500,
      runUp: 95_000,
      stops: 0,
      lost: Math.round(137.25 - 15 - (29 * 54) / 59),
    });
  });

  it('a minute that nobody saw whole costs nothing, and is said', () => {
    const gaps = [{ from: at(400), to: at(405), kind: 'unknown' as const }];
    const found = past(near({ gaps }));
    // 120.5 to 360 s at 30 a minute, less 15 good
    expect(found.list[0]).toMatchObject({ unseen: 55_000, lasted: 294_500, lost: Math.round(119.75 - 15) });
    expect(found.opened!.strip.slots.map(({ kind }) => kind)).toContain('unseen');
    const isolated = [{ ...gaps[0]!, kind: 'isolated' as const }];
    expect(past(near({ gaps: isolated })).list[0]).toMatchObject({ unseen: 0, lost: 106 });
  });

  it('what it cost is not known where the records do not reach', () => {
    const found = past(near({ minutes: kept.minutes.filter((minute) => minute.at > at(200)) }));
    expect(found.list[0]!.lost).toBeUndefined();
    expect(found.opened!.parts).toBeUndefined();
  });

  it('[PL3] its target is that of the crew that loaded, where somebody said it by then', () => {
    const size = {
      ...line.sizes[1]!,
      targets: new Map([
        [1, 18],
        [2, 30],
      ]),
    };
    const index = indexOf({ ...line, sizes: [line.sizes[0]!, size] });
    const crew = [
      { at: at(200), people: 1 },
      { at: at(400), people: 2 },
    ];
    expect(past({ index, crew: () => crew }).list[0]).toMatchObject({ target: 18, crew: 1, crewSaid: true });
  });

  it('[PL3] the crew is said by an entry of its own, or with an order from where that begins', () => {
    const entry = (second: number, body: object) => ({
      at: at(second),
      entry: {
        id: String(second),
        at: epochMs(at(second)),
        author: { kind: 'file', file: 'x' },
        ...body,
      } as never,
    });
    const entries = [
      entry(10, { kind: 'order', number: '7', crew: 3 }),
      entry(20, { kind: 'crew', people: 1 }),
      entry(30, { kind: 'order', number: '8' }),
    ];
    const orders = [
      { at: at(50), order: '7', crew: 3 },
      { at: at(60), order: '8', crew: null },
    ];
    expect(crewChanges(asked.index, entries, orders)).toEqual([
      { at: at(20), people: 1 },
      { at: at(50), people: 3 },
    ]);
  });
});

describe('changeovers beside each other', () => {
  const earlier = [like(-4000, -3900), like(-3000, -2700), like(-2000, -1800)];

  it('the usual one is the middle one of earlier ones of the same pair that were at rate, and of too few there is none', () => {
    const others = [
      like(-5000, -4990, { from: 'sachet-48', to: 'sachet-20' }),
      like(-6000, -5990, { kind: 'artwork' }),
      like(-1000, null),
    ];
    const changeovers = [...others.slice(0, 2), ...earlier, others[2]!, record!];
    const { opened } = past({ changeovers });
    expect(opened).toMatchObject({
      earlier: 3,
      usual: { lasted: 200_000, untilTrial: 10_000, runUp: 190_000, shortest: 100_000, longest: 300_000 },
    });
    const few = past({ changeovers: [...earlier.slice(1), record!] }).opened;
    expect([few!.earlier, few!.usual]).toEqual([2, undefined]);
  });

  it('are chosen by kind and pair; the newest of them is opened, or the one that is asked for', () => {
    const artwork = like(500, 530, { kind: 'artwork', from: 'sachet-48', to: 'sachet-48' });
    const changeovers = [record!, artwork];
    const idOf = ({ begin }: { begin: Instant }) => String(epochMs(begin));
    const whole = past({ changeovers });
    expect(whole.list.map(({ id }) => id)).toEqual([idOf(artwork), idOf(record!)]);
    expect([whole.kinds, whole.opened!.changeover.kind]).toEqual([['size', 'artwork'], 'artwork']);
    expect(whole.pairs).toEqual([{ id: 'sachet-20.sachet-48', from: 'Sachet 20', to: 'Sachet 48' }]);
    expect(past({ changeovers, filter: { kind: 'size' } }).opened!.changeover.id).toBe(idOf(record!));
    expect(past({ changeovers, filter: { pair: 'sachet-48.sachet-20' } })).toMatchObject({ changeovers: 0 });
    expect(past({ changeovers, open: idOf(record!) }).opened!.changeover.kind).toBe('size');
    expect(past({ changeovers, open: '1' }).opened).toBeUndefined();
    expect(past({ changeovers, most: 1 })).toMatchObject({ changeovers: 2, list: [{ kind: 'artwork' }] });
  });

  it('the time since the last one runs from at rate on; while one goes on there is none', () => {
    expect(past()).toMatchObject({ since: 125_000, goesOn: false });
    const open = { ...record!, atRate: null, end: null };
    const found = past({ changeovers: [open] });
    expect(found).toMatchObject({
      since: undefined,
      goesOn: true,
      list: [{ ends: 'goesOn', lasted: 419_500 }],
    });
  });

  it('a curve begins with no carton, and its mark stands at rate', () => {
    const { curves } = past().opened!;
    expect(curves.until).toBe(20 * 60_000);
    const [own] = curves.curves;
    expect(own!.points.slice(0, 6).map(({ good }) => good)).toEqual([0, 0, 0, 0, 0, 0]);
    expect(own!.atRate!.after).toBe(294_500);
    // nothing is told of what is still to come
    expect(own!.points.every(({ after }) => after <= 419_500)).toBe(true);
  });

  it('the strip has no board where the line stood, and names what it stood for', () => {
    const { strip } = past().opened!;
    expect(strip.slots).toEqual([
      {
        from: epochMs(at(120.5)),
        to: epochMs(at(300)),
        kind: 'changeover',
        station: undefined,
        name: 'changeover',
      },
      { from: epochMs(at(331)), to: epochMs(at(361)), kind: 'stopped', station: 2, name: 'tuck jam' },
    ]);
    const stood = strip.slots.some((slot) =>
      strip.board.some(({ from, to }) => from < slot.to && to > slot.from),
    );
    expect(stood).toBe(false);
    const full = strip.board.find(({ from }) => from === epochMs(at(420)));
    expect(full).toEqual({ from: epochMs(at(420)), to: epochMs(at(480)), rate: 30 });
  });

  it('whole cartons of parts add up to the whole, the largest rest first', () => {
    expect(wholeParts({ all: 10.2, stood: 4.6, stops: 3.5, spoiled: 2.6, slow: -0.5 })).toEqual({
      all: 10,
      stood: 5,
      stops: 3,
      spoiled: 3,
      slow: -1,
    });
  });
});

describe('stretches', () => {
  const span = (from: number, to: number) => ({ from: at(from), to: at(to) });

  it('are joined where they overlap or touch, and cut out of another', () => {
    expect(joined([span(50, 60), span(10, 20), span(20, 30), span(25, 40), span(5, 5)])).toEqual([
      span(10, 40),
      span(50, 60),
    ]);
    expect(without(span(0, 55), [span(10, 40), span(50, 60)])).toEqual([span(0, 10), span(40, 50)]);
  });

  it('are passed over by what counts without them', () => {
    const idle = [span(10, 40), span(50, 60)];
    expect(afterWithout(at(0), seconds(10) as Span, idle)).toBe(at(10));
    expect(afterWithout(at(0), seconds(15), idle)).toBe(at(45));
    expect(afterWithout(at(20), seconds(15), idle)).toBe(at(65));
  });

  it('outside every shift lie between one shift’s end and the next one’s beginning', () => {
    const calendar = { ...line.calendar, shifts: line.calendar.shifts.slice(0, 1) };
    const moment = (text: string) => instantFromMs(Date.parse(text));
    expect(
      outsideShifts(calendar, line.zone, {
        from: moment('2026-03-17T12:50:00Z'),
        to: moment('2026-03-18T05:10:00Z'),
      }),
    ).toEqual([{ from: moment('2026-03-17T13:00:00Z'), to: moment('2026-03-18T05:00:00Z') }]);
  });
});
