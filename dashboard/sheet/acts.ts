import type { ReadHow } from '../../model/entries/sheetEntries.ts';
import type { NumberStep, OtherStep, SheetView } from '../../model/view/sheetView.ts';
import { useEnter } from '../store/use.tsx';
import { asBookOf } from './steps.ts';

/** What can be entered in a sheet. */
export interface SheetActs {
  /** `found`: what its scale read when it was looked at. */
  readonly read: (step: NumberStep, value: number, how: ReadHow, found?: number) => void;
  readonly asBook: (step: NumberStep) => void;
  readonly done: (step: OtherStep, well: boolean, words?: string) => void;
  readonly hand: (words: string | undefined) => void;
  readonly close: (why: string) => void;
}

export function useSheetActs(sheet: SheetView): SheetActs {
  const enter = useEnter();
  return {
    read: ({ id, station }, value, how, found) =>
      enter({
        ...{ kind: 'reading', station: station?.id ?? '', adjustment: id, value, how },
        ...(found === undefined ? {} : { found }),
        sheet: sheet.id,
      }),
    asBook: (step) =>
      enter({
        kind: 'asBook',
        station: step.station?.id ?? '',
        settings: asBookOf(step, sheet).map(({ id, book }) => ({ adjustment: id, value: book })),
        sheet: sheet.id,
      }),
    done: (step, well, words) =>
      enter({
        kind: step.kind === 'approval' ? 'stepApproved' : 'stepDone',
        ...{ sheet: sheet.id, step: step.id, well },
        ...(words === undefined ? {} : { words }),
      }),
    hand: (words) =>
      enter({ kind: 'sheetHanded', sheet: sheet.id, ...(words === undefined ? {} : { words }) }),
    close: (why) => enter({ kind: 'sheetEnded', sheet: sheet.id, why }),
  };
}
