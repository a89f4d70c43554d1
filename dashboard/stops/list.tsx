import { Fragment } from 'react';
import type { ChainLink, PastStop, StopsPast } from '../../model/past/stopsPast.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { Carton, Mark } from '../marks/symbols.tsx';
import { CauseForm } from '../entries/causeForm.tsx';
import { Figure } from '../figures/figure.tsx';
import { Around } from '../stations/around.tsx';
import { addressOf } from '../stations/strip.tsx';
import { WhyKeys } from './why.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

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
const KEY = ['firstFault', 'caused', 'during', 'uncertain', 'guardOpened'] as const;

interface Opens {
  /** The stop that is opened, and how to open one: undefined closes it. */
  readonly opened: string | undefined;
  readonly open: (stop: string | undefined) => void;
}

/** Each stop, the newest first: how long, where, its first fault, and what came with it; one of them may be opened. */
export function StopList({
  stops,
  zone,
  again,
  more,
  stations,
  ...opens
}: {
  readonly stops: StopsPast;
  readonly zone: string;
  readonly again: () => void;
  readonly more: () => void;
  /** Where a stop may be said to have come from. */
  readonly stations: PastOverview['stations'];
} & Opens) {
  const { list } = stops;
  return (
    <section className="sheet stoplist allstops">
      <h2>
        {said.list}
        <MarksKey stops={list} />
      </h2>
      <table>
        <Head />
        <tbody>
          {list.map((stop, place) => (
            <Fragment key={stop.id}>
              <Row
                stop={stop}
                zone={zone}
                again={again}
                nth={said.nth(place, stops.stops)}
                of={said.ofAll(stops.stops)}
                dated={place === 0 || past.on(list[place - 1]!.at, zone) !== past.on(stop.at, zone)}
                {...opens}
              />
              {opens.opened === stop.id && (
                <tr className="aroundrow">
                  <td colSpan={COLUMNS}>
                    <CauseForm stop={stop} stations={stations} again={again} />
                    <Around stop={stop.id} zone={zone} />
                  </td>
                </tr>
              )}
            </Fragment>
          ))}
        </tbody>
      </table>
      <p className="foot">
        {said.shown(list.length, stops.stops)}
        {list.length < stops.stops && (
          <button type="button" className="btn plain noprint" onClick={more}>
            {said.showMore}
          </button>
        )}
      </p>
    </section>
  );
}

const COLUMNS = 8;

/** What each mark is; only those that occur. */
function MarksKey({ stops }: { readonly stops: readonly PastStop[] }) {
  const there = new Set(stops.flatMap(({ chain }) => chain.map(({ kind }) => kind)));
  return (
    <ul className="pastkey">
      {KEY.filter((kind) => there.has(kind)).map((kind) => (
        <li key={kind}>
          <Mark id={MARK_OF[kind]} size={18} /> {said.marks[kind]}
        </li>
      ))}
    </ul>
  );
}

function Head() {
  const { columns } = said;
  return (
    <thead>
      <tr>
        <th scope="col" className="n">
          {columns.nth}
        </th>
        <th scope="col">{columns.began}</th>
        <th scope="col">
          <Figure of="stood">{columns.lasted}</Figure>
        </th>
        <th scope="col">{columns.station}</th>
        <th scope="col">
          <Figure of="afterStopBegan">{columns.chain}</Figure>
        </th>
        <th scope="col" className="n">
          <Figure of="lostToStop">{columns.lost}</Figure>
        </th>
        <th scope="col">{columns.size}</th>
        <th scope="col" className="noprint">
          {columns.around}
        </th>
      </tr>
    </thead>
  );
}

function Row({
  stop,
  zone,
  again,
  nth,
  of,
  dated,
  opened,
  open,
}: {
  readonly stop: PastStop;
  readonly zone: string;
  readonly again: () => void;
  /** Its number among all that are wanted, and of how many. */
  readonly nth: string;
  readonly of: string;
  /** The first of its day says which day it is. */
  readonly dated: boolean;
} & Opens) {
  const isOpen = opened === stop.id;
  return (
    <tr id={`stop-${stop.id}`} className={isOpen ? 'opened1' : ''}>
      <td className="n nth">
        {nth}
        <span>{of}</span>
      </td>
      <td className="began">
        {dated && <small>{past.on(stop.at, zone)}</small>}
        <SeeIt at={stop.at} until={stop.until} station={stop.station?.id}>
          <b>{past.exactly(stop.at, zone)}</b>
        </SeeIt>
      </td>
      <td className="long1">
        <i className={stop.minor ? 'mark1' : 'mark1 long'} aria-hidden="true" /> {said.lasted(stop)}
        {stop.attempt > 1 && (
          <small>
            <Figure of="tries">{said.attempt(stop.attempt)}</Figure>
          </small>
        )}
      </td>
      <td className="place">
        <Place stop={stop} />
      </td>
      <td className="chain">
        <Chain stop={stop} />
        <WhyKeys stop={stop} again={again} />
      </td>
      <td className="n" data-label={said.columns.lost}>
        {stop.lost === undefined ? said.pending : said.lost(stop.lost)}
      </td>
      <td className="cartons">
        {stop.size}
        {stop.order !== undefined && <small>{stop.order}</small>}
      </td>
      <td className="noprint look1">
        <button
          type="button"
          className="btn plain look"
          aria-expanded={isOpen}
          aria-label={said.lookSaid(stop, isOpen, zone)}
          onClick={() => open(isOpen ? undefined : stop.id)}
        >
          {isOpen ? said.close : said.look}
        </button>
      </td>
    </tr>
  );
}

/** The way to the station's own screen, with the same time. */
function Place({ stop: { station } }: { readonly stop: PastStop }) {
  if (!station) return past.noStation;
  return (
    <a className="where" href={addressOf(station.id)}>
      <Carton drawing={station.drawing} width={24} className="small" />
      {past.station(station.number, station.name)}
    </a>
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
      {stop.cause && (
        <small className="causesaid">
          {said.cause(stop.cause)} ({said.causeBy})
        </small>
      )}
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
