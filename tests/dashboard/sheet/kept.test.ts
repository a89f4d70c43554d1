import { describe, expect, it } from 'vitest';
import type { Author, PersonEntryBody } from '../../../model/entries/entries.ts';
import type { LineFold } from '../../../model/fold/fold.ts';
import type { EpochMs } from '../../../model/units/units.ts';
import { viewOf } from '../../../model/view/lineView.ts';
import { type KeptEntry, sheetsHere } from '../../../model/view/sheetKept.ts';
import type { NumberStep, SheetsView, SheetView } from '../../../model/view/sheetView.ts';
import { at, changes } from '../../model/smallLine.ts';
import { atRate, entry, setFold, setLine, settingUp } from '../../model/setpoints/setLine.ts';

const author: Author = { kind: 'screen', screen: 'desk' };
const sheetsOf = (fold: LineFold, second = 300): SheetsView =>
  viewOf(fold, at(second), { servers: [{ id: 'plc', up: true }] }).sheets;

/** Entries as a screen keeps them, made a second apart from second 200 on. */
function kept(bodies: readonly PersonEntryBody[]): readonly KeptEntry[] {
  return bodies.map((body, n) => ({
    entry: { ...body, id: `k${n}`, author },
    at: (sheetsOfStart + n * 1000) as EpochMs,
  }));
}
const sheetsOfStart = sheetsOf(setFold(atRate, settingUp)).open!.begun + 80_000;

/** The same entries on the tape. */
const taken = (fold: LineFold, bodies: readonly PersonEntryBody[]) =>
  fold.take(
    changes(
      setLine,
      bodies.map((body, n) => entry(200 + n, `k${n}`, body, author)),
    ),
  );

/** Without moments: a screen's clock is its own. */
function timeless(sheet: SheetView | undefined): unknown {
  return JSON.parse(JSON.stringify(sheet, (key, value: unknown) => (key === 'at' ? undefined : value)));
}

const read = (adjustment: string, station: string, value: number, how: 'typed' | 'readBack' = 'typed') =>
  ({ kind: 'reading', station, adjustment, value, how }) as const;
const well = (step: string, is = true, words?: string) =>
  ({ kind: 'stepDone', step, well: is, ...(words === undefined ? {} : { words }) }) as const;
const asBook: PersonEntryBody = {
  kind: 'asBook',
  station: 'fold',
  settings: [{ adjustment: '2.2', value: 31.5 }],
};
const all: readonly PersonEntryBody[] = [
  well('cups', false, 'not here'),
  well('cups'),
  read('1.1', 'pick', 30),
  asBook,
  read('2.1', 'fold', 12),
  read('3.1', 'discharge', 40),
];

describe('what is kept on a screen', () => {
  it.each([
    ['nothing', []],
    ['a part that is not there', all.slice(0, 1)],
    ['a part that is named', [{ kind: 'fitted', what: 'parts', name: 'K2', step: 'cups' }] as const],
    ['a part, and a number off the book', [...all.slice(0, 2), read('2.2', 'fold', 28)]],
    ['all numbers', all],
    ['all numbers, one of them twice', [...all, read('1.1', 'pick', 31)]],
    ['an approval', [{ kind: 'stepApproved', step: 'first', well: true } as const]],
  ] as const)('[SH6] shows as the gateway will once it comes: %s', (_what, bodies) => {
    const here = setFold(atRate, settingUp);
    const shown = sheetsHere(sheetsOf(here), kept(bodies)).sheets;
    taken(here, bodies);
    expect(timeless(shown.open)).toEqual(timeless(sheetsOf(here).open));
  });

  it('[SH4] shows read-backs as the gateway will: one that agrees is done, one that differs is asked about', () => {
    const fold = setFold(atRate, settingUp);
    const asked = (sheets: SheetsView) =>
      sheets.open!.steps.filter(
        (step): step is NumberStep => step.kind === 'number' && step.readBack?.asked === true,
      );
    const before = sheetsHere(sheetsOf(fold), kept(all)).sheets;
    const [first, second] = asked(before);
    expect(asked(before)).toHaveLength(2);
    const again = [
      ...all,
      read(first!.id, first!.station!.id, first!.done!.value!, 'readBack'),
      read(second!.id, second!.station!.id, second!.done!.value! + 1, 'readBack'),
    ];
    const shown = sheetsHere(sheetsOf(fold), kept(again)).sheets;
    const step = (sheets: SheetsView, id: string) => sheets.open!.steps.find((one) => one.id === id);
    expect(step(shown, first!.id)).toMatchObject({ isDone: true });
    expect(step(shown, second!.id)).toMatchObject({ isDone: false, readBack: { differs: true } });
    taken(fold, again);
    expect(timeless(shown.open)).toEqual(timeless(sheetsOf(fold).open));
  });

  it('names the steps that stand so by it alone, and leaves those of another sheet', () => {
    const sheets = sheetsOf(setFold(atRate, settingUp));
    const { keptHere, sheets: shown } = sheetsHere(
      sheets,
      kept([
        well('cups'),
        asBook,
        { ...read('1.1', 'pick', 30), sheet: 'another' },
        { kind: 'note', words: 'stiff' },
      ]),
    );
    expect([...keptHere]).toEqual(['cups', '2.2']);
    expect(shown.open?.left).toBe(sheets.open!.left - 2);
    expect(shown.open?.steps.find(({ id }) => id === '1.1')?.isDone).toBe(false);
  });

  it('[SH5] shows a hand-over, and changes nothing where no sheet is open', () => {
    const sheets = sheetsOf(setFold(atRate, settingUp));
    const handed = { kind: 'sheetHanded', sheet: sheets.open!.id, words: '2.2 is stiff' } as const;
    expect(sheetsHere(sheets, kept([handed])).sheets.open?.handed).toMatchObject([{ words: '2.2 is stiff' }]);
    const none = { ...sheets, open: undefined };
    expect(sheetsHere(none, kept(all))).toMatchObject({ sheets: none, keptHere: new Set() });
  });
});
