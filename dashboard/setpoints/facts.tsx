import type { ReactNode } from 'react';
import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton } from '../marks/symbols.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { BookKey } from './key.tsx';
import { usePositionName } from './positions.ts';
import { HowSure, isOff, useOutside } from './row.tsx';
import { SetPointScale } from './scale.tsx';
import { SpreadBar, spreadTop } from './spread.tsx';

const { past } = words.screen;
const said = past.setPoints;
const { facts } = said.one;

/** Where it stands, what the book has, and how both are known. */
export function Facts({ row, book }: { readonly row: SetPointRow; readonly book: SetPointsPast }) {
  const outside = useOutside(row, book) && isOff(row);
  return (
    <section className="sheet facts1">
      <h2>{facts.title}</h2>
      <div className="factsof">
        <Carton drawing={row.drawing} width={96} />
        <Numbers row={row} outside={outside} />
      </div>
      <div className="scale1">
        <SetPointScale row={row} outside={outside} />
      </div>
      <BookKey />
      <dl className="factsmore">
        <div>
          <dt>
            <Figure of="setPointRejects">{said.columns.rejects(spreadTop([row.learned?.rejects]))}</Figure>
          </dt>
          <dd>
            <SpreadBar spread={row.learned?.rejects} most={spreadTop([row.learned?.rejects])} />
            <Figure of="setPointRejects">{said.rejects(row.learned?.rejects)}</Figure>
          </dd>
        </div>
        <div>
          <dt>{said.columns.sure}</dt>
          <dd>
            <HowSure row={row} />
          </dd>
        </div>
      </dl>
    </section>
  );
}

function Numbers({ row, outside }: { readonly row: SetPointRow; readonly outside: boolean }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const nameOf = usePositionName();
  const { stands, approved, book, learned } = row;
  const datum = said.datum(row, zone);
  const sign = stands.off === undefined ? facts.offNone : said.signed(stands.off, row);
  return (
    <dl>
      <Fact
        name={facts.book}
        value={
          <Figure of="adjustmentBook">
            {book === undefined ? facts.none : said.one.withUnit(book, row)}
          </Figure>
        }
        more={facts.bookFrom(approved, zone, nameOf)}
      />
      <Fact
        name={facts.now}
        value={<Figure of="adjustmentReading">{said.value(row)}</Figure>}
        more={[said.known(stands, clock, zone), datum].filter((part) => part !== '').join('; ')}
      />
      <Fact
        name={facts.off}
        value={
          <span className={isOff(row) ? (outside ? 'offtab abnormal' : 'offtab') : ''}>
            <Figure of="adjustmentOff">{sign}</Figure>
          </span>
        }
        more={said.differs(row, clock, zone)}
      />
      <Fact
        name={facts.ranWell}
        value={<Figure of="setPointRanWell">{learned ? facts.ranWellFrom(row) : facts.offNone}</Figure>}
      />
      <Fact name={facts.scale} value={<Figure of="setPointScale">{facts.scaleFrom(row)}</Figure>} />
    </dl>
  );
}

function Fact({
  name,
  value,
  more,
}: {
  readonly name: string;
  readonly value: ReactNode;
  readonly more?: string;
}) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <b>{value}</b>
        {more !== undefined && <small>{more}</small>}
      </dd>
    </div>
  );
}
