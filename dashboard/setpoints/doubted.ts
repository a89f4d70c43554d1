import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { type NumberDoubt, numberDoubt } from '../../model/setpoints/doubt.ts';

/** What there is to ask about a number that was typed for an adjustment, if anything. */
export function doubtOf(value: number, row: SetPointRow, book: SetPointsPast): NumberDoubt | undefined {
  const { stands, learned } = row;
  const doubt = numberDoubt(value, {
    adjustment: row,
    book: row.book,
    was: stands.known === 'silent' ? undefined : stands.value,
    ranAt: book.runs === 'before' ? stands.value : undefined,
    ranWell: learned?.ranWell,
    others: book.rows,
  });
  // what runs recommend is far from no book
  return value === learned?.recommended && doubt?.kind !== 'offScale' ? undefined : doubt;
}
