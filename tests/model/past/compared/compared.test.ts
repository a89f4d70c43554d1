import { describe, expect, it } from 'vitest';
import type { Line } from '../../../../model/line/line.ts';
import { compared, type Compared, type SideAsked } from '../../../../model/past/compared/compared.ts';
import { goodPlaces } from '../../../../model/past/compared/sums.ts';
import { gainedBetween, sumOf } from '../../../../model/past/stationCounts.ts';
import { runsPast } from '../../../../model/past/runsPast.ts';
import { epochMs, type Instant } from '../../../../model/units/units.ts';
import { at, type Rows, running, smallLine } from '../../smallLine.ts';
import { recorded } from '../recorded.ts';

const line = smallLine();
const SHIFT = 8 * 3600;
/** The early shift and the late one, of which half an hour each is told: a stop at fold, one by starving, an outage, a press. */
const rows: Rows = [
  ...running(),
  ...made(0, 600, 0, 0),
  ...stop(600, 720, 51),
  ...made(720, 900, 600, 3),
  ...stop(900, 960, 11),
  ...made(960, 1500, 780, 6),
  [1500, 'good', 1320],
  ...made(SHIFT, SHIFT + 400, 1320, 9),
  [SHIFT + 400, 'link', false],
  [SHIFT + 520, 'link', true],
  ...made(SHIFT + 530, SHIFT + 900, 1800, 12),
  [SHIFT + 900, 'panel', true],
  [SHIFT + 900.02, 'state', 8],
  [SHIFT + 900.02, 'reason', 301],
  [SHIFT + 930, 'panel', false],
  [SHIFT + 960, 'state', 6],
  [SHIFT + 960, 'reason', 0],
  ...made(SHIFT + 970, SHIFT + 1500, 2200, 15),
  [SHIFT + 1600, 'good', 2800],
];

function stop(from: number, to: number, reason: number): Rows {
  return [
    [from, 'state', 11],
    [from, 'reason', reason],
    [to, 'state', 6],
    [to, 'reason', 0],
  ];
}

/** A good carton in each second, and at the end three that are open. */
function made(from: number, to: number, good: number, open: number): Rows {
  const rows: [number, string, number][] = [];
  for (let second = from + 1; second < to; second += 1) rows.push([second, 'good', good + second - from]);
  rows.push([to - 2.5, 'rejectOpen', open + 3]);
  return rows.sort((a, b) => a[0] - b[0]);
}

const kept = recorded(line, rows);

function side(from: number, to: number, more: Partial<SideAsked> = {}): SideAsked {
  const good = goodPlaces(kept.fold.index);
  const begin = kept.tallyAt(at(from));
  return {
    from: at(from),
    to: at(to),
    stops: kept.of('stop'),
    gaps: kept.of('gap'),
    sizes: kept.of('size'),
    begun: at(0),
    tallyAt: kept.tallyAt,
    toldAt: (moment) => kept.of('minute').findLast((minute) => minute.at <= moment)?.account,
    ended: kept.of('shift'),
    made: [
      { at: at(from), cartons: 0 },
      ...kept
        .of('minute')
        .filter((minute) => minute.at > at(from) && minute.at <= at(to))
        .map((minute) => ({
          at: minute.at,
          cartons: sumOf(gainedBetween(begin, minute.tally), good) ?? 0,
        })),
    ],
    changeover: undefined,
    ...more,
  };
}

function asked(more: Partial<Parameters<typeof compared>[0]> = {}): Compared {
  return compared({
    index: kept.fold.index,
    alignment: 'clock',
    at: at(1500),
    here: side(0, 1500),
    there: side(SHIFT, SHIFT + 1500),
    earlier: [],
    ...more,
  });
}

const table = ({ rows: told }: Compared) =>
  told.map(({ kind, cause, stops, station, here, there, meaning }) =>
    [cause ?? stops ?? station?.id ?? kind, here.value, there.value, meaning.kind].join(' '),
  );

describe('two shifts of a small line', () => {
  it('[RP11] the table up to a moment, without what was not seen of one of them', () => {
    const answer = asked();
    expect(answer.leftOut).toEqual([{ from: epochMs(at(360)), to: epochMs(at(540)) }]);
    // 25 minutes less 3, at 60 a minute; by the end of the last of them 1,319 good, of which 180 in those 3
    expect(table(answer)).toEqual([
      'good 1139 1279 counted',
      'possible 1320 1320 counted',
      'lost 181 41 counted',
      // rejects beside a good carton each second are more than the target
      'slowOrNotLoaded -8 -5 counted',
      'stopped 180 40 counted',
      'reject 9 6 counted',
      'own 1 0 cannotTell',
      'outside 1 0 cannotTell',
      'safety 0 1 listed',
      'running 1140000 1260020 counted',
      'stood 180000 59980 counted',
      `fold ${9000 / 1148} ${6000 / 1285} cannotTell`,
      'notSeen 0 120000 notSeen',
    ]);
  });

  it('[RP13] what was not loaded stands with what was slow where people load, and by itself where a loader does', () => {
    expect(asked().rows.some(({ cause }) => cause === 'notLoaded' || cause === 'slow')).toBe(false);
    const loading: Line['loading'] = {
      ...line.loading,
      crews: [{ people: 1, note: 'loader' }],
      positions: [{ id: 'front', name: 'loader', side: 'front' }],
    };
    const index = { ...kept.fold.index, line: { ...line, loading } };
    const { rows: told } = asked({ index });
    expect(told.some(({ cause }) => cause === 'slowOrNotLoaded')).toBe(false);
    expect(told.some(({ cause }) => cause === 'slow')).toBe(true);
  });

  it('[RP13] safety stops are listed, and nothing is made of them', () => {
    const safety = asked().rows.find(({ stops }) => stops === 'safety');
    expect(safety).toMatchObject({ here: { value: 0 }, there: { value: 1 }, meaning: { kind: 'listed' } });
  });

  it('[RP10] without a changeover in one of them it is the clock, and which one has none is told', () => {
    const here = side(0, 1500, { changeover: at(125) });
    const answer = asked({ here, alignment: 'changeover' });
    expect(answer).toMatchObject({ asked: 'changeover', alignment: 'clock', without: ['there'] });
    expect(answer.here.origin).toBe(epochMs(at(0)));
    const both = asked({
      here,
      there: side(SHIFT, SHIFT + 1500, { changeover: at(SHIFT + 65) }),
      alignment: 'changeover',
    });
    expect(both.without).toEqual([]);
    expect([both.here.origin, both.there.origin]).toEqual([epochMs(at(120)), epochMs(at(SHIFT + 60))]);
  });
});

describe('runs', () => {
  it('[RP10] last from one changeover to the next; of a longer one than a day its first day is looked at, and of one that goes on no more', () => {
    const hours = (n: number) => at(n * 3600);
    const sizes = [
      { at: hours(0), size: 'sachet-20' },
      { at: hours(30), size: 'sachet-48' },
      { at: hours(30), size: 'sachet-20' },
    ];
    const run = (from: Instant, to: Instant, more: object) => ({
      size: { id: 'sachet-20', name: 'Sachet 20' },
      from: epochMs(from),
      to: epochMs(to),
      ...more,
    });
    expect(runsPast(kept.fold.index, sizes, hours(32))).toEqual([
      run(hours(0), hours(24), { lasted: 30 * 3_600_000, goesOn: false, cut: true }),
      run(hours(30), hours(54), { lasted: 2 * 3_600_000, goesOn: true, cut: false }),
    ]);
  });
});
