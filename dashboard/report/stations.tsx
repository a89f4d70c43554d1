import type { Report } from '../../model/report/report.ts';
import type { ReportRoom } from '../../model/report/reportRoom.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton } from '../marks/symbols.tsx';
import { Rich } from '../type/line.tsx';
import { InRoom } from './inRoom.tsx';

const { past } = words.screen;
const said = past.report.stations;
const { moreStations, asUsual, odds } = past.report.paper;

/** Rejects by station, each beside what as many cartons usually bring there. */
export function PaperStations({ report, room }: { readonly report: Report; readonly room: ReportRoom }) {
  const { stations, figures } = report;
  const rejected = past.figures.screen.told(figures.find(({ id }) => id === 'rejected'))[0];
  const more = stations.filter((station) => station.more);
  const told = more.slice(0, room.items);
  return (
    <section>
      <h3>
        <Figure of="rejected">{said.title(rejected)}</Figure>
      </h3>
      <ol className="paperpath">
        {stations.map((one) => (
          <li key={one.id} className={one.more ? 'more' : ''}>
            <Carton drawing={one.station.drawing} off={one.more} width={46} className="small" />
            <span className="name">
              {one.station.number} <InRoom text={one.station.name} most={room.name} />
            </span>
            <b>{one.kind === undefined ? '–' : past.count(one.counted)}</b>
            <span>
              {one.kind === undefined
                ? said.none
                : [said.kinds[one.kind], said.usual(one.usual)].filter((part) => part !== '').join(', ')}
            </span>
            {one.laid !== undefined && one.laid >= 0.05 && (
              <span>
                <Figure of="rejectsLaid">{said.likely(one.laid)}</Figure>
              </span>
            )}
            {one.lost !== undefined && one.lost !== 0 && <span>{said.lostHere(one.lost)}</span>}
          </li>
        ))}
      </ol>
      {told.map((one) => (
        <p key={one.id}>
          <Rich text={said.more(one)} />
        </p>
      ))}
      <p className="second">
        {moreStations(more.length - told.length)} {asUsual(report)} {odds(report)}{' '}
        {stations.some(({ laid }) => laid !== undefined) && said.likelyMeans}
      </p>
    </section>
  );
}
