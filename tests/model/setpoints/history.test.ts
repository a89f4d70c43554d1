import { describe, expect, it } from 'vitest';
import type { EntryBody } from '../../../model/entries/entries.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { RecordBodies } from '../../../model/records/records.ts';
import { setHistories } from '../../../model/setpoints/history.ts';
import { type SetRun, settledStretches } from '../../../model/setpoints/settled.ts';
import { at } from '../smallLine.ts';
import { setLine } from './setLine.ts';

const index = indexOf(setLine);
const said = (second: number, body: EntryBody): RecordBodies['entry'] =>
  ({ at: at(second), entry: { id: `e${second}`, at: second, author: { kind: 'itself' }, ...body } }) as never;
const read = (adjustment: string, value: number, how: 'typed' | 'readBack' = 'typed') =>
  ({ kind: 'reading', station: 'fold', adjustment, value, how }) as const;
const moved = (second: number, to: number): RecordBodies['move'] => ({
  adjustment: '2.1',
  begin: at(second),
  end: at(second + 2),
  from: null,
  to,
  datum: 1,
});
const run = (from: number, to: number, saidSince = from): SetRun => ({
  from: at(from),
  to: at(to),
  saidSince: at(saidSince),
  lot: null,
  parts: null,
});
const told = (history: ReturnType<typeof setHistories>, runs: readonly SetRun[]) =>
  settledStretches(runs, [history.get('2.1')!, history.get('2.2')!]).map(({ from, to, sets }) => [
    (from - at(0)) / 1e7,
    (to - at(0)) / 1e7,
    ...sets.map((set) => set?.value),
  ]);

describe('where adjustments stood in runs', () => {
  it('[SP7] a sensor’s moves are its history, and what people say of it is left out', () => {
    const history = setHistories(index, {
      anew: [],
      entries: [said(5, read('2.1', 40))],
      moves: [moved(1, 12), moved(50, 13)],
    });
    expect(history.get('2.1')?.map(({ value, known }) => [value, known])).toEqual([
      [12, 'sensor'],
      [13, 'sensor'],
    ]);
  });

  it('[SP7] a number read back stands from when the one that it corrects was entered', () => {
    const history = setHistories(index, {
      anew: [],
      entries: [said(10, read('2.2', 26)), said(90, read('2.2', 27, 'readBack')), said(95, read('2.2', 28))],
      moves: [],
    });
    expect(history.get('2.2')?.map(({ at: when, value }) => [(when - at(0)) / 1e7, value])).toEqual([
      [10, 27],
      [95, 28],
    ]);
  });

  it('[SP7] a new datum ends what is known, and what is said then is under it', () => {
    const history = setHistories(index, {
      anew: [],
      entries: [
        said(10, read('2.2', 26)),
        said(50, { kind: 'datum', station: 'fold', adjustment: '2.2', why: 'reZeroed' }),
        said(60, read('2.2', 3)),
      ],
      moves: [],
    });
    expect(history.get('2.2')?.map(({ value, datum }) => [value, datum])).toEqual([
      [26, 1],
      [undefined, 2],
      [3, 2],
    ]);
  });

  it('[SP8] a run is cut where something that acts on the station moved', () => {
    const history = setHistories(index, {
      anew: [],
      entries: [said(5, read('2.2', 26)), said(300, read('2.2', 27))],
      moves: [moved(1, 12), moved(198, 13)],
    });
    expect(
      told(
        history,
        [run(0, 400)].map((one) => ({ ...one, from: at(10) })),
      ),
    ).toEqual([
      [10, 200, 12, 26],
      [200, 300, 13, 26],
      [300, 400, 13, 27],
    ]);
  });

  it('[SP8] what people said of the size before is not known of this one, and what a sensor reads is', () => {
    const history = setHistories(index, {
      anew: [],
      entries: [said(5, read('2.2', 26))],
      moves: [moved(1, 12)],
    });
    expect(told(history, [run(100, 200)])).toEqual([[100, 200, 12, undefined]]);
    // said in the sheet that was begun before the size
    expect(told(history, [run(100, 200, 4)])).toEqual([[100, 200, 12, 26]]);
  });

  it('[SP8] what was first said in the course of a run is taken to have held from its beginning', () => {
    const history = setHistories(index, {
      anew: [],
      entries: [said(150, read('2.2', 26))],
      moves: [moved(1, 12)],
    });
    expect(told(history, [run(100, 200)])).toEqual([[100, 200, 12, 26]]);
  });

  const found = (value: number, was: number) => ({ ...read('2.2', value), found: was }) as const;
  const guide = (entries: readonly RecordBodies['entry'][], anew: readonly number[], one: SetRun) =>
    settledStretches(
      [one],
      [setHistories(index, { anew: anew.map(at), entries, moves: [] }).get('2.2')!],
    ).map(({ from, to, sets }) => [(from - at(0)) / 1e7, (to - at(0)) / 1e7, sets[0]?.value]);

  it('[SP10] found elsewhere in the run in which it was set, it stood there since then; moved back, only until then', () => {
    const set = said(110, read('2.2', 26));
    expect(guide([set, said(150, found(27, 27))], [100], run(100, 200))).toEqual([[100, 200, 27]]);
    expect(guide([set, said(150, found(26, 27))], [100], run(100, 200))).toEqual([
      [100, 150, 27],
      [150, 200, 26],
    ]);
    // nobody told of it before in this run: as it was found it held from the beginning
    expect(guide([said(150, found(26, 27))], [100], run(100, 200))).toEqual([
      [100, 150, 27],
      [150, 200, 26],
    ]);
    expect(guide([said(150, found(27, 27))], [100], run(100, 200))).toEqual([[100, 200, 27]]);
  });

  it('[SP10] what is found once another size was begun says nothing of the run before: it may have been moved between', () => {
    const entries = [said(50, read('2.2', 26)), said(150, found(31, 27))];
    expect(guide(entries, [100], run(40, 100))).toEqual([[40, 100, 26]]);
  });

  it('[SP10] read back otherwise: it stays, was moved back, or was read wrongly', () => {
    const before = [said(110, read('2.2', 26)), said(140, read('2.2', 27, 'readBack'))];
    const from = (answer: object) =>
      guide([...before, said(141, { ...read('2.2', 26), ...answer })], [100], run(110, 200));
    expect(from({ value: 27, found: 27 })).toEqual([[110, 200, 27]]);
    expect(from({ value: 26, found: 27 })).toEqual([
      [110, 141, 27],
      [141, 200, 26],
    ]);
    expect(from({ value: 26, found: 26 })).toEqual([[110, 200, 26]]);
  });
});
