import { describe, expect, it } from 'vitest';
import type { PersonEntryBody } from '../../../model/entries/entries.ts';
import type { EpochMs } from '../../../model/units/units.ts';
import { asideOf } from '../../../model/view/sheetAside.ts';
import { at, changes } from '../smallLine.ts';
import { atRate, entry, PERSON, setFold, setLine, settingUp } from './setLine.ts';

const read = (adjustment: string, station: string, value: number) =>
  ({ kind: 'reading', station, adjustment, value, how: 'typed' }) as const;

describe('an entry of a sheet that is not open', () => {
  it('[SH10] what became of a sheet is known after another began: by which it was replaced, or that it had ended before', () => {
    const begin = (second: number, id: string, size: string, author?: object) =>
      entry(second, id, { kind: 'sheetBegun', size, in: 'startUp' }, author);
    const done = (id: string, sheet: string) =>
      entry(150, id, { kind: 'stepDone', sheet, step: 'cups', well: true });
    const rows = [begin(110, 'phone', 'sachet-48'), begin(120, 'desk', 'sachet-20', PERSON)];
    const fold = setFold(atRate, rows, [
      done('late', 'phone'),
      entry(151, 'shut', { kind: 'sheetEnded', sheet: 'desk', why: 'by mistake' }),
      begin(152, 'third', 'sachet-48'),
    ]);
    expect(fold.state.sheetsBefore).toMatchObject([
      {
        ...{ id: 'phone', size: 'sachet-48', ended: { at: at(120), how: 'replaced' } },
        by: { kind: 'startUp', size: 'sachet-20', author: { kind: 'person', number: '7' } },
      },
      { id: 'desk', ended: { how: 'closed', why: 'by mistake' }, by: null },
    ]);
    // the same for what comes late
    const late = setFold(atRate, rows.slice(1));
    late.take(changes(setLine, rows.slice(0, 1)));
    expect(late.state.sheetsBefore).toMatchObject([{ id: 'phone', by: { size: 'sachet-20' } }]);
    const aside = (body: PersonEntryBody, id = 'late') =>
      asideOf(fold, { ...body, id, at: 0 as EpochMs, author: { kind: 'screen', screen: 'phone' } });
    const step = (sheet?: string): PersonEntryBody => ({
      ...{ kind: 'stepDone', step: 'cups', well: true },
      ...(sheet === undefined ? {} : { sheet }),
    });
    expect(aside(step('phone'))?.sheet).toMatchObject({
      ...{ id: 'phone', how: 'replaced', size: { id: 'sachet-48' } },
      by: { size: { id: 'sachet-20' }, author: { number: '7' } },
    });
    expect(aside(step('desk'))?.sheet).toMatchObject({ how: 'closed', author: { kind: 'screen' } });
    expect(aside(step('nobody knows'))).toEqual({ sheet: undefined });
    expect(aside(step('third'))).toBeUndefined();
    expect(aside(step())).toBeUndefined();
    expect(aside({ kind: 'sheetBegun', size: 'sachet-48', in: 'size' }, 'phone')?.sheet?.id).toBe('phone');
    expect(aside({ kind: 'sheetBegun', size: 'sachet-48', in: 'size' }, 'third')).toBeUndefined();
    expect(aside({ ...read('1.1', 'pick', 42), sheet: 'phone' })?.sheet?.id).toBe('phone');
    // a number of no sheet says where things stand, and no more
    expect(aside(read('1.1', 'pick', 42))).toBeUndefined();
    const fitted = { kind: 'fitted', what: 'parts', name: 'K2', step: 'cups' } as const;
    expect(aside({ ...fitted, sheet: 'phone' })?.sheet?.id).toBe('phone');
  });

  it('[SH10] of a sheet that has ended is in it what it was done with, and nothing that came later', () => {
    const fold = setFold(atRate, settingUp);
    const sheet = fold.state.sheet!.id;
    const done = (id: string) => ({ kind: 'stepDone', sheet, step: 'cups', well: true, id }) as const;
    fold.take(
      changes(setLine, [
        entry(150, 'in', { kind: 'stepDone', sheet, step: 'cups', well: true }),
        entry(151, 'shut', { kind: 'sheetEnded', sheet, why: 'on paper' }),
        entry(152, 'late', { kind: 'stepDone', sheet, step: 'cleared', well: true }),
      ]),
    );
    const of = (id: string) =>
      asideOf(fold, { ...done(id), at: 0 as EpochMs, author: { kind: 'screen', screen: 'phone' } });
    expect(of('in')).toBeUndefined();
    expect(of('late')?.sheet).toMatchObject({ id: sheet, how: 'closed' });
  });
});
