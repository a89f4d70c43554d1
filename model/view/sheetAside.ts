import type { Entry } from '../entries/entries.ts';
import type { SheetRecord } from '../fold/settingRecords.ts';
import { isNamed } from '../setpoints/sheetSteps.ts';
import type { Seen } from './seen.ts';
import { type EndedSheet, endedView } from './sheetView.ts';

/** [SH10] An entry of a sheet is on the tape, and is no step of the one that is open. */
export interface Aside {
  /** What became of the sheet that it is of; undefined where that is not known any more, or where none was open. */
  readonly sheet: EndedSheet | undefined;
}

/** Of an entry that is on the tape: undefined where it is a step of the newest sheet, or of none by what it says. */
export function asideOf(seen: Pick<Seen, 'index' | 'state'>, entry: Entry): Aside | undefined {
  const of = sheetOf(entry);
  if (of === undefined) return undefined;
  const { sheet, sheetsBefore } = seen.state;
  if (sheet && isNamed(sheet, of.sheet)) {
    if (sheet.ended === null || isIn(sheet, entry)) return undefined;
    return { sheet: endedView(seen, { ...sheet, by: null }) };
  }
  const before = of.sheet === undefined ? undefined : sheetsBefore.findLast((one) => isNamed(one, of.sheet));
  return { sheet: before && endedView(seen, before) };
}

/** The sheet that an entry is meant for, by its name there; undefined in it: whichever is open. */
function sheetOf(entry: Entry): { readonly sheet: string | undefined } | undefined {
  switch (entry.kind) {
    case 'sheetBegun':
      return { sheet: entry.id };
    case 'stepDone':
    case 'stepApproved':
    case 'sheetHanded':
    case 'sheetEnded':
      return { sheet: entry.sheet };
    case 'reading':
    case 'asBook':
      return entry.sheet === undefined ? undefined : { sheet: entry.sheet };
    case 'fitted':
      return entry.step === undefined || entry.sheet === undefined ? undefined : { sheet: entry.sheet };
    default:
      return undefined;
  }
}

/** It was done in the sheet before that ended, or ended it, or is the very beginning of it. */
function isIn({ done }: SheetRecord, { kind, id }: Entry): boolean {
  return kind === 'sheetBegun' || kind === 'sheetEnded' || done.some((one) => one.entry === id);
}
