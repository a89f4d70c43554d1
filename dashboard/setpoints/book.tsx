import { type ReactNode, useEffect, useRef } from 'react';
import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton } from '../marks/symbols.tsx';
import type { Goes } from './address.ts';
import { byStation } from './byStation.ts';
import { BookKey } from './key.tsx';
import { BookRow } from './row.tsx';
import { spreadTop } from './spread.tsx';

const { past } = words.screen;
const said = past.setPoints;

/** The book of a size, station by station in the order of the line. */
export function Book({
  book,
  rows,
  goes,
  opened,
}: {
  readonly book: SetPointsPast;
  /** Of those the ones that are wanted. */
  readonly rows: readonly SetPointRow[];
  readonly goes: Goes;
  /** Which one was opened last. */
  readonly opened: string | undefined;
}) {
  const table = useRef<HTMLTableElement>(null);
  useEffect(() => {
    // as it is built, and never again while it is looked at
    if (opened !== undefined) table.current?.querySelector<HTMLElement>(`[id="row-${opened}"]`)?.focus();
  }, [opened]);
  const most = spreadTop(book.rows.map(({ learned }) => learned?.rejects));
  if (rows.length === 0)
    return (
      <section className="sheet">
        <p>{book.rows.length === 0 ? said.noAdjustments : said.noneDiffers}</p>
      </section>
    );
  return (
    <section className="sheet book">
      <table ref={table}>
        <Head book={book} most={most} />
        {byStation(rows).map((of) => (
          <tbody key={of[0]!.station.id}>
            {of.map((row, place) => (
              <BookRow key={row.number} row={row} book={book} most={most} goes={goes}>
                {place === 0 && <Station of={of} />}
              </BookRow>
            ))}
          </tbody>
        ))}
      </table>
      <BookKey />
      <p className="foot">{said.foot}</p>
    </section>
  );
}

function Head({ book, most }: { readonly book: SetPointsPast; readonly most: number }) {
  const { columns } = said;
  const column = (text: ReactNode, className = '') => (
    <th scope="col" className={className}>
      {text}
    </th>
  );
  return (
    <thead>
      <tr>
        {column(columns.station)}
        {column(columns.adjustment)}
        {column(<Figure of="adjustmentBook">{columns.book}</Figure>, 'n')}
        {column(<Figure of="setPointLikely">{columns.scale}</Figure>, 'scale1')}
        {column(<Figure of="adjustmentReading">{columns.stands[book.runs]}</Figure>, 'n')}
        {column(<Figure of="adjustmentOff">{columns.differs}</Figure>)}
        {column(<Figure of="setPointRejects">{columns.rejects(most)}</Figure>)}
        {column(<Figure of="setPointRuns">{columns.sure}</Figure>)}
      </tr>
    </thead>
  );
}

function Station({ of }: { readonly of: readonly SetPointRow[] }) {
  const [first] = of;
  if (!first) return null;
  const { number, name } = first.station;
  return (
    <th scope="rowgroup" rowSpan={of.length} className="bookstation">
      <Carton drawing={first.drawing} width={of.length > 1 ? 76 : 44} className="small" />
      <span>
        <b>{number}</b> {name}
      </span>
    </th>
  );
}
