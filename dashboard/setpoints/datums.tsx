import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { DATUM_WHYS, type DatumWhy } from '../../model/entries/sheetEntries.ts';
import type { SetPointOpened, SetPointRow } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Choosing, Typing } from '../entries/fields.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { useEntering } from './entering.ts';
import { usePositionName } from './positions.ts';
import { numberTyped } from './typed.ts';

const said = words.screen.past.setPoints;
const { datums: tells, doubt } = said.one;

/** What its numbers have meant since when, a new datum, and the offset between two of them. */
export function Datums({ opened, again }: { readonly opened: SetPointOpened; readonly again: () => void }) {
  const { zone } = usePart('line');
  const nameOf = usePositionName();
  const { datums, row } = opened;
  const [newest] = datums;
  return (
    <section className="sheet datums1">
      <h2>{tells.title}</h2>
      {datums.length === 0 && <p>{tells.first}</p>}
      <ul>
        {datums.map((one) => (
          <li key={one.datum}>
            {tells.one(one, zone, nameOf)}
            <small>
              <Rich
                text={tells.offset(one.offset, row)}
                of={one.offset === undefined ? [] : [['datumOffset', said.signed(one.offset, row)]]}
              />
            </small>
          </li>
        ))}
      </ul>
      {newest && newest.offset === undefined && (
        <Offset key={newest.datum} row={row} datum={newest.datum} again={again} />
      )}
      <Begin row={row} again={again} />
    </section>
  );
}

interface Wish {
  readonly row: SetPointRow;
  readonly again: () => void;
}

function Begin({ row, again }: Wish) {
  const enter = useEntering(again);
  const [why, choose] = useState<DatumWhy>('reZeroed');
  const [typed, type] = useState('');
  return (
    <details className="noprint">
      <summary>{tells.begin}</summary>
      <p>{tells.beginLead}</p>
      <NeedsLogIn act="datum" />
      <form
        className="fields"
        onSubmit={(event) => {
          event.preventDefault();
          const { number: adjustment, station } = row;
          const told = typed.trim();
          enter({
            ...{ kind: 'datum', station: station.id, adjustment, why },
            ...(told === '' ? {} : { words: told }),
          });
          type('');
        }}
      >
        <Choosing
          label={tells.why}
          value={why}
          options={DATUM_WHYS.map((one) => [one, tells.whys[one]])}
          choose={choose}
        />
        <Typing label={tells.words} value={typed} most={ENTRY_MOST.words} type={type} />
        <button type="submit" className="btn plain">
          {tells.enter}
        </button>
      </form>
    </details>
  );
}

function Offset({ row, datum, again }: Wish & { readonly datum: number }) {
  const enter = useEntering(again);
  const [typed, type] = useState('');
  const [why, because] = useState('');
  const [wrong, isWrong] = useState(false);
  return (
    <details className="noprint">
      <summary>{tells.offsetTitle(datum)}</summary>
      <p>{tells.offsetLead}</p>
      <NeedsLogIn act="offset" />
      <form
        className="fields"
        onSubmit={(event) => {
          event.preventDefault();
          const offset = numberTyped(typed);
          isWrong(offset === undefined);
          if (offset !== undefined)
            enter({ kind: 'datumOffset', adjustment: row.number, datum, offset, why: why.trim() });
        }}
      >
        <Typing label={tells.offsetNumber} value={typed} most={12} type={type} numeric />
        <Typing label={tells.offsetWhy} value={why} most={ENTRY_MOST.words} type={because} />
        <button type="submit" className="btn plain" disabled={typed.trim() === '' || why.trim() === ''}>
          {tells.offsetEnter}
        </button>
        <p role="alert">{wrong && doubt.noNumber}</p>
      </form>
    </details>
  );
}
