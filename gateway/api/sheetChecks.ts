import type { Entry } from '../../model/entries/entries.ts';
import type { SheetEntryBody } from '../../model/entries/sheetEntries.ts';
import type { FoldState } from '../../model/fold/state.ts';
import type { Line } from '../../model/line/line.ts';
import { isNamed } from '../../model/setpoints/sheetSteps.ts';
import { wordsIn } from '../../model/words/words.ts';
import { EntryRefused } from './entrySchema.ts';

const words = wordsIn('en').gateway.noSuch;

type OfSheet = Extract<Entry, SheetEntryBody>;

/** Refuses what names a station, an adjustment, a size or a step that the line has not, and numbers that are on no scale. */
export function checkSheet(entry: OfSheet, line: Line, state: Readonly<FoldState>, kept: boolean): void {
  switch (entry.kind) {
    case 'reading':
      for (const one of [entry.value, entry.found]) checkNumber(line, entry.adjustment, one, entry.station);
      return;
    case 'asBook':
      for (const { adjustment, value } of entry.settings) checkNumber(line, adjustment, value, entry.station);
      return;
    case 'datum':
      return checkNumber(line, entry.adjustment, undefined, entry.station);
    case 'datumOffset': {
      const { adjustment, datum } = entry;
      checkNumber(line, adjustment, undefined);
      const known = state.datums.some((one) => one.adjustment === adjustment && one.datum === datum);
      return known ? undefined : refuse(words.noDatum(adjustment, datum));
    }
    case 'book':
      checkSize(line, entry.size);
      return checkNumber(line, entry.adjustment, entry.value ?? undefined);
    case 'sheetBegun':
      return checkSize(line, entry.size);
    case 'fitted':
      return checkFitted(entry, line);
    case 'looked':
      return line.stations.some(({ id }) => id === entry.station)
        ? undefined
        : refuse(words.station(entry.station));
    case 'stepDone':
    case 'stepApproved': {
      checkOpen(state, entry.sheet, kept);
      const step = line.changeoverSteps.find(({ id }) => id === entry.step);
      const fits = step && (step.kind === 'approval') === (entry.kind === 'stepApproved');
      return fits ? undefined : refuse(words.step(entry.step));
    }
    case 'sheetHanded':
    case 'sheetEnded':
      return checkOpen(state, entry.sheet, kept);
  }
}

function checkNumber(line: Line, adjustment: string, value: number | undefined, station?: string): void {
  if (station !== undefined && !line.stations.some(({ id }) => id === station))
    refuse(words.station(station));
  const found = line.adjustments.find(
    (one) => one.number === adjustment && (station === undefined || one.station === station),
  );
  if (!found) return refuse(words.adjustment(adjustment));
  const { min, max } = found;
  if (value !== undefined && (value < min || value > max))
    refuse(words.offScale(adjustment, String(value), String(min), String(max)));
}

/** It names a part that the line's file asks for; a lot only where that is the step of one. */
function checkFitted({ what, step: id }: OfSheet & { kind: 'fitted' }, line: Line): void {
  if (id === undefined) return;
  const step = line.changeoverSteps.find((one) => one.id === id);
  if (step?.kind !== 'part' || (step.lot === true) !== (what === 'lot')) refuse(words.step(id));
}

function checkSize(line: Line, size: string): void {
  if (!line.sizes.some(({ id }) => id === size)) refuse(words.size(size));
}

/** What was kept counts for the sheet that was open when it was made: the fold works it in there. The answer says where it is of none. */
function checkOpen({ sheet }: Readonly<FoldState>, id: string | undefined, kept: boolean): void {
  const known = sheet && sheet.ended === null && isNamed(sheet, id);
  if (!kept && !known) refuse(words.sheet(id ?? ''));
}

function refuse(told: { readonly what: string; readonly why: string; readonly mend: string }): never {
  throw new EntryRefused(told.what, told);
}
