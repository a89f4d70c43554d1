import { isNamed, isNumberDone, readsOtherwise } from '../setpoints/sheetSteps.ts';
import type { EpochMs } from '../units/units.ts';
import type { NewEntry } from './protocol.ts';
import { type SheetsAhead, sheetBegunHere } from './sheetsAhead.ts';
import {
  type NumberStep,
  type SheetStep,
  type SheetsView,
  type SheetView,
  type StepDone,
  wayOf,
} from './sheetView.ts';

/** An entry that is still on a screen, and when it was made there. */
export interface KeptEntry {
  readonly entry: NewEntry;
  readonly at: EpochMs;
}

/** What a screen shows of sheets: as the gateway told them last, with what is kept here worked in. */
export interface SheetsHere {
  readonly sheets: SheetsView;
  /** Steps that stand so only by what is kept here. */
  readonly keptHere: ReadonlySet<string>;
  /** [SH8] The open sheet was begun here, and the gateway has not told it: its numbers are from this moment. */
  readonly asOf: EpochMs | undefined;
  /** [SH8] The open sheet was begun here, and the book says other numbers of these than the screen showed then. */
  readonly changed: ReadonlyMap<string, BookThen>;
}

/** A number as it stood in the book that a screen had kept. */
export interface BookThen {
  readonly book: number | undefined;
  readonly at: EpochMs;
}

/** What a screen knew of sheets when it began one; the sheet's name is the entry's. */
export interface BegunHere {
  readonly id: string;
  readonly ahead: SheetsAhead;
}

const NONE: Omit<SheetsHere, 'sheets'> = { keptHere: new Set(), asOf: undefined, changed: new Map() };

/**
 * [SH6] Works what is kept on a screen into the sheet that is open, oldest first, as the gateway will once it comes. What
 * names another sheet changes nothing here. [SH8] One that is begun here has the steps and numbers that were kept.
 */
export function sheetsHere(sheets: SheetsView, kept: readonly KeptEntry[], begun?: BegunHere): SheetsHere {
  let sheet = sheets.open;
  let isOwn = false;
  let keptHere = new Set<string>();
  for (const one of kept) {
    if (one.entry.kind === 'sheetBegun') {
      const next = begunHere(sheet, one, begun);
      if (next !== undefined && next.id !== sheet?.id) {
        keptHere = new Set();
        isOwn = true;
      }
      sheet = next ?? sheet;
    } else if (sheet) {
      for (const id of stepsOf(one, sheet)) keptHere.add(id);
      sheet = withEntry(sheet, one);
    }
  }
  if (!sheet) return { ...NONE, sheets };
  const open = kept.length === 0 ? sheet : settled(sheet);
  return {
    sheets: { ...sheets, open },
    keptHere,
    asOf: isOwn ? begun?.ahead.at : undefined,
    changed: isOwn || !begun || !isNamed(open, begun.id) ? NONE.changed : changedSince(open, begun.ahead),
  };
}

/** The sheet after one was begun here: the same one under one more name where it is open already, unless that began later. */
function begunHere(
  open: SheetView | undefined,
  { entry, at }: KeptEntry,
  begun: BegunHere | undefined,
): SheetView | undefined {
  if (entry.kind !== 'sheetBegun') return undefined;
  if (open && open.size.id === entry.size && open.kind === entry.in)
    return { ...open, alsoBegun: [...open.alsoBegun, entry.id] };
  if (begun?.id !== entry.id || (open && open.begun > at)) return undefined;
  return sheetBegunHere(begun.ahead, { ...entry, at });
}

function changedSince({ size, steps }: SheetView, { at, sizes }: SheetsAhead): ReadonlyMap<string, BookThen> {
  const then = new Map(
    sizes.find(({ id }) => id === size.id)?.numbers.map(({ adjustment, book }) => [adjustment, book]),
  );
  return new Map(
    steps.flatMap((step) =>
      step.kind === 'number' && then.has(step.id) && then.get(step.id) !== step.book
        ? [[step.id, { book: then.get(step.id), at }]]
        : [],
    ),
  );
}

/** Which steps an entry is of. */
function stepsOf({ entry }: KeptEntry, sheet: SheetView): readonly string[] {
  if ('sheet' in entry && !isNamed(sheet, entry.sheet)) return [];
  switch (entry.kind) {
    case 'reading':
      return [entry.adjustment];
    case 'asBook':
      return entry.settings.map(({ adjustment }) => adjustment);
    case 'stepDone':
    case 'stepApproved':
      return [entry.step];
    case 'fitted':
      return entry.step === undefined ? [] : [entry.step];
    default:
      return [];
  }
}

function withEntry(sheet: SheetView, one: KeptEntry): SheetView {
  const { entry, at } = one;
  if (entry.kind === 'sheetHanded' && isNamed(sheet, entry.sheet))
    return { ...sheet, handed: [...sheet.handed, { at, author: entry.author, words: entry.words }] };
  const ids = stepsOf(one, sheet);
  if (ids.length === 0) return sheet;
  return { ...sheet, steps: sheet.steps.map((step) => (ids.includes(step.id) ? withStep(step, one) : step)) };
}

function withStep(step: SheetStep, { entry, at }: KeptEntry): SheetStep {
  const head = { at, author: entry.author, entry: entry.id };
  if (entry.kind === 'stepDone' || entry.kind === 'stepApproved' || entry.kind === 'fitted') {
    if (step.kind === 'number') return step;
    const { well, words } = entry.kind === 'fitted' ? { well: true, words: entry.name } : entry;
    return { ...step, done: { ...head, well, words, value: undefined, how: undefined, found: undefined } };
  }
  if (step.kind !== 'number') return step;
  const said = { ...head, well: true, words: undefined, found: undefined };
  if (entry.kind === 'asBook') {
    const value = entry.settings.find(({ adjustment }) => adjustment === step.id)?.value;
    return withNumber(step, { ...said, value, how: 'confirmed' });
  }
  if (entry.kind !== 'reading') return step;
  const { value, how, found } = entry;
  return withNumber(step, { ...said, value, how, found });
}

/** A number that was said is where it stands, unless a sensor says it. */
function withNumber(step: NumberStep, said: StepDone): NumberStep {
  const { value, how, at } = said;
  const read = step.sensor === 'reads' || step.sensor === 'uncertain';
  const now =
    read || value === undefined || how === undefined
      ? {}
      : {
          now: { value, how, at },
          way: step.book === undefined ? step.way : wayOf(value, step.book, step.decimals, step.wheel),
        };
  if (how === 'readBack')
    return { ...step, ...now, readBack: { asked: true, differs: false, ...step.readBack, done: said } };
  return { ...step, ...now, done: said, sensed: false };
}

/** What follows from all of them together: whether numbers are to be read back, and what is left. */
function settled(sheet: SheetView): SheetView {
  const numbers = sheet.steps.filter((step) => step.kind === 'number');
  const asked = numbers.every(({ done, sensed }) => done !== undefined || sensed);
  const steps = sheet.steps.map((step): SheetStep => {
    if (step.kind !== 'number') return { ...step, isDone: step.done?.well === true };
    const again = step.readBack && { ...step.readBack, asked, differs: readsOtherwise(step) };
    const known = { ...step, readBack: again };
    return { ...known, isDone: isNumberDone(known) };
  });
  return { ...sheet, steps, left: steps.filter(({ isDone }) => !isDone).length };
}
