import { describe, expect, it } from 'vitest';
import type { LineFold } from '../../../model/fold/fold.ts';
import { byLineTime } from '../../../model/signals/signals.ts';
import { LineFold as Fold } from '../../../model/fold/fold.ts';
import { isDone, sheetSteps } from '../../../model/setpoints/sheetSteps.ts';
import { at, changes, type Rows } from '../smallLine.ts';
import { atRate, backAtRate, entry, PERSON, setFold, setLine, settingUp } from './setLine.ts';

const read = (adjustment: string, station: string, value: number, how: 'typed' | 'readBack' = 'typed') =>
  ({ kind: 'reading', station, adjustment, value, how }) as const;
const steps = (fold: LineFold) => sheetSteps(fold.index, fold.state, fold.state.sheet!);
const open = ({ state }: LineFold) => state.sheet?.ended === null;
const well = (sheet: string, step: string, is = true) =>
  ({ kind: 'stepDone', sheet, step, well: is }) as const;

/** Every step of the sheet but the read-backs and the last approval. */
function allDone(sheet: string, from: number): Rows {
  return [
    entry(from, 'd1', well(sheet, 'cups')),
    entry(from + 1, 'd2', read('1.1', 'pick', 30)),
    entry(from + 2, 'd3', well(sheet, 'cleared')),
    [from + 3, 'guide', 14.5],
    entry(from + 4, 'd4', {
      kind: 'asBook',
      station: 'fold',
      settings: [{ adjustment: '2.2', value: 31.5 }],
    }),
    entry(from + 5, 'd5', read('3.1', 'discharge', 40)),
    entry(from + 6, 'd6', well(sheet, 'trial')),
  ];
}

const approve = (sheet: string, second: number) =>
  entry(second, `ok${second}`, { kind: 'stepApproved', sheet, step: 'first', well: true }, PERSON);
const again = (fold: LineFold) =>
  steps(fold).flatMap((step) => (step.kind === 'number' && step.readBack ? [step] : []));

describe('the sheet of a changeover', () => {
  it('[SH1] steps stand in process order: parts, numbers, checks and approvals of each station, the rest last', () => {
    const fold = setFold(atRate, settingUp);
    expect(steps(fold).map(({ kind, id }) => `${kind} ${id}`)).toEqual([
      'part cups',
      'number 1.1',
      'check cleared',
      'number 2.1',
      'number 2.2',
      'number 3.1',
      'check trial',
      'approval first',
    ]);
  });

  it('[SH1] a part is asked for only where the size takes one, and an artwork changeover moves no number', () => {
    const begun = (size: string, kind: 'size' | 'artwork') =>
      setFold(atRate, [entry(50, 's', { kind: 'sheetBegun', size, in: kind })]);
    expect(steps(begun('sachet-20', 'size')).map(({ id }) => id)).not.toContain('cups');
    expect(steps(begun('sachet-20', 'artwork')).map(({ id }) => id)).toEqual(['cleared']);
  });

  it('[SH2] it opens when the PLC tells of another size, and is of that changeover', () => {
    const { state } = setFold(atRate, settingUp);
    expect(state.sheet).toMatchObject({
      size: 'sachet-48',
      from: 'sachet-20',
      changeover: at(101),
      author: null,
      was: [{ adjustment: '2.1', value: 12, how: 'sensor' }],
    });
  });

  it('[SH2] one that a person began before is that changeover’s, and another size takes its place', () => {
    const begun = [entry(90, 's', { kind: 'sheetBegun', size: 'sachet-48', in: 'size' })] as const;
    const fold = setFold(atRate, begun, settingUp);
    expect(fold.state.sheet).toMatchObject({ id: 's', changeover: at(101), begin: at(90), ended: null });
    const wrong = [entry(90, 'w', { kind: 'sheetBegun', size: 'sachet-20', in: 'size' })] as const;
    expect(setFold(atRate, wrong, settingUp).state.sheet).toMatchObject({ size: 'sachet-48', author: null });
  });

  it('[SH3] what a screen kept of another sheet is no step of this one, and still says where it stands', () => {
    const kept = [entry(130, 'k', { ...read('1.1', 'pick', 42), sheet: 'elsewhere' })] as const;
    const fold = setFold(atRate, settingUp, kept);
    expect(fold.state.sheet!.done).toEqual([]);
    expect(fold.state.settings).toMatchObject([{ adjustment: '1.1', value: 42 }]);
    const own = [entry(130, 'k', { ...read('1.1', 'pick', 42), sheet: fold.state.sheet!.id })] as const;
    expect(setFold(atRate, settingUp, own).state.sheet!.done).toMatchObject([{ step: '1.1', value: 42 }]);
  });

  it('[SH2] [SH8] begun once more for the same size and kind it is the same one, and what names either is of it', () => {
    const begun = (second: number, id: string, kind: 'size' | 'startUp' = 'size') =>
      entry(second, id, { kind: 'sheetBegun', size: 'sachet-48', in: kind });
    // whether the PLC told it first, or another screen
    const told = setFold(atRate, settingUp, [
      begun(130, 'phone'),
      entry(140, 'a', well('phone', 'cups')),
      entry(141, 'b', well('phone', 'cleared')),
    ]);
    expect(told.state.sheet).toMatchObject({ author: null, alsoBegun: ['phone'], changeover: at(101) });
    expect(told.state.sheet?.done.map(({ step }) => step)).toEqual(['cups', 'cleared']);
    const two = setFold(atRate, [
      begun(50, 'panel'),
      entry(60, 'a', well('panel', 'cups')),
      begun(70, 'phone'),
      entry(80, 'b', well('phone', 'cleared')),
    ]);
    expect(two.state.sheet).toMatchObject({ id: 'panel', begin: at(50), alsoBegun: ['phone'] });
    expect(two.state.sheet?.done.map(({ step }) => step)).toEqual(['cups', 'cleared']);
    // a screen that is heard late began it before the PLC told it, and a step was done meanwhile
    const late = setFold(atRate, settingUp);
    const { id } = late.state.sheet!;
    late.take(changes(setLine, [entry(150, 'a', well(id, 'cups'))]));
    late.take(changes(setLine, [begun(90, 'phone'), entry(95, 'b', well('phone', 'cleared'))]));
    expect(late.state.sheet).toMatchObject({ id: 'phone', begin: at(90), changeover: at(101) });
    expect(late.state.sheet?.done.map(({ step }) => step)).toEqual(['cleared', 'cups']);
    two.take(changes(setLine, [begun(90, 'other', 'startUp'), entry(91, 'c', well('phone', 'trial'))]));
    expect(two.state.sheet).toMatchObject({ id: 'other', done: [] });
  });

  it('[SH3] a number is done when it is entered or its sensor reads the book; not well leaves a step open', () => {
    const fold = setFold(atRate, settingUp);
    const { id } = fold.state.sheet!;
    fold.take(
      changes(setLine, [
        entry(130, 'a', read('2.2', 'fold', 31)),
        [140, 'guide', 14.5],
        entry(150, 'b', well(id, 'cups', false)),
      ]),
    );
    const by = new Map(steps(fold).map((step) => [step.id, step]));
    expect(by.get('2.2')).toMatchObject({ done: { value: 31, how: 'typed' }, sensed: false });
    expect(by.get('2.1')).toMatchObject({ done: undefined, sensed: true });
    expect(by.get('cups')).toMatchObject({ done: { well: false } });
    expect(open(fold)).toBe(true);
  });

  it('[SH4] two numbers that no sensor reads are asked again when all are in, and only then', () => {
    const fold = setFold(atRate, settingUp);
    const { id } = fold.state.sheet!;
    const before = again(fold);
    expect(before.map(({ readBack }) => readBack?.asked)).toEqual([false, false]);
    fold.take(changes(setLine, allDone(id, 150)));
    expect(again(fold).map(({ id: number }) => number)).toEqual(before.map(({ id: number }) => number));
    expect(again(fold).every(({ readBack }) => readBack?.asked)).toBe(true);
    expect(again(fold).map(({ id: number }) => number)).not.toContain('2.1');
  });

  it('[SH4] one that is read back otherwise is open until somebody has entered which holds, and both stay', () => {
    const fold = setFold(atRate, settingUp);
    const { id } = fold.state.sheet!;
    fold.take(changes(setLine, allDone(id, 150)));
    const [first, second] = again(fold);
    const back = (one: typeof first, second1: number, by: number) => {
      const { number, station } = one!.adjustment;
      return entry(second1, `r${second1}`, read(number, station, one!.done!.value! + by, 'readBack'));
    };
    fold.take(changes(setLine, [back(first, 170, 1), back(second, 171, 0), approve(id, 180)]));
    fold.take(changes(setLine, backAtRate));
    expect(
      steps(fold)
        .filter((step) => !isDone(step))
        .map((step) => step.id),
    ).toEqual([first!.id]);
    expect(open(fold)).toBe(true);
    const { number, station } = first!.adjustment;
    fold.take(changes(setLine, [entry(600, 'holds', read(number, station, first!.done!.value!))]));
    expect(fold.state.sheet?.ended).toMatchObject({ how: 'done', at: at(600) });
    expect(fold.state.sheet?.done.filter(({ step }) => step.includes(number))).toMatchObject([
      { how: 'readBack', value: first!.done!.value! + 1 },
      { how: 'typed', value: first!.done!.value },
    ]);
  });

  it('[SH4] it ends when every step is done and the line is at its rate, whichever is later', () => {
    const fold = setFold(atRate, settingUp);
    const { id } = fold.state.sheet!;
    fold.take(changes(setLine, allDone(id, 150)));
    const backs = again(fold).map(({ adjustment }, n) =>
      entry(
        170 + n,
        `r${n}`,
        read(adjustment.number, adjustment.station, adjustment.book.get('sachet-48')!, 'readBack'),
      ),
    );
    fold.take(changes(setLine, [...backs, approve(id, 180)]));
    expect(open(fold)).toBe(true);
    fold.take(changes(setLine, backAtRate));
    expect(fold.state.sheet?.ended).toMatchObject({ how: 'done' });

    const late = setFold(atRate, settingUp, allDone(id, 150), backs, backAtRate);
    expect(late.state.sheet).toMatchObject({ ended: null, atRate: expect.any(Number) });
    late.take(changes(setLine, [approve(id, 600)]));
    expect(late.state.sheet?.ended).toMatchObject({ how: 'done', at: at(600) });
  });

  it('[SH4] a person may close it with steps left, and says why', () => {
    const fold = setFold(atRate, settingUp);
    const { id } = fold.state.sheet!;
    fold.take(changes(setLine, [entry(300, 'e', { kind: 'sheetEnded', sheet: id, why: 'paper sheet' })]));
    expect(fold.state.sheet?.ended).toMatchObject({ how: 'closed', why: 'paper sheet' });
    fold.take(changes(setLine, [entry(310, 'f', well(id, 'trial'))]));
    expect(fold.state.sheet?.done).toEqual([]);
  });

  it('[SH5] it is handed over with words and goes on', () => {
    const fold = setFold(atRate, settingUp);
    const { id } = fold.state.sheet!;
    fold.take(
      changes(setLine, [entry(300, 'h', { kind: 'sheetHanded', sheet: id, words: '2.2 is stiff' }, PERSON)]),
    );
    expect(fold.state.sheet).toMatchObject({ handed: [{ words: '2.2 is stiff' }], ended: null });
  });

  it('[SH6] what comes late stands where it was made: the fold is the same as if it had come in time', () => {
    const { id } = setFold(atRate, settingUp).state.sheet!;
    const kept = allDone(id, 150);
    const rows = [...atRate, ...settingUp, ...kept, ...backAtRate];
    const inTime = new Fold(setLine);
    inTime.take([...changes(setLine, rows)].sort(byLineTime));
    const late = new Fold(setLine);
    late.take(changes(setLine, [...atRate, ...settingUp, ...kept.slice(3, 4), ...backAtRate]));
    late.take(
      changes(
        setLine,
        kept.filter((_, place) => place !== 3),
      ),
    );
    expect(JSON.stringify(late.state.sheet)).toBe(JSON.stringify(inTime.state.sheet));
    expect(late.state.settings).toEqual(inTime.state.settings);
  });

  it('[SH6] what was entered before a newer number does not take its place', () => {
    const fold = setFold(atRate, settingUp, [entry(200, 'new', read('2.2', 'fold', 31.5))]);
    fold.take(changes(setLine, [entry(160, 'old', read('2.2', 'fold', 30))]));
    expect(fold.state.settings).toMatchObject([{ value: 31.5 }]);
    expect(steps(fold).find((step) => step.id === '2.2')).toMatchObject({ done: { value: 31.5 } });
  });
});
