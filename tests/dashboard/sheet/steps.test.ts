import { describe, expect, it } from 'vitest';
import { askingOf, type NumberFields } from '../../../dashboard/sheet/draft.ts';
import {
  asBookOf,
  doubtOf,
  isReadAgain,
  isSensed,
  openAfter,
  stepped,
} from '../../../dashboard/sheet/steps.ts';
import { viewOf } from '../../../model/view/lineView.ts';
import type { NumberStep, SheetView } from '../../../model/view/sheetView.ts';
import { at } from '../../model/smallLine.ts';
import { atRate, entry, setFold, settingUp } from '../../model/setpoints/setLine.ts';

const sheet = viewOf(setFold(atRate, settingUp), at(300), { servers: [{ id: 'plc', up: true }] }).sheets
  .open!;
const number = (id: string, of: SheetView = sheet) => of.steps.find((step) => step.id === id) as NumberStep;
const done = (...ids: readonly string[]): SheetView => ({
  ...sheet,
  steps: sheet.steps.map((step) => ({ ...step, isDone: ids.includes(step.id) })),
});

describe('the steps of a sheet', () => {
  it('are walked in order: the next that is open, then from the first on, then this one itself', () => {
    expect(openAfter(sheet.steps, undefined)?.id).toBe('cups');
    expect(openAfter(done('1.1').steps, 'cups')?.id).toBe('cleared');
    expect(openAfter(done('2.1', '2.2', '3.1', 'trial', 'first').steps, 'cleared')?.id).toBe('cups');
    const others = sheet.steps.map(({ id }) => id).filter((id) => id !== '2.2');
    expect(openAfter(done(...others).steps, '2.2')?.id).toBe('2.2');
    expect(openAfter(done('2.2', ...others).steps, '2.2')).toBeUndefined();
  });

  it('are confirmed by station: what is open, has a number in the book, and is read by no sensor', () => {
    expect(asBookOf(number('2.2'), sheet).map(({ id, book }) => [id, book])).toEqual([['2.2', 31.5]]);
    const entered = viewOf(
      setFold(atRate, settingUp, [
        entry(200, 'a', { kind: 'reading', station: 'fold', adjustment: '2.2', value: 30, how: 'typed' }),
      ]),
      at(300),
      { servers: [{ id: 'plc', up: true }] },
    ).sheets.open!;
    expect(asBookOf(number('2.2', entered), entered)).toEqual([]);
  });

  it('move by one mark of the scale from what is typed, or from where it stands, and never beyond its ends', () => {
    expect(stepped(31.5, number('2.2'), 1)).toBe(31.6);
    expect(stepped(undefined, number('2.1'), -1)).toBe(11.9);
    expect(stepped(undefined, number('2.2'), 1)).toBeUndefined();
    expect(stepped(60, number('2.2'), 1)).toBeUndefined();
    expect(stepped(0, number('2.2'), -1)).toBeUndefined();
  });

  it('go on from no number that a sensor read last, where nobody hears it', () => {
    const sensed: NumberStep = { ...number('2.1'), sensor: 'reads' };
    expect(isSensed(sensed, false)).toBe(true);
    expect(isSensed(sensed, true)).toBe(false);
    expect(isSensed(number('2.2'), false)).toBe(false);
    expect(stepped(undefined, { ...sensed, was: undefined }, 1)).toBeUndefined();
  });

  it('[SH7] are asked about as they were typed for as long as there is something to ask', () => {
    const typed = (asks: NumberFields['asks'], value: string) => ({ typed: value, asks, value });
    const step = { ...number('2.2'), done: undefined };
    expect(askingOf(typed('doubt', '13.5'), step, sheet)).toMatchObject({ kind: 'doubt', value: 13.5 });
    expect(askingOf(typed('doubt', '31.5'), step, sheet)).toEqual({ kind: 'rest' });
    expect(askingOf(typed('offBook', '30'), step, sheet)).toEqual({ kind: 'offBook', value: 30, book: 31.5 });
    // the book says that number now
    expect(askingOf(typed('offBook', '30'), { ...step, book: 30 }, sheet)).toEqual({ kind: 'rest' });
    expect(askingOf(typed('noNumber', ''), step, sheet)).toEqual({ kind: 'noNumber' });
    expect(askingOf(typed('rest', '30'), step, sheet)).toEqual({ kind: 'rest' });
  });

  it('[SH7] are asked about where a number is unlikely', () => {
    expect(doubtOf(31.5, number('2.2'), sheet)).toBeUndefined();
    expect(doubtOf(13.5, number('2.2'), sheet)).toMatchObject({ kind: 'slip', likely: 31.5 });
    expect(doubtOf(99, number('2.2'), sheet)).toMatchObject({ kind: 'offScale' });
  });

  it('[SH4] read back are asked about by the scale alone: nothing tells what was entered', () => {
    const again: NumberStep = {
      ...number('2.2'),
      done: {
        at: sheet.begun,
        author: { kind: 'screen', screen: 'desk' },
        entry: 'a',
        well: true,
        words: undefined,
        value: 31.5,
        how: 'typed',
        found: undefined,
      },
      readBack: { asked: true, done: undefined, differs: false },
    };
    expect(isReadAgain(again)).toBe(true);
    expect(doubtOf(13.5, again, sheet)).toBeUndefined();
    expect(doubtOf(315, again, sheet)).toEqual({ kind: 'offScale', likely: undefined });
    expect(doubtOf(31.55, again, sheet)).toMatchObject({ kind: 'fine' });
  });
});
