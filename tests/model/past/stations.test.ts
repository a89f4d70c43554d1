import { describe, expect, it } from 'vitest';
import { adjustmentsNow } from '../../../model/past/adjustmentsNow.ts';
import { gainedBetween, judgedBy } from '../../../model/past/stationCounts.ts';
import { type StationsPast, stationsPast } from '../../../model/past/stationsPast.ts';
import { wholeShifts } from '../../../model/past/wholeShifts.ts';
import { pathView } from '../../../model/view/pathView.ts';
import { seenAt } from '../../../model/view/seen.ts';
import { at, boundSignals, goods, type Rows, running, smallLine } from '../smallLine.ts';
import { recorded } from './recorded.ts';

const line = smallLine();
const NOON_END = 8 * 3600;

/** An early shift of a hundred cartons and a jam, and the first minute of the late one. */
const rows: Rows = [
  ...running(),
  ...goods(1, 50, 1),
  [50.5, 'rejectOpen', 2],
  [51.5, 'rejectEmpty', 3],
  [52.5, 'missed', 4],
  [53.5, 'crushed', 5],
  [54.5, 'presented', 60],
  ...goods(61, 110, 51),
  [111, 'state', 11],
  [111, 'reason', 51],
  [119, 'state', 6],
  [119, 'reason', 0],
  ...goods(121, 130, 101),
  ...goods(NOON_END + 1, NOON_END + 60, 111),
  [NOON_END + 61, 'rejectOpen', 3],
];

function past(from: number, to: number): StationsPast {
  const { fold, of, tallyAt } = recorded(line, rows);
  const running = pathView(seenAt(fold, at(NOON_END + 62)));
  return stationsPast({
    index: fold.index,
    from: at(from),
    to: at(to),
    shifts: from < NOON_END ? of('shift') : [],
    running: to > NOON_END ? running : undefined,
    gained: gainedBetween(tallyAt(at(from)), to > NOON_END + 61 ? fold.state.tally : tallyAt(at(to))),
    stops: of('stop').filter(({ begin, end }) => begin < at(to) && (end ?? at(to)) > at(from)),
    gaps: [],
    begun: at(0),
  });
}

const fold = ({ stations }: StationsPast) => stations.find(({ station }) => station.id === 'fold')!;

describe('stations in a stretch of whole shifts', () => {
  it('[LO6] count exactly, each by its own counters: an empty carton is no reject, and a missed pick is the pick’s', () => {
    const early = past(0, NOON_END);
    expect(fold(early)).toMatchObject({ presented: 60, rejects: 2, empty: 3, missed: undefined, crushed: 5 });
    const [pick, , discharge] = early.stations;
    expect(pick).toMatchObject({ presented: undefined, rejects: undefined, missed: 4 });
    expect(discharge).toMatchObject({ presented: undefined, empty: undefined, crushed: undefined });
  });

  it('add what was counted since the last whole minute where the stretch goes on until now', () => {
    expect(fold(past(0, NOON_END + 62)).rejects).toBe(3);
    expect(fold(past(NOON_END, NOON_END + 62)).rejects).toBe(1);
    expect(fold(past(NOON_END, NOON_END + 60)).rejects).toBe(0);
  });

  it('[LO7] cartons lost add up to possible less good, of one shift and of several, without a rest', () => {
    for (const found of [past(0, NOON_END), past(0, NOON_END + 62), past(NOON_END, NOON_END + 62)]) {
      const lost = found.stations.reduce((sum, one) => sum + one.lost, 0) + found.none.lost;
      expect(lost).toBe(found.lost.total);
      expect(found.lost.total).toBe(found.lost.possible - found.lost.good);
    }
    const early = past(0, NOON_END);
    // 60 a minute for eight hours, and 110 good ones
    expect(early.lost).toEqual({ total: 28_800 - 110, possible: 28_800, good: 110 });
    // one carton a second from the last good one at 110 s to the first one after it at 121 s
    expect(fold(early).causes).toEqual([
      { cause: 'stopped', cartons: 10 },
      { cause: 'crushed', cartons: 5 },
      { cause: 'notLoaded', cartons: 3 },
      { cause: 'reject', cartons: 2 },
    ]);
    expect([early.shifts, past(0, NOON_END + 62).shifts]).toEqual([1, 2]);
  });

  it('[ST1] say how often and how long the line stood for each of them', () => {
    expect(fold(past(0, NOON_END))).toMatchObject({ stops: 1, stood: 8000 });
    expect(past(0, NOON_END).stations[0]).toMatchObject({ stops: 0, stood: 0 });
  });

  it('begin and end with their shifts, and never after now', () => {
    const shifts = [
      { from: at(0), to: at(NOON_END) },
      { from: at(NOON_END), to: at(2 * NOON_END) },
    ];
    const { index } = recorded(line, running()).fold;
    const asked = { index, from: at(100), to: at(NOON_END + 10) };
    const whole = wholeShifts(asked, shifts, at(NOON_END + 500));
    expect([whole.from, whole.to]).toEqual([at(0), at(NOON_END + 500)]);
    const early = wholeShifts({ ...asked, to: at(200) }, shifts.slice(0, 1), at(2 * NOON_END));
    expect([early.from, early.to]).toEqual([at(0), at(NOON_END)]);
  });

  it('are judged by their rejects, else by empty cartons or missed picks, and by nothing where nothing is charged', () => {
    const { index } = recorded(line, running()).fold;
    expect(judgedBy(index, 'fold')?.kind).toBe('reject');
    expect(judgedBy(index, 'discharge')).toBeUndefined();
    const picking = smallLine({
      stations: line.stations.map((one) => (one.id === 'pick' ? { ...one, drawing: 'pick' } : one)),
    });
    const pick = judgedBy(recorded(picking, running()).fold.index, 'pick')!;
    expect(pick.kind).toBe('missed');
    // good, open, empty, and the pockets without a carton
    expect(pick.among).toHaveLength(4);
  });
});

describe('numbered adjustments as they read', () => {
  const adjustment = {
    unit: 'mm',
    decimals: 1,
    min: 0,
    max: 60,
    station: 'fold',
    book: new Map([['sachet-20', 31.5]]),
  };
  const measured = smallLine(
    {
      adjustments: [
        { ...adjustment, number: '2.1', name: 'guide' },
        { ...adjustment, number: '2.2', name: 'finger' },
        { ...adjustment, number: '1.1', name: 'width', station: 'pick' },
      ],
    },
    [...boundSignals, { id: 'guide', role: 'adjustment', of: '2.1' }],
  );
  const read = (more: Rows) => {
    const { fold: line2 } = recorded(measured, [...running(), ...more]);
    return adjustmentsNow(line2.index, line2.state, 'fold');
  };

  it('tell what a sensor reads, since when, and how far from the book in steps of its scale; without one they say so', () => {
    const [guide, finger] = read([[10, 'guide', 31.399999618]]);
    expect(guide).toMatchObject({ number: '2.1', book: 31.5, known: 'sensor', off: -0.1 });
    expect(guide!.since).toBe(Date.parse('2026-03-17T05:00:10Z'));
    expect(finger).toMatchObject({ known: 'none', value: undefined, off: undefined });
  });

  it('[CV1] a sensor whose server is not heard, or whose value is bad, reads nothing now: what it read last stays, and no difference', () => {
    const silent = read([
      [10, 'guide', 30],
      [20, 'link', false],
    ]);
    expect(silent[0]).toMatchObject({ known: 'silent', value: 30, off: undefined });
    expect(read([])[0]).toMatchObject({ known: 'silent', value: undefined, since: undefined });
    const bad = read([
      [10, 'guide', 30],
      [20, 'guide', 0, 0x80000000],
    ]);
    expect(bad[0]).toMatchObject({ known: 'silent', off: undefined });
  });

  it('are drawn around the book’s number, wider where they read far from it, and never beyond the scale', () => {
    const near = read([[10, 'guide', 32]])[0]!.scale;
    expect([near.from, near.to]).toEqual([26, 37]);
    expect(near.ticks.filter(({ labelled }) => labelled).map(({ at: tick }) => tick)).toEqual([30, 35]);
    const far = read([[10, 'guide', 58]])[0]!.scale;
    expect(far.from).toBe(0);
    expect(far.to).toBe(60);
    expect(far.ticks.length).toBeLessThan(15);
  });
});
