import type { ChainLink, PastStop, StopsPast } from '../../model/past/stopsPast.ts';
import { words } from '../app/words.ts';
import { Carton, Mark } from '../marks/symbols.tsx';
import { WhyKeys } from './why.tsx';

const { past } = words.screen;
const said = past.stops;

const MARK_OF = {
  firstFault: 'm-first',
  setOff: undefined,
  caused: 'd-button',
  during: 'd-button-open',
  uncertain: 'd-button-dotted',
  guardOpened: 'd-door-open',
} as const satisfies Record<ChainLink['kind'], string | undefined>;

/** Each stop, the newest first: how long, where, its first fault, and what came with it, from left to right. */
export function StopList({
  stops,
  zone,
  again,
  more,
}: {
  readonly stops: StopsPast;
  readonly zone: string;
  readonly again: () => void;
  readonly more: () => void;
}) {
  const { columns, marks } = said;
  return (
    <section className="sheet stoplist">
      <h2>
        {said.list}
        <ul className="pastkey">
          <li>
            <Mark id="m-first" size={18} /> {marks.firstFault}
          </li>
          <li>
            <Mark id="d-button" size={18} /> {marks.caused}
          </li>
          <li>
            <Mark id="d-button-open" size={18} /> {marks.during}
          </li>
          <li>
            <Mark id="d-door-open" size={18} /> {marks.guardOpened}
          </li>
        </ul>
      </h2>
      <table>
        <thead>
          <tr>
            <th>{columns.began}</th>
            <th>{columns.lasted}</th>
            <th>{columns.station}</th>
            <th>{columns.chain}</th>
            <th className="n">{columns.lost}</th>
            <th>{columns.size}</th>
          </tr>
        </thead>
        <tbody>
          {stops.list.map((stop, place) => (
            <Row
              key={stop.id}
              stop={stop}
              zone={zone}
              again={again}
              dated={place === 0 || past.on(stops.list[place - 1]!.at, zone) !== past.on(stop.at, zone)}
            />
          ))}
        </tbody>
      </table>
      <p className="foot">
        {said.shown(stops.list.length, stops.stops)}
        {stops.list.length < stops.stops && (
          <button type="button" className="btn plain noprint" onClick={more}>
            {said.showMore}
          </button>
        )}
      </p>
    </section>
  );
}

function Row({
  stop,
  zone,
  again,
  dated,
}: {
  readonly stop: PastStop;
  readonly zone: string;
  readonly again: () => void;
  /** The first of its day says which day it is. */
  readonly dated: boolean;
}) {
  const { station } = stop;
  return (
    <tr id={`stop-${stop.id}`}>
      <td className="began">
        {dated && <small>{past.on(stop.at, zone)}</small>}
        <b>{past.exactly(stop.at, zone)}</b>
      </td>
      <td className="long1">
        <i className={stop.minor ? 'mark1' : 'mark1 long'} aria-hidden="true" /> {said.lasted(stop)}
        {stop.attempt > 1 && <small>{said.attempt(stop.attempt)}</small>}
      </td>
      <td>
        {station ? (
          <a className="where" href={`/stations/${encodeURIComponent(station.id)}`}>
            <Carton drawing={station.drawing} width={24} className="small" />
            {past.station(station.number, station.name)}
          </a>
        ) : (
          past.noStation
        )}
      </td>
      <td className="chain">
        <Chain stop={stop} />
        <WhyKeys stop={stop} again={again} />
      </td>
      <td className="n">{stop.lost === undefined ? said.pending : said.lost(stop.lost)}</td>
      <td>
        {stop.size}
        {stop.order !== undefined && <small>{stop.order}</small>}
      </td>
    </tr>
  );
}

export function Chain({ stop }: { readonly stop: PastStop }) {
  const named = said.name(stop);
  const known = stop.said ?? (named === said.noReason && stop.answers.length > 0 ? named : undefined);
  return (
    <>
      {stop.answers.length > 0 && <Mark id="n-want" size={20} />}
      {known !== undefined && <b>{known} </b>}
      {stop.chain.map((link, place) => (
        <span key={`${link.kind} ${link.after} ${link.name}`}>
          {place > 0 && <Arrow />}
          {MARK_OF[link.kind] !== undefined && <Mark id={MARK_OF[link.kind]!} size={18} />}
          {said.link(link, place === 0)}{' '}
        </span>
      ))}
      {stop.chain.length === 0 && known === undefined && named}
    </>
  );
}

/** From what came first to what came with it. */
function Arrow() {
  return (
    <svg className="mark arrow" width={26} height={14} viewBox="0 0 26 14" aria-hidden="true">
      <path d="M2 7h18M15 2l6 5l-6 5" />
    </svg>
  );
}
