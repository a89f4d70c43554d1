import type { AttributedAnswer } from '../../model/past/attributedAnswer.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import type { StationSum } from '../../model/past/stationsPast.ts';
import type { StationsTold, StationWorse } from '../../model/past/worsePast.ts';
import type { LossPart } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Attributed } from '../figures/attributed.tsx';
import { Figure } from '../figures/figure.tsx';
import { figuresSeen } from '../figures/period.ts';
import type { Numbered } from '../figures/pieces.ts';
import { ToMaintenance } from '../maintenance/toMaintenance.tsx';
import { Carton } from '../marks/symbols.tsx';
import { useAsked } from '../past/asked.ts';
import { periodOf, queryOf, useChosen } from '../past/chosen.ts';
import { PeriodChoice } from '../past/choose.tsx';
import { Frame } from '../past/frame.tsx';
import { seenNumbers } from '../past/numbers.ts';
import { LossBar, Swatch } from '../path/bar.tsx';
import { causesSaid, scaleOf } from '../path/loss.ts';
import { sumNumbers } from '../path/path.tsx';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { AGAIN_MS } from './stations.tsx';
import { addressOf, StationStrip } from './strip.tsx';

const { past } = words.screen;
const said = past.stations;
const BAR = { most: 190, height: 16 } as const;

/** Every station in the order of the line: what came, what was lost there and why, and what stopped there. */
export function AllStations({ overview }: { readonly overview: PastOverview | undefined }) {
  const [chosen, choose] = useChosen();
  const { id } = usePart('line');
  const period = chosen.period ?? 'shift';
  const stretch = overview && periodOf(period, overview);
  const asked = useAsked<StationsTold>(
    stretch && `/api/lines/${encodeURIComponent(id)}/past/stations${queryOf({ ...stretch })}`,
    AGAIN_MS,
  );
  const all = asked.data;
  // of the same whole shifts as the table above it
  const attributed = useAsked<AttributedAnswer>(
    all &&
      `/api/lines/${encodeURIComponent(id)}/past/attributed${queryOf({ from: all.seen.from, to: stretch?.to === undefined ? undefined : all.seen.to })}`,
    AGAIN_MS,
  );
  const span =
    all && overview ? past.period.span(all.seen.from, all.seen.to, overview.now, overview.zone) : '…';
  return (
    <Frame
      screen="stations"
      title={said.title(span)}
      lead={all ? said.lead(all) : [past.asking, '']}
      of={all && leadNumbers(all)}
      seen={figuresSeen(all?.seen)}
      actions={<ToMaintenance />}
      overview={overview}
      asked={asked}
    >
      {overview && (
        <>
          <div className="choices">
            <PeriodChoice overview={overview} chosen={period} choose={(name) => choose({ period: name })} />
          </div>
          <StationStrip overview={overview} current={undefined} />
        </>
      )}
      {all && overview && <Table all={all} zone={overview.zone} />}
      {attributed.data && overview && <Attributed answer={attributed.data} zone={overview.zone} />}
    </Frame>
  );
}

/** Numbers of the heading's answer: all that was lost, at the station that lost most, and at none. */
function leadNumbers({ lost, stations, none }: StationsTold): readonly Numbered[] {
  const most = Math.max(0, ...stations.map((one) => one.lost));
  return [
    ['lost', past.count(Math.abs(lost.total))],
    ['lostByStation', past.count(most)],
    ['lostByStation', past.count(none.lost)],
  ];
}

function Table({ all, zone }: { readonly all: StationsTold; readonly zone: string }) {
  const { columns } = said;
  const lost = [...all.stations.map((one) => one.lost), all.none.lost];
  const perCarton = scaleOf(lost, all.lost.possible, BAR.most);
  return (
    <section className="sheet stationtable">
      <CauseKey all={all} />
      <table>
        <caption className="unseen">{said.table}</caption>
        <thead>
          <tr>
            <th scope="col">{columns.station}</th>
            <th scope="col" className="n">
              <Figure of="presented">{columns.presented}</Figure>
            </th>
            <th scope="col" className="n">
              <Figure of="rejected">{columns.rejects}</Figure>
            </th>
            <th scope="col" className="n">
              <Figure of="notLoaded">{columns.empty}</Figure>
            </th>
            <th scope="col" className="n">
              <Figure of="missedPick">{columns.missed}</Figure>
            </th>
            <th scope="col" className="n">
              <Figure of="crushed">{columns.crushed}</Figure>
            </th>
            <th scope="col" className="n">
              <Figure of="stops">{columns.stops}</Figure>
            </th>
            <th scope="col">
              <Figure of="lostByStation">{columns.lost}</Figure>
            </th>
          </tr>
        </thead>
        <tbody>
          {all.stations.map((one) => (
            <Row
              key={one.station.id}
              one={one}
              worse={all.worse.find(({ station }) => station === one.station.id)}
              perCarton={perCarton}
            />
          ))}
          <tr className="nostation">
            <th scope="row">{said.none}</th>
            <td colSpan={6} />
            <Lost lost={all.none.lost} causes={all.none.causes} perCarton={perCarton} />
          </tr>
        </tbody>
      </table>
      <p className="lostsum">
        <Rich text={said.sum(all.lost)} of={sumNumbers(all.lost, false)} />
      </p>
      <p className="foot">
        <Rich text={said.whole(all.shifts)} of={[['seenOf', past.count(all.shifts)]]} quiet />{' '}
        <Rich text={past.seen(all.seen, zone)} of={seenNumbers(all.seen)} /> {said.counts} {said.charged}{' '}
        {said.noCounterSaid}.
      </p>
    </section>
  );
}

function Row({
  one,
  worse,
  perCarton,
}: {
  readonly one: StationSum;
  readonly worse: StationWorse | undefined;
  readonly perCarton: number;
}) {
  const { columns } = said;
  const { station } = one;
  return (
    <tr>
      <th scope="row">
        <a className="where" href={addressOf(station.id)}>
          <Carton drawing={station.drawing} width={28} className="small" />
          {past.station(station.number, station.name)}
        </a>
        {worse && worse.outside.length > 0 && <small className="offtab abnormal">{said.normal.short}</small>}
      </th>
      {(['presented', 'rejects', 'empty', 'missed', 'crushed'] as const).map((name) => (
        <td key={name} className={one[name] === undefined ? 'n nocounter' : 'n'} data-label={columns[name]}>
          {said.number(one[name])}
        </td>
      ))}
      <td className="n" data-label={columns.stops}>
        {said.stopsOf(one.stops, one.stood)}
      </td>
      <Lost lost={one.lost} causes={one.causes} perCarton={perCarton} />
    </tr>
  );
}

function Lost({
  lost,
  causes,
  perCarton,
}: {
  readonly lost: number;
  readonly causes: readonly LossPart[];
  readonly perCarton: number;
}) {
  return (
    <td className="lost">
      <div>
        <b>{words.screen.line.path.amount(lost)}</b>
        <svg width={BAR.most + 12} height={BAR.height + 2} aria-hidden="true">
          <LossBar causes={causes} perCarton={perCarton} x={1} y={1} height={BAR.height} anchor="start" />
        </svg>
      </div>
      <small>{causesSaid(causes)}</small>
    </td>
  );
}

/** Which pattern is which cause; only those that occur. */
function CauseKey({ all }: { readonly all: StationsTold }) {
  const there = new Set(
    [...all.stations, all.none].flatMap(({ causes }) => causes.map(({ cause }) => cause)),
  );
  return (
    <ul className="pastkey">
      {[...there].map((cause) => (
        <li key={cause}>
          <svg width={26} height={14} aria-hidden="true">
            <Swatch cause={cause} x={1} y={1} width={24} height={12} />
          </svg>
          {words.screen.line.path.cause(cause)}
        </li>
      ))}
    </ul>
  );
}
