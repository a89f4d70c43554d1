import { describe, expect, it } from 'vitest';
import { keepAhead } from '../../../dashboard/store/ahead.ts';
import { createStore } from '../../../dashboard/store/store.ts';
import type { Author, PersonEntryBody } from '../../../model/entries/entries.ts';
import type { LineFold } from '../../../model/fold/fold.ts';
import { type EpochMs, epochMs } from '../../../model/units/units.ts';
import { viewOf } from '../../../model/view/lineView.ts';
import { seenAt } from '../../../model/view/seen.ts';
import { type BegunHere, type KeptEntry, sheetsHere } from '../../../model/view/sheetKept.ts';
import { type SheetsAhead, sheetsAhead } from '../../../model/view/sheetsAhead.ts';
import type { NumberStep, SheetsView, SheetView } from '../../../model/view/sheetView.ts';
import { at, changes, type Rows } from '../../model/smallLine.ts';
import { atRate, entry, PERSON, setFold, setLine } from '../../model/setpoints/setLine.ts';

const author: Author = { kind: 'screen', screen: 'desk' };
const outside = { servers: [{ id: 'plc', up: true }] };
const viewAt = (fold: LineFold, second: number) => viewOf(fold, at(second), outside);
const sheetsOf = (fold: LineFold, second = 300): SheetsView => viewAt(fold, second).sheets;
/** As a screen gets it. */
const aheadOf = (fold: LineFold, second = 100) =>
  JSON.parse(JSON.stringify(sheetsAhead(seenAt(fold, at(second))))) as SheetsAhead;

const begin = (size = 'sachet-48', kind: 'size' | 'artwork' | 'startUp' = 'size'): PersonEntryBody => ({
  kind: 'sheetBegun',
  size,
  in: kind,
});
const well = (step: string): PersonEntryBody => ({ kind: 'stepDone', sheet: 'k0', step, well: true });
const read = (adjustment: string, station: string, value: number): PersonEntryBody => ({
  ...{ kind: 'reading', station, adjustment, value, how: 'typed' },
  sheet: 'k0',
});

/** Entries as a screen keeps them, made a second apart from second 200 on, the first of them named k0. */
function kept(bodies: readonly PersonEntryBody[]): readonly KeptEntry[] {
  return bodies.map((body, n) => ({ entry: { ...body, id: `k${n}`, author }, at: epochMs(at(200 + n)) }));
}
const taken = (bodies: readonly PersonEntryBody[]): Rows =>
  bodies.map((body, n) => entry(200 + n, `k${n}`, body, author));

const begun = (ahead: SheetsAhead): BegunHere => ({ id: 'k0', ahead });
const numbers = (sheet: SheetView | undefined) =>
  (sheet?.steps ?? []).filter((step): step is NumberStep => step.kind === 'number');

/** Without moments, which a screen has by its own clock, and without the one adjustment that a sensor reads. */
function comparable(sheet: SheetView | undefined): unknown {
  const steps = sheet?.steps.filter(({ id }) => id !== '2.1');
  return JSON.parse(
    JSON.stringify({ ...sheet, steps, left: 0 }, (key, value: unknown) => (key === 'at' ? undefined : value)),
  );
}

describe('a sheet that is begun on a screen while there is no network', () => {
  it.each([
    ['another size', begin(), []],
    ['another artwork', begin('sachet-20', 'artwork'), []],
    ['a start-up', begin('sachet-20', 'startUp'), []],
    ['with what was entered in it', begin(), [well('cups'), read('1.1', 'pick', 30), well('cleared')]],
  ] as const)('[SH8] has at once the steps that the gateway’s will have: %s', (_what, first, more) => {
    const fold = setFold(atRate);
    const bodies = [first, ...more];
    const here = sheetsHere(sheetsOf(fold, 190), kept(bodies), begun(aheadOf(fold)));
    fold.take(changes(setLine, taken(bodies)));
    expect(comparable(here.sheets.open)).toEqual(comparable(sheetsOf(fold).open));
    expect(here.asOf).toBe(epochMs(at(100)));
    expect(here.keptHere.size).toBe(more.length);
  });

  it('[SH8] asks for what its sensor read: nobody hears it; and has nothing where the size is not kept', () => {
    const fold = setFold(atRate, [[90, 'guide', 14.5]]);
    const open = (ahead: SheetsAhead) =>
      sheetsHere(sheetsOf(fold, 190), kept([begin()]), begun(ahead)).sheets.open;
    const ahead = aheadOf(fold);
    expect(numbers(open(ahead)).find(({ id }) => id === '2.1')).toMatchObject({
      ...{ sensor: 'silent', sensed: false, isDone: false },
      was: { value: 14.5, how: 'sensor' },
    });
    expect(open({ ...ahead, sizes: ahead.sizes.slice(0, 1) })).toBeUndefined();
    expect(sheetsHere(sheetsOf(fold, 190), kept([begin()])).sheets.open).toBeUndefined();
  });

  it('[SH8] once the gateway tells it, what was entered is in it once, and the numbers that changed are marked', () => {
    const fold = setFold(atRate);
    const ahead = aheadOf(fold);
    const book: PersonEntryBody = {
      ...{ kind: 'book', size: 'sachet-48', adjustment: '2.2', value: 32, why: 'tried' },
    };
    const bodies = [begin(), well('cups'), read('1.1', 'pick', 30)];
    fold.take(changes(setLine, [entry(150, 'approved', book, PERSON), ...taken(bodies)]));
    const here = sheetsHere(sheetsOf(fold), [], begun(ahead));
    expect(here.asOf).toBeUndefined();
    expect([...here.changed]).toEqual([['2.2', { book: 31.5, at: epochMs(at(100)) }]]);
    expect(here.sheets.open?.steps.filter(({ isDone }) => isDone).map(({ id }) => id)).toEqual([
      'cups',
      '1.1',
    ]);
    // another sheet is none of its business
    fold.take(changes(setLine, [entry(250, 'next', begin('sachet-20', 'startUp'))]));
    expect(sheetsHere(sheetsOf(fold), [], begun(ahead)).changed.size).toBe(0);
  });

  it('[SH8] is the one that is open already, where that is of the same size and kind', () => {
    const fold = setFold(atRate, [entry(150, 'panel', begin())]);
    const bodies = [begin(), well('cups')];
    const ahead = aheadOf(fold);
    const here = sheetsHere(sheetsOf(fold, 190), kept(bodies), begun(ahead));
    expect(here.sheets.open).toMatchObject({ id: 'panel', alsoBegun: ['k0'] });
    expect([...here.keptHere]).toEqual(['cups']);
    expect(here.asOf).toBeUndefined();
    fold.take(changes(setLine, taken(bodies)));
    expect(comparable(here.sheets.open)).toEqual(comparable(sheetsOf(fold).open));
  });

  it('[SH8] the sizes that are most likely begun come first, and very many are not all kept', () => {
    const ahead = aheadOf(setFold(atRate));
    expect(ahead.from).toEqual({ id: 'sachet-20', name: 'Sachet 20' });
    expect(ahead.sizes[0]?.id).toBe('sachet-20');
    const [size] = setLine.sizes;
    const many = Array.from({ length: 200 }, (_, n) => ({ ...size!, id: `size-${n}` }));
    const fold = setFold(atRate);
    const index = { ...fold.index, line: { ...setLine, sizes: [...many, ...setLine.sizes] } };
    const most = sheetsAhead({ ...seenAt(fold, at(100)), index });
    expect(most.sizes).toHaveLength(60);
    expect(most.sizes[0]?.id).toBe('sachet-20');
  });
});

describe('what a screen keeps of sheets to come', () => {
  const storage = () => {
    const rows = new Map<string, string>();
    return {
      getItem: (key: string) => rows.get(key) ?? null,
      setItem: (key: string, value: string) => void rows.set(key, value),
    };
  };
  const fold = setFold(atRate);
  const ahead = aheadOf(fold);
  const full = { trouble: 'full', mend: 'wait' };

  it('[SH8] is there when the page is loaded again, and a sheet keeps to what it was begun with', () => {
    const kept1 = storage();
    const first = createStore(0, viewAt(fold, 190));
    keepAhead(first, kept1);
    first.keepAhead(ahead);
    first.enter({ ...begin(), id: 'k0', author }, full);
    first.keepAhead({ ...ahead, at: (ahead.at + 60_000) as EpochMs });
    expect(first.get().begun).toEqual({ id: 'k0', ahead });
    const second = createStore(0);
    keepAhead(second, kept1);
    expect(second.get()).toMatchObject({ begun: { id: 'k0', ahead }, ahead: { at: ahead.at + 60_000 } });
  });

  it('[SH8] is of one line, and what cannot be read is not there', () => {
    const other = createStore(0, viewAt(fold, 190));
    other.keepAhead({ ...ahead, line: 'another' });
    other.enter({ ...begin(), id: 'k0', author }, full);
    expect(other.get().begun).toBeUndefined();
    for (const broken of ['{', '[]', '{"ahead":{"line":3}}', 'null']) {
      const store = createStore(0);
      keepAhead(store, { getItem: () => broken, setItem: () => {} });
      expect(store.get().ahead).toBeUndefined();
    }
  });
});
