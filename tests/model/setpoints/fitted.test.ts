import { describe, expect, it } from 'vitest';
import { lotNow } from '../../../model/fold/fitted.ts';
import type { LineFold } from '../../../model/fold/fold.ts';
import { LineFold as Fold } from '../../../model/fold/fold.ts';
import type { ChangeoverStep } from '../../../model/line/line.ts';
import { isDone, sheetSteps } from '../../../model/setpoints/sheetSteps.ts';
import { epochMs } from '../../../model/units/units.ts';
import { fittedView } from '../../../model/view/fittedView.ts';
import { at, changes, type Rows } from '../smallLine.ts';
import { atRate, entry, setFold, setLine, settingUp } from './setLine.ts';

const fitted = (what: 'lot' | 'parts', name: string, step?: string) =>
  ({ kind: 'fitted', what, name, ...(step === undefined ? {} : { step }) }) as const;
const board: ChangeoverStep = { id: 'board', kind: 'part', name: 'board', in: ['size'], lot: true };
const lotLine = {
  ...setLine,
  changeoverSteps: [...setLine.changeoverSteps, { ...board, station: 'discharge' }],
};
const lotFold = (...rows: readonly Rows[]) => {
  const fold = new Fold(lotLine);
  fold.take(changes(lotLine, rows.flat()));
  return fold;
};
const doneSteps = (fold: LineFold) =>
  sheetSteps(fold.index, fold.state, fold.state.sheet!)
    .filter(isDone)
    .map(({ id }) => id);
const correction = { kind: 'correction', of: 'a', was: 'fitted', why: 'slip' } as const;

describe('what is fitted', () => {
  it('[SP4] [SH3] a part that is named in an open sheet is its step done; taken back, the step is open again', () => {
    const fold = setFold(atRate, settingUp, [entry(130, 'a', fitted('parts', 'K2', 'cups'))]);
    expect(doneSteps(fold)).toEqual(['cups']);
    expect(fold.state.sheet?.done).toMatchObject([{ step: 'cups', well: true, words: 'K2', value: null }]);
    fold.take(changes(setLine, [entry(140, 'b', correction)]));
    expect(doneSteps(fold)).toEqual([]);
    expect(fold.state.fitted).toEqual([]);
  });

  it('[SP4] [EN1] corrected it is what is said now, and no older than it was; of one kept longer the newest stays', () => {
    const fold = setFold(atRate, [
      entry(50, 'a', fitted('parts', 'K2', 'cups')),
      entry(60, 'c', fitted('parts', 'K3', 'cups')),
    ]);
    fold.take(changes(setLine, [entry(70, 'b', { ...correction, body: fitted('parts', 'K1', 'cups') })]));
    expect(fold.state.fitted.map(({ name, at: since }) => [name, since])).toEqual([
      ['K1', at(50)],
      ['K3', at(60)],
    ]);
    const late = setFold(atRate, [
      entry(60, 'c', fitted('parts', 'K3', 'cups')),
      entry(50, 'a', fitted('parts', 'K2', 'cups')),
    ]);
    expect(late.state.fitted.at(-1)?.name).toBe('K3');
  });

  it('[SP4] a lot is one, whether the PLC told it, a step asked for it, or it was said of a change', () => {
    const changed = {
      kind: 'changed',
      station: 'pick',
      words: 'new pallet',
      changed: { of: 'lot', name: 'L121' },
    } as const;
    const fold = lotFold(atRate, settingUp, [
      entry(130, 'a', fitted('lot', 'L114', 'board')),
      entry(140, 'b', changed),
    ]);
    expect(lotNow(fold.state)).toBe('L121');
    expect(doneSteps(fold)).toEqual(['board']);
    fold.take(changes(lotLine, [entry(150, 'c', { ...correction, of: 'b', was: 'changed' })]));
    expect(lotNow(fold.state)).toBe('L114');
  });

  it('[SP4] is shown for the board and each part, with names that were used before, the newest first and each once', () => {
    const fold = lotFold(
      atRate,
      ['L1', 'L2', 'L3', 'L1', 'L4', 'L5', 'L6'].map((name, n) =>
        entry(20 + n, `l${n}`, fitted('lot', name)),
      ),
      [entry(50, 'k', fitted('parts', 'K2', 'cups'))],
    );
    const [lot, cups, ...none] = fittedView(fold);
    expect(lot).toMatchObject({ what: 'lot', step: 'board', name: undefined, station: 'discharge' });
    expect(lot?.now).toMatchObject({ name: 'L6', at: epochMs(at(26)) });
    expect(lot?.last).toEqual(['L6', 'L5', 'L4', 'L1']);
    expect(cups).toMatchObject({ what: 'parts', step: 'cups', name: 'suction cups', station: 'pick' });
    expect(cups?.last).toEqual(['K2']);
    expect(none).toEqual([]);
  });

  it('[SP4] of a line whose file names no parts the whole set is, and the board is where blanks go in', () => {
    const plain = { ...setLine, changeoverSteps: [] };
    const fold = new Fold(plain);
    fold.take(changes(plain, [...atRate, entry(50, 'a', fitted('parts', 'set B'))]));
    expect(fittedView(fold)).toMatchObject([
      { what: 'lot', step: undefined, station: setLine.stations[0]!.id, now: undefined, last: [] },
      { what: 'parts', step: undefined, station: undefined, now: { name: 'set B' } },
    ]);
  });
});
