import type { Report } from '../../model/report/report.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { Carton } from '../marks/symbols.tsx';
import { Rich } from '../type/line.tsx';

const { past } = words.screen;
const said = past.report.stations;

/** Rejects by station, each beside what as many cartons usually bring there. */
export function PaperStations({ report }: { readonly report: Report }) {
  const { stations, figures } = report;
  const rejected = past.figures.screen.told(figures.find(({ id }) => id === 'rejected'))[0];
  const more = stations.filter((station) => station.more);
  return (
    <section>
      <h3>
        <Figure of="rejected">{said.title(rejected)}</Figure>
      </h3>
      <ol className="paperpath">
        {stations.map((one) => (
          <li key={one.id} className={one.more ? 'more' : ''}>
            <Carton drawing={one.station.drawing} off={one.more} width={46} className="small" />
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
            <span className="unseen">{one.station.name}</span>
          </li>
        ))}
      </ol>
      {more.map((one) => (
        <p key={one.id}>
          <Rich text={said.more(one)} />
        </p>
      ))}
      <p className="second">
        {more.length === 0 ? said.asUsual : said.othersAsUsual} {said.odds}{' '}
        {stations.some(({ laid }) => laid !== undefined) && said.likelyMeans}
      </p>
    </section>
  );
}
