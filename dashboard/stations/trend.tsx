import type { Batch } from '../../model/past/batches.ts';
import type { StationPast, StationTrend } from '../../model/past/stationPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import type { Numbered } from '../figures/pieces.ts';
import { Choice } from '../past/choose.tsx';
import { Rich } from '../type/line.tsx';
import { TrendChart } from './chart.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.stations.trend;

/** Batches of a station against its own normal with the size: what it means in words, the drawing, and the table behind it. */
export function Trend({
  one,
  zone,
  choose,
  more,
}: {
  readonly one: StationPast;
  readonly zone: string;
  readonly choose: (size: string | undefined) => void;
  /** Draws as many batches as there may be; undefined while it does. */
  readonly more: (() => void) | undefined;
}) {
  const { trend, judged } = one;
  if (!trend)
    return (
      <section className="sheet">
        <p>{judged === undefined ? said.notJudged : said.noSize}</p>
      </section>
    );
  return (
    <section className="sheet trend">
      <h2>{said.title(trend)}</h2>
      <p className="second">{said.about(trend)}</p>
      {trend.sizes.length > 1 && (
        <Choice
          label={said.sizes}
          options={trend.sizes.map(({ id, name }) => ({ id, said: name }))}
          chosen={trend.size.id}
          choose={choose}
        />
      )}
      <p className="says">
        {trend.all === 0 ? (
          said.none
        ) : (
          <>
            <Rich
              text={said.said(trend)}
              of={[
                ['batches', past.capital(past.count(trend.above === 0 ? trend.all : trend.above))],
                ['batches', past.count(trend.all)],
              ]}
            />{' '}
            <Rich
              text={said.last(trend)}
              of={trend.batches.toReversed().map(({ counted }) => ['batchRejects', past.count(counted)])}
              quiet
            />
          </>
        )}
      </p>
      {trend.batches.length > 0 && <TrendChart trend={trend} station={one.sum.station.id} zone={zone} />}
      {trend.batches.length > 0 && <Key />}
      <p className="foot">
        <Rich text={said.limit(trend)} of={limitNumbers(trend)} /> {said.shown(trend)}
        <Rich text={said.leftOut(trend.leftOut)} of={[['batches', past.count(trend.leftOut)]]} />
        {trend.since !== undefined && said.since(past.when(trend.since, zone))}
        {more && trend.batches.length < trend.all && (
          <button type="button" className="btn plain noprint" onClick={more}>
            {said.drawMore}
          </button>
        )}
      </p>
      {trend.batches.length > 0 && (
        <details>
          <summary>{said.table}</summary>
          <TrendTable trend={trend} station={one.sum.station.id} zone={zone} />
        </details>
      )}
    </section>
  );
}

/** Numbers of the limit's sentence, in their order; 300 is how a batch is made. */
function limitNumbers({ normal, earlier }: StationTrend): readonly Numbered[] {
  if (!normal) return [['normalRejects', past.count(earlier)]];
  return [
    ['rejectLimit', past.count(normal.most)],
    ['rejectLimit', past.count(normal.onceIn)],
    ['rejectLimit', past.count(normal.worst)],
    ['normalRejects', said.normalLabel(normal.mean).split(' ')[0]!],
    ['normalRejects', past.count(normal.earlier)],
  ];
}

function Key() {
  return (
    <ul className="pastkey">
      <li>
        <svg width={14} height={14} aria-hidden="true">
          <circle className="below1" cx={7} cy={7} r={3.6} />
        </svg>
        {said.key.below}
      </li>
      <li>
        <svg width={18} height={18} aria-hidden="true">
          <path className="above1" d="M9 2l7 7l-7 7l-7-7z" />
        </svg>
        {said.key.above}
      </li>
      <li>
        <svg width={14} height={16} aria-hidden="true">
          <path className="scoreline" d="M7 0V16" />
        </svg>
        {said.key.run}
      </li>
    </ul>
  );
}

/** The newest first. */
function TrendTable({
  trend,
  station,
  zone,
}: {
  readonly trend: StationTrend;
  readonly station: string;
  readonly zone: string;
}) {
  const { columns } = said;
  const so = ({ most, above }: Batch) =>
    most === undefined ? said.noLimit : above ? said.above : said.below;
  return (
    <table>
      <caption>{said.title(trend)}</caption>
      <thead>
        <tr>
          <th scope="col">{columns.began}</th>
          <th scope="col" className="n">
            <Figure of="batchRejects">{columns.of}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="batchRejects">{said.counted(trend.kind)}</Figure>
          </th>
          <th scope="col" className="n">
            <Figure of="rejectLimit">{columns.limit}</Figure>
          </th>
          <th scope="col">{columns.said}</th>
        </tr>
      </thead>
      <tbody>
        {trend.batches.toReversed().map((batch) => (
          <tr key={batch.from}>
            <td>
              <SeeIt at={batch.from} until={batch.to} station={station}>
                {past.when(batch.from, zone)}
              </SeeIt>
            </td>
            <td className="n">{past.count(batch.of)}</td>
            <td className="n">{past.count(batch.counted)}</td>
            <td className="n">{batch.most === undefined ? '' : past.count(batch.most)}</td>
            <td>{so(batch)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
