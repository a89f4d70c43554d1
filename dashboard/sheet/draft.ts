import type { NumberDoubt } from '../../model/setpoints/doubt.ts';
import { isNamed } from '../../model/setpoints/sheetSteps.ts';
import { stepsApart } from '../../model/setpoints/standing.ts';
import type { NumberStep, SheetView } from '../../model/view/sheetView.ts';
import { numberTyped } from '../setpoints/typed.ts';
import { words } from '../app/words.ts';
import { useDraft } from '../store/drafts.ts';
import { useHeld } from '../store/use.tsx';
import type { SheetActs } from './acts.ts';
import { doubtOf, isOffBook, isReadAgain, stepped } from './steps.ts';

export type Asking =
  | { readonly kind: 'rest' | 'noNumber' }
  | { readonly kind: 'doubt'; readonly value: number; readonly doubt: NumberDoubt }
  /** [SP10] Whether it stays there or was moved to the book's number. */
  | { readonly kind: 'offBook'; readonly value: number; readonly book: number };

/** A number while it is typed; what is unlikely is asked about before it is entered, and never changed silently. */
export interface Draft {
  readonly typed: string;
  readonly type: (typed: string) => void;
  readonly asking: Asking;
  /** Enters it, or asks. */
  readonly take: () => void;
  /** Goes by it as a person said; asks where it is not the book's. */
  readonly enter: (value: number) => void;
  /** Enters where it stands, and what its scale read before. */
  readonly stand: (value: number, found: number) => void;
  readonly again: () => void;
  /** The number one mark of the scale on; undefined where there is none. */
  readonly on: (marks: 1 | -1) => number | undefined;
}

/** As it is kept beside the page: what was typed, what is asked about, and of which number. */
export type NumberFields = { readonly typed: string; readonly asks: Asking['kind']; readonly value: string };

const NOTHING_TYPED: NumberFields = { typed: '', asks: 'rest', value: '' };

export function useNumberDraft(step: NumberStep, sheet: SheetView, acts: SheetActs, done: () => void): Draft {
  const own = useOwnName(sheet);
  const again = isReadAgain(step);
  const { fields, change, drop } = useDraft((line) => numberOf(line, own, step), NOTHING_TYPED);
  const { typed } = fields;
  const type = (next: string) => (next === '' ? drop() : change({ ...NOTHING_TYPED, typed: next }));
  const stand = (value: number, found: number) => {
    acts.read(step, value, 'typed', found);
    drop();
    done();
  };
  const enter = (value: number) => {
    if (!again && isOffBook(value, step)) return change({ asks: 'offBook', value: String(value) });
    acts.read(step, value, again ? 'readBack' : 'typed');
    drop();
    // where the two do not agree it is asked here which holds
    const before = step.done?.value;
    if (!again || before === undefined || stepsApart(value, before, step.decimals) === 0) done();
  };
  const take = () => {
    const value = numberTyped(typed);
    if (value === undefined) return change({ asks: 'noNumber' });
    if (doubtOf(value, step, sheet)) change({ asks: 'doubt', value: String(value) });
    else enter(value);
  };
  return {
    typed,
    type,
    asking: askingOf(fields, step, sheet),
    take,
    enter,
    stand,
    again: () => change({ asks: 'rest' }),
    on: (marks) => stepped(numberTyped(typed), step, marks),
  };
}

/** What is asked about what was typed, by what is known of its step now: where nothing is to be asked any more, nothing. */
export function askingOf({ asks, value: kept }: NumberFields, step: NumberStep, sheet: SheetView): Asking {
  if (asks === 'noNumber') return { kind: 'noNumber' };
  const value = numberTyped(kept);
  if (value === undefined) return { kind: 'rest' };
  const doubt = asks === 'doubt' ? doubtOf(value, step, sheet) : undefined;
  if (doubt) return { kind: 'doubt', value, doubt };
  const { book } = step;
  if (asks === 'offBook' && book !== undefined && isOffBook(value, step))
    return { kind: 'offBook', value, book };
  return { kind: 'rest' };
}

/** The name under which this screen knows a sheet from first to last: its own, where it began it without having heard of it. */
function useOwnName(sheet: SheetView): string {
  const begun = useHeld((held) => held.begun?.id);
  return begun !== undefined && isNamed(sheet, begun) ? begun : sheet.id;
}

/** What is read back is another draft than what was entered first. */
function numberOf(line: string, sheet: string, step: NumberStep): string {
  return `number ${line} ${sheet} ${step.id}${isReadAgain(step) ? ' again' : ''}`;
}

/** As the field has it: the number with the decimals of its scale. */
export function fieldText(value: number, step: NumberStep): string {
  return words.screen.sheet.number(value, step).replaceAll(',', '');
}
