import { type NumberDoubt, numberDoubt } from '../../model/setpoints/doubt.ts';
import { stepsApart } from '../../model/setpoints/standing.ts';
import { words } from '../app/words.ts';
import type { NumberStep, SheetStep, SheetView } from '../../model/view/sheetView.ts';

/** It is the same sheet for whoever is in it when the gateway tells it under another name than it was begun here. */
export function sheetKey({ kind, size }: Pick<SheetView, 'kind' | 'size'>): string {
  return `${kind} ${size.id}`;
}

/** Its sensor says where it stands; not while the gateway is silent, as what it read last may hold no more: its scale is read then. */
export function isSensed({ sensor }: Pick<NumberStep, 'sensor'>, isGone: boolean): boolean {
  return sensor === 'reads' && !isGone;
}

/** The number is to be read once more: then what was entered before is nowhere shown. */
export function isReadAgain(step: SheetStep): boolean {
  return step.kind === 'number' && step.readBack?.asked === true && step.readBack.done === undefined;
}

/** The step that is open next, in walking order after this one, then from the first on; this one itself where no other is. */
export function openAfter(steps: readonly SheetStep[], id: string | undefined): SheetStep | undefined {
  const place = steps.findIndex((step) => step.id === id);
  const order = place < 0 ? steps : [...steps.slice(place + 1), ...steps.slice(0, place + 1)];
  return order.find(({ isDone }) => !isDone);
}

/** What there is to ask about a number that was typed. What is read back is asked about by its scale alone: the rest would tell. */
export function doubtOf(value: number, step: NumberStep, sheet: SheetView): NumberDoubt | undefined {
  const others = sheet.steps.flatMap((one) =>
    one.kind === 'number' ? [{ number: one.id, book: one.book }] : [],
  );
  const adjustment = { number: step.id, min: step.min, max: step.max, decimals: step.decimals };
  if (!isReadAgain(step))
    return numberDoubt(value, {
      ...{ adjustment, others, book: step.book },
      ...{ was: step.was?.value, ranAt: step.ranAt?.value },
    });
  return numberDoubt(value, { adjustment, others: [], book: undefined, was: undefined, ranAt: undefined });
}

/** [SP10] It is not the book's number, nor what was said last in this sheet: whoever reads it leaves it there, or moves it. */
export function isOffBook(value: number, { book, done, decimals }: NumberStep): boolean {
  if (book === undefined || stepsApart(value, book, decimals) === 0) return false;
  return done?.value === undefined || stepsApart(value, done.value, decimals) !== 0;
}

/** [SP10] What may have come between the number that was entered and the one that was read back, and where it stands then. */
export function readBackWays(
  step: NumberStep,
): readonly { readonly says: readonly string[]; readonly value: number; readonly found: number }[] {
  const first = step.done?.value;
  const again = step.readBack?.done?.value;
  if (first === undefined || again === undefined) return [];
  const ways = words.screen.sheet.readBack.ways(first, again, step);
  return [
    { says: ways.stays, value: again, found: again },
    { says: ways.moved, value: first, found: again },
    { says: ways.misread, value: first, found: first },
  ];
}

/** Numbers of a station that one tap confirms as the book's: open ones that no sensor reads. */
export function asBookOf(
  step: NumberStep,
  sheet: SheetView,
): readonly (NumberStep & { readonly book: number })[] {
  return sheet.steps.flatMap((one) =>
    one.kind === 'number' &&
    one.station?.id === step.station?.id &&
    one.done === undefined &&
    !one.sensed &&
    one.sensor !== 'reads' &&
    one.book !== undefined
      ? [{ ...one, book: one.book }]
      : [],
  );
}

/** A number as it stands in the field, one mark of its scale on; undefined where nobody knows what it goes on from. */
export function stepped(typed: number | undefined, step: NumberStep, marks: 1 | -1): number | undefined {
  // where nobody hears its sensor, what that read last is no beginning
  const now = step.sensor === 'reads' ? undefined : step.now?.value;
  const from = typed ?? now ?? step.was?.value;
  if (from === undefined) return undefined;
  const scale = 10 ** step.decimals;
  const next = (Math.round(from * scale) + marks) / scale;
  return next < step.min || next > step.max ? undefined : next;
}
