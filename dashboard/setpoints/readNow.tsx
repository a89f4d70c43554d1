import type { SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEntering } from './entering.ts';
import { NumberForm } from './numberForm.tsx';

const { reading } = words.screen.past.setPoints.one;

/** What somebody read from the scale just now. */
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
  return (
    <section className="sheet readnow1 noprint">
      <h2>{reading.title}</h2>
      <p>{reading.lead}</p>
      <NeedsLogIn act="setting" />
      <NumberForm
        row={row}
        book={book}
        label={reading.number}
        submit={() => reading.enter}
        enter={(value) =>
          enter({
            kind: 'reading',
            station: row.station.id,
            adjustment: row.number,
            value,
            how: 'typed',
          })
        }
      />
    </section>
  );
}
