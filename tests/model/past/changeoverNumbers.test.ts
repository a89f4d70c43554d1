import { describe, expect, it } from 'vitest';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { ChangeoverRecord } from '../../../model/fold/state.ts';
import { changeoverNumbers } from '../../../model/past/changeoverNumbers.ts';
import type { SetAt } from '../../../model/setpoints/history.ts';
import { setLine } from '../setpoints/setLine.ts';
import { at } from '../smallLine.ts';

const record: ChangeoverRecord = {
  kind: 'size',
  begin: at(100),
  from: 'sachet-20',
  to: 'sachet-48',
  fromBlend: null,
  trialBegan: at(300),
  productionBack: at(400),
  firstGood: at(401),
  atRate: at(600),
  end: at(600),
  trialCartons: 40,
};
const set = (second: number, value: number | undefined, known: SetAt['known']): SetAt => ({
  at: at(second),
  value,
  known,
  datum: 1,
});
const books = new Map(setLine.adjustments.map(({ number, book }) => [number, book.get('sachet-48')]));
const numbers = (histories: Record<string, readonly SetAt[]>, saidSince = 100) =>
  changeoverNumbers({
    index: indexOf(setLine),
    record,
    over: at(600),
    saidSince: at(saidSince),
    histories: new Map(Object.entries(histories)),
    bookAt: (adjustment) => books.get(adjustment),
  });
const ids = (rows: readonly { readonly number: string }[]) => rows.map(({ number }) => number);

describe('what a changeover did to the numbers', () => {
  it('[CH4] what went to the book in one move is apart from what did not, did not move, and what nobody said', () => {
    const told = numbers({
      '1.1': [set(50, 20, 'typed'), set(150, 30, 'typed')],
      '2.1': [set(10, 12, 'sensor'), set(160, 14.2, 'sensor'), set(500, 14.4, 'sensor')],
      '3.1': [set(20, 40, 'sensor')],
    });
    expect(ids(told.toBook)).toEqual(['1.1']);
    expect(ids(told.told)).toEqual(['2.1']);
    expect(ids(told.same)).toEqual(['3.1']);
    expect(ids(told.unknown)).toEqual(['2.2']);
    expect(told.told[0]).toMatchObject({ was: 12, stood: 14.4, book: 14.5, off: -0.1, known: 'sensor' });
  });

  it('[CH4] a move after the first good carton is moved again, and one after it was at rate is none of it', () => {
    const told = numbers({
      '2.1': [set(160, 14.2, 'sensor'), set(500, 14.5, 'sensor'), set(700, 15, 'sensor')],
    });
    expect(told.movedAgain).toBe(1);
    expect(told.told[0]?.moves.map(({ to, again }) => [to, again])).toEqual([
      [14.2, false],
      [14.5, true],
    ]);
  });

  it('[CH4] what was said in its sheet before it began is of it, and what was said of the size before is not', () => {
    const history = { '2.2': [set(60, 26, 'typed'), set(90, 31.5, 'confirmed')] };
    expect(ids(numbers(history).unknown)).toContain('2.2');
    expect(numbers(history, 80).toBook[0]).toMatchObject({
      number: '2.2',
      was: 26,
      stood: 31.5,
      known: 'confirmed',
    });
  });
});
