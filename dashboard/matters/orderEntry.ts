import type { PersonEntryBody } from '../../model/entries/entries.ts';
import type { OrderView } from '../../model/view/view.ts';

/** A listed order chosen to run; `crew` people load it from its beginning on. */
export function orderEntry(
  { number, sizeId, blend, quantity }: OrderView,
  starts: 'now' | 'whenEnded',
  crew?: number,
): PersonEntryBody {
  return {
    kind: 'order',
    number,
    size: sizeId,
    blend,
    quantity,
    starts,
    ...(crew === undefined ? {} : { crew }),
  };
}
