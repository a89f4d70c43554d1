import { useEffect, useRef } from 'react';
import type { SetPointOpened, SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Caution } from '../matters/caution.tsx';
import { useAsked } from '../past/asked.ts';
import { queryOf } from '../past/chosen.ts';
import { Frame } from '../past/frame.tsx';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { type Goes, pathOf } from './address.ts';
import { Approve } from './approve.tsx';
import { CostSheet } from './costSheet.tsx';
import { Datums } from './datums.tsx';
import { Facts } from './facts.tsx';
import { Approvals } from './history.tsx';
import { howNumbers, teachesNumbers, whichNumbers } from './numbers.ts';
import { ReadNow } from './readNow.tsx';
import { RunByRun } from './runs.tsx';
import { AGAIN_MS, type SetPointsShown } from './setPoints.tsx';

const { past } = words.screen;
const said = past.setPoints;

/** One adjustment of a size: which number it should have, how that is known, and all that it stands on. */
export function SetPointOne({
  overview,
  asked: whole,
  goes,
  book,
  number,
}: SetPointsShown & { readonly book: SetPointsPast; readonly number: string }) {
  const { id } = usePart('line');
  const asked = useAsked<SetPointOpened>(
    `/api/lines/${encodeURIComponent(id)}/past/setpoints/${encodeURIComponent(number)}${queryOf({ size: book.size.id })}`,
    AGAIN_MS,
  );
  // what the list has of it stands at once, what it is learned from a moment later
  const row = asked.data?.row ?? book.rows.find((one) => one.number === number);
  const size = book.size.name;
  const again = () => {
    asked.again();
    whole.again();
  };
  return (
    <Frame
      screen="setpoints"
      title={row ? said.one.title(row, size) : said.title(size)}
      lead={row ? [said.one.which(row, size), said.one.how(row)] : [past.asking, '']}
      of={row && [...whichNumbers(row), ...howNumbers(row)]}
      actions={<Ways book={book} number={number} goes={goes} />}
      overview={overview}
      asked={asked}
    >
      {row && <Opened row={row} opened={asked.data} book={book} again={again} />}
    </Frame>
  );
}

/** Back to all of them, and to the neighbours in the order of the line. */
function Ways({
  book,
  number,
  goes,
}: {
  readonly book: SetPointsPast;
  readonly number: string;
  readonly goes: Goes;
}) {
  const place = book.rows.findIndex((row) => row.number === number);
  const way = (row: SetPointRow | undefined, what: string) =>
    row && (
      <a className="btn plain" {...goes(pathOf(book.size.id, row.number))}>
        {what} <b>{row.number}</b>
      </a>
    );
  return (
    <>
      <a className="btn plain" {...goes(pathOf(book.size.id))}>
        {said.one.back(book.size.name)}
      </a>
      {place > 0 && way(book.rows[place - 1], said.one.before)}
      {place >= 0 && way(book.rows[place + 1], said.one.next)}
    </>
  );
}

function Opened({
  row,
  opened,
  book,
  again,
}: {
  readonly row: SetPointRow;
  readonly opened: SetPointOpened | undefined;
  readonly book: SetPointsPast;
  readonly again: () => void;
}) {
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // who opened it stands before it, also with the keyboard
    top.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, []);
  const together = said.one.together(row);
  return (
    <div ref={top} tabIndex={-1} className="openedsetpoint">
      {together !== '' && <p className="saying together1">{together}</p>}
      <div className="setpointsheets">
        <Facts row={row} book={book} />
        <CostSheet row={row} />
      </div>
      {opened && <RunByRun opened={opened} />}
      <Caution title={said.caution.title} text={said.caution.text} />
      <Teaches row={row} />
      <div className="setpointsheets">
        <Approve row={row} book={book} again={again} />
        <ReadNow row={row} book={book} again={again} />
      </div>
      {opened && (
        <div className="setpointsheets">
          <Approvals opened={opened} />
          <Datums opened={opened} again={again} />
        </div>
      )}
    </div>
  );
}

/** Stands after the caution: somebody may walk up to the machine with it in mind. */
function Teaches({ row }: { readonly row: SetPointRow }) {
  const { teaches } = said.one;
  const wants = teaches.to(row);
  return (
    <section className="sheet teaches1">
      <h2>{teaches.title}</h2>
      {wants === '' ? (
        <p>{teaches.none}</p>
      ) : (
        <>
          <p className="says">
            <Rich text={wants} of={teachesNumbers(row)} />
          </p>
          <p className="second">
            <Rich
              text={teaches.who(row)}
              of={[row.min, row.max].map((end) => ['setPointScale', said.number(end, row)] as const)}
            />
          </p>
        </>
      )}
    </section>
  );
}
