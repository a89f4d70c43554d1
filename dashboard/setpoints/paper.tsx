import type { CSSProperties } from 'react';
import { MODEL_VERSION } from '../../model/fold/version.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton, Mark } from '../marks/symbols.tsx';
import { Frame } from '../past/frame.tsx';
import { useOnePage } from '../report/onePage.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { pathOf } from './address.ts';
import { byStation } from './byStation.ts';
import { learnedNumbers } from './numbers.ts';
import type { SetPointsShown } from './setPoints.tsx';

const said = words.screen.past.setPoints;
const { paper } = said;

/** The sheet of a size to hang at the machine: how it looks, and the keys to print it. */
export function SetPointPaper({
  overview,
  asked,
  goes,
  book,
}: SetPointsShown & { readonly book: SetPointsPast }) {
  return (
    <Frame
      screen="setpoints"
      title={paper.title(book.size.name)}
      lead={['', paper.lead]}
      actions={
        <>
          <button type="button" className="btn" onClick={() => print()}>
            {paper.print}
          </button>
          <a className="btn plain" {...goes(pathOf(book.size.id))}>
            {paper.back(book.size.name)}
          </a>
        </>
      }
      overview={overview}
      asked={asked}
    >
      <Page book={book} now={overview?.now} />
    </Frame>
  );
}

/** Rows of so many lines find room as they are; the more there are, the lower each is, and type is never made smaller for it. */
const ROOM = 846;
const ROW = { most: 58, least: 20 } as const;

const COLUMNS = ['station', 'no', 'name', 'book', 'stood', 'well', 'sure', 'read', 'who'] as const;

/** One page of A4 whatever the line has. */
export function Page({
  book,
  now,
}: {
  readonly book: SetPointsPast;
  readonly now: PastOverview['now'] | undefined;
}) {
  const { rows, size } = book;
  const { page, zoom } = useOnePage(`${size.id} ${rows.length} ${book.from.runs}`, 1);
  const high = Math.floor(Math.min(ROW.most, Math.max(ROW.least, ROOM / Math.max(1, rows.length))));
  const dense = high < 30;
  return (
    <article
      ref={page}
      className={dense ? 'paper setpaper dense' : 'paper setpaper'}
      style={{ '--zoom': zoom, '--row': `${high}px` } as CSSProperties}
      aria-label={paper.title(size.name)}
    >
      <style>{'@media print { @page { size: A4 portrait; margin: 0 } }'}</style>
      <Head book={book} />
      <table>
        <colgroup>
          {COLUMNS.map((name) => (
            <col key={name} className={`of-${name}`} />
          ))}
        </colgroup>
        <Columns book={book} />
        {byStation(rows).map((of) => (
          <tbody key={of[0]!.station.id}>
            {of.map((row, place) => (
              <Row
                key={row.number}
                row={row}
                of={place === 0 ? of : undefined}
                dense={dense}
                runs={book.runs}
              />
            ))}
          </tbody>
        ))}
      </table>
      <Foot now={now} />
    </article>
  );
}

function Head({ book }: { readonly book: SetPointsPast }) {
  const { name, product, zone } = usePart('line');
  return (
    <header className="papertitle">
      <h2>{paper.title(book.size.name)}</h2>
      <p className="mark">
        <Carton drawing="discharge" width={26} className="small" /> {paper.brand}
      </p>
      <p className="second">
        <b>{paper.of(name, product)}</b> <Rich text={paper.learned(book, zone)} of={learnedNumbers(book)} />{' '}
        {paper.stood[book.runs]}
      </p>
    </header>
  );
}

function Columns({ book }: { readonly book: SetPointsPast }) {
  const { columns } = paper;
  return (
    <thead>
      <tr>
        <th scope="col">{columns.station}</th>
        <th scope="col" colSpan={2}>
          {columns.adjustment}
        </th>
        <th scope="col" className="n">
          <Figure of="adjustmentBook">{columns.book}</Figure>
        </th>
        <th scope="col" className="n">
          <Figure of="adjustmentReading">{columns.stands[book.runs]}</Figure>
        </th>
        <th scope="col" className="n">
          <Figure of="setPointRanWell">{columns.ranWell}</Figure>
        </th>
        <th scope="col">
          <Figure of="setPointRuns">{columns.sure}</Figure>
        </th>
        <th scope="col">{columns.read}</th>
        <th scope="col">{columns.who}</th>
      </tr>
    </thead>
  );
}

function Row({
  row,
  of,
  dense,
  runs,
}: {
  readonly row: SetPointRow;
  readonly runs: SetPointsPast['runs'];
  /** All of its station, where it is the first. */
  readonly of: readonly SetPointRow[] | undefined;
  readonly dense: boolean;
}) {
  return (
    <tr>
      {of && (
        <th
          scope="rowgroup"
          rowSpan={of.length}
          className="paperstation"
          style={{ '--of': of.length } as CSSProperties}
        >
          <div>
            {!dense && (
              <Carton drawing={row.drawing} width={of.length > 1 ? 34 : 24} className="small bare" />
            )}
            <span>
              <b>{row.station.number}</b> {row.station.name}
            </span>
          </div>
        </th>
      )}
      <th scope="row" className="no">
        {row.number}
      </th>
      <td className="named" title={row.name}>
        <span>
          {row.datum && <small>{paper.datum(row)} </small>}
          {paper.named(row)}
        </span>
      </td>
      <td className="n book1no">{paper.book(row)}</td>
      <td className="n paperfact" data-label={paper.columns.stands[runs]}>
        {paper.stands(row)} <small>{paper.known(row)}</small>
      </td>
      <td className="n paperfact" data-label={paper.columns.ranWell}>
        {paper.ranWell(row)}
      </td>
      <td className="paperfact" data-label={paper.columns.sure}>
        {paper.sure(row)}
      </td>
      <td className="write" />
      <td className="write short" />
    </tr>
  );
}

function Foot({ now }: { readonly now: PastOverview['now'] | undefined }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  return (
    <footer>
      <p className="writeline">
        <span>{paper.write}</span>
        {[paper.name, paper.date, paper.lot, paper.parts].map((what) => (
          <span key={what} className="line">
            {what} <i />
          </span>
        ))}
      </p>
      <p className="papercaution">
        <Mark id="m-padlock" size={26} />
        <span>
          <b>{said.caution.title}</b> {said.caution.text}
        </span>
      </p>
      <p>{paper.foot(now ?? clock, zone, MODEL_VERSION)}</p>
    </footer>
  );
}
