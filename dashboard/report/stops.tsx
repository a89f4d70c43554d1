import type { PastStop } from '../../model/past/stopsPast.ts';
import type { Report } from '../../model/report/report.ts';
import type { ReportRoom } from '../../model/report/reportRoom.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Mark } from '../marks/symbols.tsx';
import { InRoom } from './inRoom.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.report.stops;

interface InRoomOf {
  readonly report: Report;
  readonly room: ReportRoom;
}

/** Of a shift each stop, the longest of many; of longer periods what they were, by first fault. */
export function PaperStops({ report, room }: InRoomOf) {
  const { figures, kind, stops } = report;
  const of = (id: 'stops' | 'stood') => past.figures.screen.told(figures.find((one) => one.id === id))[0];
  const count = figures.find(({ id }) => id === 'stops')?.value ?? 0;
  return (
    <section>
      <h3>
        <Figure of="stops">{said.title(count, of('stood'))}</Figure>
      </h3>
      {stops.rows.length === 0 && <p>{said.none}</p>}
      {stops.carried.stops > 0 && <p>{said.carried(stops.carried.stops, stops.carried.stood)}</p>}
      {kind === 'shift' ? <Each report={report} room={room} /> : <ByFault report={report} room={room} />}
    </section>
  );
}

function Each({ report, room }: InRoomOf) {
  const { list, more } = report.stops;
  if (list.length === 0) return null;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{said.began}</th>
          <th scope="col" className="n">
            <Figure of="stood">{said.lasted}</Figure>
          </th>
          <th scope="col">{said.station}</th>
          <th scope="col">
            <Figure of="firstFaultAfter">{said.fault}</Figure>
          </th>
          <th scope="col">{said.done}</th>
          <th scope="col" className="n">
            <Figure of="lostToStop">{said.lost}</Figure>
          </th>
        </tr>
      </thead>
      <tbody>
        {list.map((stop) => (
          <tr key={stop.id}>
            <td>
              <SeeIt at={stop.at} until={stop.until} station={stop.station?.id}>
                {past.exactly(stop.at, report.zone)}
              </SeeIt>
            </td>
            <td className="n">
              {past.lasted(stop.lasted)}
              {stop.endSeen || stop.until === undefined ? '' : `, ${said.endNotSeen}`}
            </td>
            <td>
              <StationIn station={stop.station} room={room} />
            </td>
            <td>
              {pressed(stop) && <Mark id="d-button" size={13} />}{' '}
              <InRoom text={faultOf(stop)} most={room.text} />
            </td>
            <td>
              <InRoom text={stop.said ?? (stop.name === undefined ? said.nobody : '')} most={room.text} />
            </td>
            <td className="n" data-label={said.lost}>
              {stop.lost === undefined ? '' : past.count(stop.lost)}
            </td>
          </tr>
        ))}
        {more.stops > 0 && (
          <tr>
            <td colSpan={6}>{said.more(more.stops, more.stood)}</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

function faultOf(stop: PastStop): string {
  const tries = stop.attempt > 1 ? said.tries(stop.attempt) : '';
  return [stop.name ?? said.unknown, tries, said.chain(stop)].filter((part) => part !== '').join('; ');
}

function StationIn({ station, room }: { readonly station: PastStop['station']; readonly room: ReportRoom }) {
  return station === undefined ? null : (
    <InRoom text={past.station(station.number, station.name)} most={room.name} />
  );
}

function pressed({ chain }: PastStop): boolean {
  return chain.some(({ kind }) => kind === 'caused' || kind === 'during' || kind === 'uncertain');
}

function ByFault({ report, room }: InRoomOf) {
  const { rows, moreRows } = report.stops;
  if (rows.length === 0) return null;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{said.fault}</th>
          <th scope="col">{said.station}</th>
          <th scope="col" className="n">
            <Figure of="stops">{said.times}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="stood">{said.lasted}</Figure>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={`${row.id} ${row.kind}`}>
            <td>
              <InRoom text={row.name ?? said.unknown} most={room.text} />
            </td>
            <td>
              <StationIn station={row.station} room={room} />
            </td>
            <td className="n">{past.count(row.stops)}</td>
            <td className="n">{past.past(row.stood)}</td>
          </tr>
        ))}
        {moreRows.rows > 0 && (
          <tr>
            <td colSpan={4}>{said.moreRows(moreRows.rows, moreRows.stops, moreRows.stood)}</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}
