import type { ReactNode } from 'react';
import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { type Goes, pathOf } from './address.ts';
import { countedNumbers } from './numbers.ts';
import { SetPointScale } from './scale.tsx';
import { SpreadBar } from './spread.tsx';
import { SureMarks } from './sure.tsx';

const { past } = words.screen;
const said = past.setPoints;

/** One adjustment of the book; `children` is its station, where it is the first of it. */
export function BookRow({
  row,
  book,
  most,
  goes,
  children,
}: {
  readonly row: SetPointRow;
  readonly book: SetPointsPast;
  readonly most: number;
  readonly goes: Goes;
  readonly children: ReactNode;
}) {
  const { zone } = usePart('line');
  const outside = useOutside(row, book);
  const differs = isOff(row);
  const datum = said.datum(row, zone);
  const runsSay = said.runsSay(row);
  const recommended = row.learned?.recommended;
  return (
    <tr className={differs ? 'differs' : ''}>
      {children}
      <th scope="row">
        <a id={`row-${row.number}`} className="openset" {...goes(pathOf(book.size.id, row.number))}>
          <b>{row.number}</b> <span>{row.name}</span>
        </a>
        {datum !== '' && <small>{datum}</small>}
      </th>
      <td className="n bookno" data-label={said.columns.book}>
        <b>
          <Figure of="adjustmentBook" quiet>
            {said.book(row)}
          </Figure>
        </b>
        {runsSay !== '' && recommended !== undefined && (
          <small>
            <Rich text={runsSay} of={[['setPointRecommended', said.number(recommended, row)]]} quiet />
          </small>
        )}
      </td>
      <td className="scale1">
        <SetPointScale row={row} outside={outside && differs} />
      </td>
      <Now row={row} />
      <Differs row={row} outside={outside} />
      <td className="rejects1" data-label={said.columns.rejects(most)}>
        <SpreadBar spread={row.learned?.rejects} most={most} />
        <small>
          <Figure of="setPointRejects" quiet>
            {said.rejects(row.learned?.rejects)}
          </Figure>
        </small>
      </td>
      <td className="sure1">
        <HowSure row={row} />
      </td>
    </tr>
  );
}

/** Known to stand off its book. */
export function isOff({ stands }: SetPointRow): boolean {
  return stands.off !== undefined && stands.off !== 0;
}

/** Its station is outside its own normal now; that says something of this size only while it runs. */
export function useOutside({ station }: SetPointRow, { runs }: Pick<SetPointsPast, 'runs'>): boolean {
  const { stations } = usePart('path');
  return runs === 'now' && stations.some(({ id, rejects }) => id === station.id && rejects !== undefined);
}

export function Now({ row }: { readonly row: SetPointRow }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const { known } = row.stands;
  return (
    <td className={isOff(row) ? 'n stands1 isoff' : 'n stands1'} data-known={known}>
      <span>
        <Figure of="adjustmentReading" quiet>
          {said.value(row)}
        </Figure>
      </span>
      <small>{said.known(row.stands, clock, zone)}</small>
    </td>
  );
}

function Differs({ row, outside }: { readonly row: SetPointRow; readonly outside: boolean }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const { off, value } = row.stands;
  return (
    <td className="differs1">
      {off !== undefined && off !== 0 && (
        <span className={outside ? 'offtab abnormal' : 'offtab'}>
          <Figure of="adjustmentOff" quiet>
            {said.signed(off, row)}
          </Figure>
        </span>
      )}{' '}
      <Rich
        text={said.differs(row, clock, zone)}
        of={value === undefined ? [] : [['adjustmentReading', said.number(value, row)]]}
        quiet
      />
    </td>
  );
}

export function HowSure({ row: { learned } }: { readonly row: SetPointRow }) {
  if (!learned) return <small>{said.noRun}</small>;
  return (
    <>
      <span className="surehead">
        <SureMarks learned={learned} />
        <span data-sure={learned.sure}>{said.sure(learned.sure)}</span>
      </span>
      <small>
        <Rich text={said.sureWhy(learned)} of={countedNumbers(learned)} quiet />
      </small>
    </>
  );
}
