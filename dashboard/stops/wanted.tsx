import { useState } from 'react';
import type { PastStop, StopsPast } from '../../model/past/stopsPast.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { Rich } from '../type/line.tsx';
import { WhyKeys } from './why.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.stops;

/** Stops asked about at first. */
const ASKED_MOST = 3;

/** What wants one tap, and where the reasons of the others come from. */
export function Wanted({
  stops,
  zone,
  again,
}: {
  readonly stops: StopsPast;
  readonly zone: string;
  readonly again: () => void;
}) {
  const wanted = stops.list.filter(({ answers }) => answers.length > 0);
  const { plc, people, nobody } = stops.saidBy;
  const [all, setAll] = useState(false);
  const asked = all ? wanted : wanted.slice(0, ASKED_MOST);
  return (
    <section className="sheet wanted">
      <h2>
        {wanted.length > 0 && <Mark id="n-want" size={26} />}{' '}
        <span>
          <Rich text={said.wanted(wanted.length)} of={[['unexplained', past.count(wanted.length)]]} />
        </span>
      </h2>
      {wanted.length > 0 && <p className="second">{said.wantedWhy}</p>}
      <ul>
        {asked.map((stop) => (
          <li key={stop.id}>
            <b>
              <Rich text={titleOf(stop)} of={[['stood', past.lasted(stop.lasted)]]} />
            </b>
            <SeeIt at={stop.at} until={stop.until} station={stop.station?.id}>
              {past.when(stop.at, zone)}
            </SeeIt>
            <WhyKeys stop={stop} again={again} />
          </li>
        ))}
      </ul>
      {wanted.length > asked.length && (
        <button type="button" className="btn plain noprint" onClick={() => setAll(true)}>
          {said.more(wanted.length - asked.length)}
        </button>
      )}
      <h2>{said.saidBy}</h2>
      <p className="second">
        <Rich text={said.saidByOf(stops.stops)} of={[['stops', past.count(stops.stops)]]} />
      </p>
      <div className="saidby" aria-hidden="true">
        <i className="plc" style={{ flexGrow: plc }} />
        <i style={{ flexGrow: people }} />
        <i className="nobody" style={{ flexGrow: nobody }} />
      </div>
      <p className="saidbywords">
        <span>
          <Rich text={said.byPlc(plc)} of={[['reasonsFrom', past.count(plc)]]} />
        </span>
        <span>
          <Rich text={said.byPeople(people)} of={[['reasonsFrom', past.count(people)]]} />,{' '}
          <Rich text={said.byNobody(nobody)} of={[['reasonsFrom', past.count(nobody)]]} />
        </span>
      </p>
    </section>
  );
}

function titleOf({ station, lasted }: PastStop): string {
  return `${station ? past.station(station.number, station.name) : past.noStation}, ${past.lasted(lasted)}`;
}
