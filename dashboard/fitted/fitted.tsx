import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { FittedView } from '../../model/view/fittedView.ts';
import { words } from '../app/words.ts';
import { InWords } from '../entries/inWords.tsx';
import { usePositionName } from '../entries/names.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useSession } from '../people/session.ts';
import { RefusedHere } from '../sheet/kept.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { useNaming } from './things.ts';

const said = words.screen.fitted;

/** Which lot of board and which change parts run, at a station or at all of them; and which it is from now on. */
export function FittedHere({ station }: { readonly station?: string }) {
  const things = usePart('fitted').filter((one) => station === undefined || one.station === station);
  if (things.length === 0) return null;
  return (
    <section className="sheet fittedhere noprint">
      <h2>{said.title}</h2>
      <p className="second">{said.lead}</p>
      <NeedsLogIn act="setting" />
      {station !== undefined && <RefusedHere />}
      <ul>
        {things.map((thing) => (
          <Thing key={thing.step ?? thing.what} thing={thing} />
        ))}
      </ul>
    </section>
  );
}

function Thing({ thing }: { readonly thing: FittedView }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const position = usePositionName();
  const session = useSession();
  const nameIt = useNaming();
  const [isOpen, open] = useState(false);
  const mayEnter = session === undefined || session.may.includes('setting');
  const key = thing.now === undefined ? said.first : said.another;
  return (
    <li>
      <p>
        <span>{said.name(thing)}</span>
        {thing.now && <b>{thing.now.name}</b>}
        <small>{said.now(thing, clock, zone, position)}</small>
      </p>
      {isOpen ? (
        <InWords
          asks={said.asks(thing)}
          choices={thing.last}
          most={ENTRY_MOST.setting}
          take={(name) => {
            if (name !== undefined) nameIt(thing, name);
            open(false);
          }}
          back={() => open(false)}
        />
      ) : (
        mayEnter && (
          <button
            type="button"
            className="btn plain"
            aria-label={`${key}: ${said.thing(thing)}`}
            onClick={() => open(true)}
          >
            {key}
          </button>
        )
      )}
    </li>
  );
}
