import { useState } from 'react';
import type { NumberDoubt } from '../../model/setpoints/doubt.ts';
import { stepsApart } from '../../model/setpoints/standing.ts';
import type { NumberStep, SheetView } from '../../model/view/sheetView.ts';
import { numberTyped } from '../setpoints/typed.ts';
import { words } from '../app/words.ts';
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

export function useDraft(step: NumberStep, sheet: SheetView, acts: SheetActs, done: () => void): Draft {
  const [typed, write] = useState('');
  const [asking, ask] = useState<Asking>({ kind: 'rest' });
  const again = isReadAgain(step);
  const type = (next: string) => {
    write(next);
    ask({ kind: 'rest' });
  };
  const stand = (value: number, found: number) => {
    acts.read(step, value, 'typed', found);
    type('');
    done();
  };
  const enter = (value: number) => {
    const { book } = step;
    if (!again && book !== undefined && isOffBook(value, step)) return ask({ kind: 'offBook', value, book });
    acts.read(step, value, again ? 'readBack' : 'typed');
    type('');
    // where the two do not agree it is asked here which holds
    const before = step.done?.value;
    if (!again || before === undefined || stepsApart(value, before, step.decimals) === 0) done();
  };
  const take = () => {
    const value = numberTyped(typed);
    if (value === undefined) return ask({ kind: 'noNumber' });
    const doubt = doubtOf(value, step, sheet);
    if (doubt) ask({ kind: 'doubt', value, doubt });
    else enter(value);
  };
  return {
    typed,
    type,
    asking,
    take,
    enter,
    stand,
    again: () => ask({ kind: 'rest' }),
    on: (marks) => stepped(numberTyped(typed), step, marks),
  };
}

/** As the field has it: the number with the decimals of its scale. */
export function fieldText(value: number, step: NumberStep): string {
  return words.screen.sheet.number(value, step).replaceAll(',', '');
}
