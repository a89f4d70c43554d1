import { describe, expect, it } from 'vitest';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { LineFold } from '../../../model/fold/fold.ts';
import { lotNow } from '../../../model/fold/fitted.ts';
import { recordSteps } from '../../../model/records/records.ts';
import { subjectOf } from '../../../model/records/subjects.ts';
import { bookNumber, standingNow } from '../../../model/setpoints/standing.ts';
import { at, changes } from '../smallLine.ts';
import { atRate, backAtRate, entry, PERSON, setFold, setLine, settingUp } from './setLine.ts';

const index = indexOf(setLine);
const stands = ({ state }: LineFold, number: string) => {
  const standing = standingNow(index, state, { number });
  return standing && { ...standing, at: (standing.at - at(0)) / 1e7 };
};
const read = (adjustment: string, value: number) =>
  ({ kind: 'reading', station: 'fold', adjustment, value, how: 'typed' }) as const;

describe('where adjustments stand', () => {
  it('[SP1] a sensor goes before what people said, and what nobody said is not known', () => {
    const fold = setFold(atRate, [entry(50, 'a', read('2.1', 13)), entry(51, 'b', read('2.2', 26.5))]);
    expect(stands(fold, '2.1')).toEqual({ value: 12, how: 'sensor', at: 0, beforeSize: false });
    expect(stands(fold, '2.2')).toEqual({ value: 26.5, how: 'typed', at: 51, beforeSize: false });
    expect(stands(fold, '3.1')).toBeUndefined();
  });

  it('[SP1] of a sensor that fell silent the last reading is no standing, and what people say since is', () => {
    const silent = [[60, 'guide', null, 0x80000000]] as const;
    expect(stands(setFold(atRate, silent), '2.1')).toBeUndefined();
    const said = setFold(atRate, silent, [entry(70, 'a', read('2.1', 12.5))]);
    expect(stands(said, '2.1')).toEqual({ value: 12.5, how: 'typed', at: 70, beforeSize: false });
  });

  it('[SP1] what was said before the size that runs is told as that, and what its sheet said is not', () => {
    const before = setFold(atRate, [entry(50, 'a', read('2.2', 26.5))], settingUp);
    expect(stands(before, '2.2')?.beforeSize).toBe(true);
    const inSheet = setFold(
      atRate,
      [
        entry(102, 's', { kind: 'sheetBegun', size: 'sachet-48', in: 'size' }),
        entry(110, 'a', read('2.2', 31.5)),
      ],
      settingUp,
    );
    expect(stands(inSheet, '2.2')?.beforeSize).toBe(false);
  });

  it('[SP1] a change that was made says where it stands, where its text is a number', () => {
    const change = (to: string) =>
      ({
        kind: 'changed',
        station: 'fold',
        changed: { of: 'adjustment', adjustment: '2.2', to },
        words: 'closer',
      }) as const;
    expect(stands(setFold(atRate, [entry(50, 'a', change('26,5'))]), '2.2')?.value).toBe(26.5);
    expect(stands(setFold(atRate, [entry(50, 'a', change('two marks up'))]), '2.2')).toBeUndefined();
  });

  it('[SP2] one tap says all numbers of a station, and each is weaker than typed', () => {
    const settings = [
      { adjustment: '2.1', value: 12 },
      { adjustment: '2.2', value: 26 },
    ];
    const fold = setFold(atRate, [entry(50, 'a', { kind: 'asBook', station: 'fold', settings })]);
    expect(stands(fold, '2.2')).toEqual({ value: 26, how: 'confirmed', at: 50, beforeSize: false });
    expect(fold.state.settings.map(({ adjustment, how }) => [adjustment, how])).toEqual([
      ['2.1', 'confirmed'],
      ['2.2', 'confirmed'],
    ]);
  });

  it('[EN1] a reading that is corrected stands as corrected, one that is withdrawn as what was said before', () => {
    const rows = [entry(50, 'a', read('2.2', 26)), entry(60, 'b', read('2.2', 62))];
    const correction = (body?: ReturnType<typeof read>) =>
      entry(70, 'c', {
        kind: 'correction',
        of: 'b',
        was: 'reading',
        why: 'slip',
        ...(body === undefined ? {} : { body }),
      });
    expect(stands(setFold(atRate, rows, [correction(read('2.2', 26.2))]), '2.2')?.value).toBe(26.2);
    expect(stands(setFold(atRate, rows, [correction()]), '2.2')).toMatchObject({ value: 26, at: 50 });
  });

  it('[SP3] from a new datum on nothing is known of what was said before, until it is said again', () => {
    const datum = { kind: 'datum', station: 'fold', adjustment: '2.2', why: 'replaced' } as const;
    const fold = setFold(atRate, [entry(50, 'a', read('2.2', 26)), entry(60, 'b', datum)]);
    expect(stands(fold, '2.2')).toBeUndefined();
    expect(fold.state.datums).toMatchObject([{ adjustment: '2.2', datum: 2, why: 'replaced', offset: null }]);
    const offset = {
      kind: 'datumOffset',
      adjustment: '2.2',
      datum: 2,
      offset: -1.5,
      why: 'measured',
    } as const;
    fold.take(changes(setLine, [entry(70, 'c', offset), entry(80, 'd', read('2.2', 24.5))]));
    expect(fold.state.datums[0]?.offset).toBe(-1.5);
    expect(fold.state.settings).toMatchObject([{ value: 24.5, datum: 2 }]);
  });

  it('[SP4] the lot and the change parts are what was entered last, where no tag tells them', () => {
    const fold = setFold(atRate, [
      entry(50, 'a', { kind: 'fitted', what: 'lot', name: 'L114' }),
      entry(51, 'b', { kind: 'fitted', what: 'parts', name: 'set B' }),
      entry(52, 'c', { kind: 'fitted', what: 'lot', name: 'L119' }),
    ]);
    expect(fold.state.fitted.map(({ what, name }) => [what, name])).toEqual([
      ['parts', 'set B'],
      ['lot', 'L114'],
      ['lot', 'L119'],
    ]);
    expect(lotNow(fold.state)).toBe('L119');
  });

  it('[SP5] a wheel that is turned is one move, on the decimals of its scale', () => {
    const turned = [
      [110, 'guide', 12.31],
      [115, 'guide', 13.02],
      [125, 'guide', 14.46],
      [126, 'guide', 14.49],
      [300, 'guide', 14.6],
    ] as const;
    const fold = setFold(atRate);
    const events = fold.take(changes(setLine, turned));
    const moves = recordSteps(events, fold.state).flatMap((one) =>
      one.kind === 'put' && one.record.kind === 'move' ? [one.record] : [],
    );
    expect(moves.map(({ body, id }) => [id, (body.begin - at(0)) / 1e7, body.from, body.to])).toEqual([
      ['2.1', 110, 12, 12.3],
      ['2.1', 110, 12, 13],
      ['2.1', 110, 12, 14.5],
      ['2.1', 300, 14.5, 14.6],
    ]);
    expect(subjectOf(moves[0]!)).toBe('moved 2.1');
  });

  it('[SP6] where everything stood at the end of a run at rate is what its size ran at last', () => {
    const fold = setFold(atRate, settingUp, backAtRate, [entry(505, 'a', read('2.2', 31))]);
    expect(fold.state.ranAt).toEqual([]);
    const backTo20 = [
      [510, 'state', 11],
      [511, 'mode', 4],
      [512, 'size', 20],
    ] as const;
    fold.take(changes(setLine, backTo20));
    expect(fold.state.ranAt).toMatchObject([
      { size: 'sachet-48', adjustment: '2.1', value: 12, how: 'sensor' },
      { size: 'sachet-48', adjustment: '2.2', value: 31, how: 'typed' },
    ]);
    // a run that never came to its rate leaves nothing
    const stops = [
      [600, 'mode', 1],
      [600, 'state', 6],
      [610, 'state', 11],
      [611, 'mode', 4],
      [612, 'size', 48],
    ] as const;
    fold.take(changes(setLine, stops));
    expect(fold.state.ranAt.filter(({ size }) => size === 'sachet-20')).toEqual([]);
  });

  it('[BK1] the book is what a person approved last, and the line file’s where that was taken back', () => {
    const book = (value: number | null) =>
      ({ kind: 'book', size: 'sachet-48', adjustment: '2.2', value, why: 'seven runs' }) as const;
    const fold = setFold(atRate, [entry(50, 'a', book(32), PERSON)]);
    expect(bookNumber(setLine, fold.state, 'sachet-48', '2.2')).toBe(32);
    expect(bookNumber(setLine, fold.state, 'sachet-20', '2.2')).toBe(26);
    fold.take(changes(setLine, [entry(60, 'b', book(null), PERSON)]));
    expect(bookNumber(setLine, fold.state, 'sachet-48', '2.2')).toBe(31.5);
    expect(bookNumber(setLine, fold.state, null, '2.2')).toBeUndefined();
  });

  it('[SP1] a fold that is saved and resumed goes on the same', () => {
    const rows = [atRate, [entry(50, 'a', read('2.2', 26.5))], settingUp, backAtRate] as const;
    const whole = setFold(...rows);
    const half = setFold(...rows.slice(0, 2));
    const resumed = setFold();
    resumed.take(changes(setLine, rows.slice(0, 2).flat()));
    expect(JSON.parse(JSON.stringify(resumed.state))).toEqual(JSON.parse(JSON.stringify(half.state)));
    resumed.take(changes(setLine, rows.slice(2).flat()));
    expect(JSON.stringify(resumed.state)).toBe(JSON.stringify(whole.state));
  });
});
