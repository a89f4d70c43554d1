import { isNumberDone, readsOtherwise } from '../setpoints/sheetSteps.ts';
import type { EpochMs } from '../units/units.ts';
import type { NewEntry } from './protocol.ts';
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
}

/**
 * [SH6] Works what is kept on a screen into the sheet that is open, oldest first, as the gateway will once it comes. What
 * names another sheet changes nothing here. A sheet that was begun without the gateway has no steps yet: they are the gateway's.
 */
export function sheetsHere(sheets: SheetsView, kept: readonly KeptEntry[]): SheetsHere {
  const { open } = sheets;
  const keptHere = new Set<string>();
  if (!open || kept.length === 0) return { sheets, keptHere };
  let sheet = open;
  for (const one of kept) {
    for (const id of stepsOf(one, open.id)) keptHere.add(id);
    sheet = withEntry(sheet, one);
  }
  return { sheets: { ...sheets, open: settled(sheet) }, keptHere };
}

/** Which steps an entry is of. */
function stepsOf({ entry }: KeptEntry, sheet: string): readonly string[] {
  if ('sheet' in entry && entry.sheet !== undefined && entry.sheet !== sheet) return [];
  switch (entry.kind) {
    case 'reading':
      return [entry.adjustment];
    case 'asBook':
      return entry.settings.map(({ adjustment }) => adjustment);
    case 'stepDone':
    case 'stepApproved':
      return [entry.step];
    default:
      return [];
  }
}

function withEntry(sheet: SheetView, one: KeptEntry): SheetView {
  const { entry, at } = one;
  if (entry.kind === 'sheetHanded' && entry.sheet === sheet.id)
    return { ...sheet, handed: [...sheet.handed, { at, author: entry.author, words: entry.words }] };
  const ids = stepsOf(one, sheet.id);
  if (ids.length === 0) return sheet;
  return { ...sheet, steps: sheet.steps.map((step) => (ids.includes(step.id) ? withStep(step, one) : step)) };
}

function withStep(step: SheetStep, { entry, at }: KeptEntry): SheetStep {
  const head = { at, author: entry.author, entry: entry.id };
  if (entry.kind === 'stepDone' || entry.kind === 'stepApproved') {
    if (step.kind === 'number') return step;
    const { well, words } = entry;
    return { ...step, done: { ...head, well, words, value: undefined, how: undefined } };
  }
  if (step.kind !== 'number') return step;
  const said = { ...head, well: true, words: undefined };
  if (entry.kind === 'asBook') {
    const value = entry.settings.find(({ adjustment }) => adjustment === step.id)?.value;
    return withNumber(step, { ...said, value, how: 'confirmed' });
  }
  return entry.kind === 'reading' ? withNumber(step, { ...said, value: entry.value, how: entry.how }) : step;
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
