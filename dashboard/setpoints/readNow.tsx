import { useState } from 'react';
import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { stepsApart } from '../../model/setpoints/standing.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEntering } from './entering.ts';
import { NumberForm } from './numberForm.tsx';

const { reading, doubt } = words.screen.past.setPoints.one;

/** What somebody read from the scale just now; [SP10] where that is not the book's number, whether it was left so or moved. */
export function ReadNow({
  row,
  book,
  again,
}: {
  readonly row: SetPointRow;
  readonly book: SetPointsPast;
  readonly again: () => void;
}) {
  const enter = useEntering(again);
  const [off, askOff] = useState<{ readonly value: number; readonly book: number }>();
  const read = (value: number, found?: number) => {
    enter({
      ...{ kind: 'reading', station: row.station.id, adjustment: row.number, value, how: 'typed' },
      ...(found === undefined ? {} : { found }),
    });
    askOff(undefined);
  };
  return (
    <section className="sheet readnow1 noprint">
      <h2>{reading.title}</h2>
      <p>{reading.lead}</p>
      <NeedsLogIn act="setting" />
      {off === undefined ? (
        <NumberForm
          row={row}
          book={book}
          label={reading.number}
          submit={() => reading.enter}
          enter={(value) => {
            if (row.book !== undefined && isNews(value, row)) askOff({ value, book: row.book });
            else read(value);
          }}
        />
      ) : (
        <div className="asked1" role="alert">
          <p className="doubted1">{reading.off(off.value, off.book, row)}</p>
          <div className="askedkeys">
            <button type="button" className="btn plain" onClick={() => read(off.value, off.value)}>
              {reading.stays(off.value, row)}
            </button>
            <button type="button" className="btn plain" onClick={() => read(off.book, off.value)}>
              {reading.moved(off.book, row)}
            </button>
            <button type="button" className="btn plain" onClick={() => askOff(undefined)}>
              {doubt.again}
            </button>
          </div>
        </div>
      )}
    </section>
  );
}

/** It is neither the book's number nor where it is known to stand. */
function isNews(value: number, { book, stands, decimals }: SetPointRow): boolean {
  const is = (one: number | undefined) => one !== undefined && stepsApart(value, one, decimals) === 0;
  return !is(book) && !is(stands.value);
}
