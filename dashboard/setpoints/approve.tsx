import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Typing } from '../entries/fields.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { Rich } from '../type/line.tsx';
import { useEntering } from './entering.ts';
import { NumberForm } from './numberForm.tsx';

const said = words.screen.past.setPoints;
const { approve } = said.one;

/** An engineer takes a number into the book, the recommended one or another, or takes back what was approved. */
export function Approve({
  row,
  book,
  again,
}: {
  readonly row: SetPointRow;
  readonly book: SetPointsPast;
  readonly again: () => void;
}) {
  const enter = useEntering(again);
  const { size } = book;
  const recommended = row.learned?.recommended;
  const into = (value: number | null, why: string) =>
    enter({
      kind: 'book',
      size: size.id,
      adjustment: row.number,
      value,
      why,
      seen: said.one.seen(row, size.name).slice(0, ENTRY_MOST.words),
    });
  return (
    <section className="sheet approve1 noprint">
      <h2>{approve.title}</h2>
      <p>
        <Rich
          text={approve.lead(row, size.name)}
          of={row.book === undefined ? [] : [['adjustmentBook', said.number(row.book, row)]]}
        />
      </p>
      <NeedsLogIn act="book" />
      <NumberForm
        row={row}
        book={book}
        label={approve.number}
        why={approve.why}
        first={recommended === undefined ? '' : said.number(recommended, row)}
        submit={(typed) => (typed === '' ? approve.typeFirst : approve.take(typed))}
        enter={into}
      />
      <p className="foot">{approve.stores}</p>
      {row.approved && <TakeBack row={row} enter={(why) => into(null, why)} />}
    </section>
  );
}

function TakeBack({ row, enter }: { readonly row: SetPointRow; readonly enter: (why: string) => void }) {
  const [why, because] = useState('');
  return (
    <details>
      <summary>{approve.back}</summary>
      <p>
        <Rich
          text={approve.backLead(row)}
          of={
            row.approved?.value === undefined
              ? []
              : [['adjustmentBook', said.number(row.approved.value, row)]]
          }
        />
      </p>
      <form
        className="fields"
        onSubmit={(event) => {
          event.preventDefault();
          enter(why.trim());
          because('');
        }}
      >
        <Typing label={approve.why} value={why} most={ENTRY_MOST.words} type={because} />
        <button type="submit" className="btn plain" disabled={why.trim() === ''}>
          {approve.back}
        </button>
      </form>
    </details>
  );
}
