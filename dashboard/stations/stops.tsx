import { Fragment } from 'react';
import type { StationPast } from '../../model/past/stationPast.ts';
import type { PastStop } from '../../model/past/stopsPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Chain } from '../stops/list.tsx';
import { WhyKeys } from '../stops/why.tsx';
import { Around } from './around.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.stations.stops;

/** Stops at the station, the newest first; one of them may be opened to see what the PLC said around its beginning. */
export function StationStops({
  stops,
  zone,
  again,
  opened,
  open,
  more,
}: {
  readonly stops: StationPast['stops'];
  readonly zone: string;
  readonly again: () => void;
  readonly opened: string | undefined;
  readonly open: (stop: string | undefined) => void;
  readonly more: () => void;
}) {
  const { columns } = said;
  return (
    <section className="sheet stoplist stationstops">
      <h2>{said.title}</h2>
      {stops.list.length === 0 ? (
        <p>{said.none}</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">{columns.began}</th>
              <th scope="col">
                <Figure of="stood">{columns.lasted}</Figure>
              </th>
              <th scope="col">
                <Figure of="afterStopBegan">{columns.chain}</Figure>
              </th>
              <th scope="col" className="n">
                <Figure of="lostToStop">{columns.lost}</Figure>
              </th>
              <th scope="col" className="noprint">
                {columns.around}
              </th>
            </tr>
          </thead>
          <tbody>
            {stops.list.map((stop) => (
              <Fragment key={stop.id}>
                <Row stop={stop} zone={zone} again={again} isOpen={opened === stop.id} open={open} />
                {opened === stop.id && (
                  <tr className="aroundrow">
                    <td colSpan={5}>
                      <Around stop={stop.id} zone={zone} />
                    </td>
                  </tr>
                )}
              </Fragment>
            ))}
          </tbody>
        </table>
      )}
      <p className="foot">
        {past.stops.shown(stops.list.length, stops.stops)}
        {stops.list.length < stops.stops && (
          <button type="button" className="btn plain noprint" onClick={more}>
            {past.stops.showMore}
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
  isOpen,
  open,
}: {
  readonly stop: PastStop;
  readonly zone: string;
  readonly again: () => void;
  readonly isOpen: boolean;
  readonly open: (stop: string | undefined) => void;
}) {
  return (
    <tr>
      <td className="began">
        <small>{past.on(stop.at, zone)}</small>
        <SeeIt at={stop.at} until={stop.until} station={stop.station?.id}>
          <b>{past.exactly(stop.at, zone)}</b>
        </SeeIt>
      </td>
      <td className="long1">
        <i className={stop.minor ? 'mark1' : 'mark1 long'} aria-hidden="true" /> {past.stops.lasted(stop)}
        {stop.attempt > 1 && (
          <small>
            <Figure of="tries">{past.stops.attempt(stop.attempt)}</Figure>
          </small>
        )}
      </td>
      <td className="chain">
        <Chain stop={stop} />
        <WhyKeys stop={stop} again={again} />
      </td>
      <td className="n">{stop.lost === undefined ? past.stops.pending : past.stops.lost(stop.lost)}</td>
      <td className="noprint">
        <button
          type="button"
          className="btn plain look"
          aria-expanded={isOpen}
          aria-label={said.pressSaid(stop, isOpen, zone)}
          onClick={() => open(isOpen ? undefined : stop.id)}
        >
          {isOpen ? said.close : said.open}
        </button>
      </td>
    </tr>
  );
}
