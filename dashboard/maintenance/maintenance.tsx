import type { MaintenancePast, MaintenanceStation } from '../../model/past/maintenancePast.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { figuresSeen } from '../figures/period.ts';
import type { Numbered } from '../figures/pieces.ts';
import { Carton } from '../marks/symbols.tsx';
import { Caution } from '../matters/caution.tsx';
import { OpenNotices } from '../notices/openNotices.tsx';
import { useAsked } from '../past/asked.ts';
import { Frame } from '../past/frame.tsx';
import { seenNumbers } from '../past/numbers.ts';
import { addressOf } from '../stations/strip.tsx';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { DayMarks } from './dayMarks.tsx';
import { DoneList } from './done.tsx';
import { EnterChange } from './enterChange.tsx';

const { past, caution } = words.screen;
const said = past.maintenance;

/** How often it is asked again. */
const AGAIN_MS = 30_000;

/** Each station's last days, the worst first, and what was done there: the evidence first, and nothing that advises. */
export function Maintenance({ overview }: { readonly overview: PastOverview | undefined }) {
  const { id } = usePart('line');
  const asked = useAsked<MaintenancePast>(`/api/lines/${encodeURIComponent(id)}/past/maintenance`, AGAIN_MS);
  const all = asked.data;
  return (
    <Frame
      screen="maintenance"
      title={said.title}
      lead={all ? said.lead(all) : [past.asking, '']}
      of={all && leadNumbers(all)}
      seen={figuresSeen(all?.seen)}
      overview={overview}
      asked={asked}
    >
      {all && overview && (
        <>
          <section className="sheet maintained">
            <h2>{said.stations}</h2>
            <ul>
              {all.stations.map((one) => (
                <Row key={one.station.id} one={one} all={all} zone={overview.zone} />
              ))}
            </ul>
            <p className="foot">
              {said.key} <Rich text={past.seen(all.seen, overview.zone)} of={seenNumbers(all.seen)} />{' '}
              {said.foot}
            </p>
          </section>
          <Caution title={caution.title} text={caution.jam} />
          <OpenNotices />
          <DoneList done={all.done} zone={overview.zone} />
          <EnterChange overview={overview} again={asked.again} />
        </>
      )}
    </Frame>
  );
}

/** Numbers of the heading's answer: what most stood by. */
function leadNumbers({ stations }: MaintenancePast): readonly Numbered[] {
  const [most] = [...stations].sort((a, b) => b.stood - a.stood);
  if (!most) return [];
  return [
    ['stops', past.count(most.stops)],
    ['stood', past.past(most.stood)],
  ];
}

function Row({
  one,
  all,
  zone,
}: {
  readonly one: MaintenanceStation;
  readonly all: MaintenancePast;
  readonly zone: string;
}) {
  const { station, outside } = one;
  const most = Math.max(1, ...all.stations.flatMap(({ days }) => days.map(({ stood }) => stood)));
  return (
    <li aria-label={said.rowSaid(one)}>
      <Carton drawing={station.drawing} off={outside.length > 0} width={44} className="small" />
      <div className="what">
        <b>
          <a className="where" href={addressOf(station.id)}>
            {past.station(station.number, station.name)}
          </a>
        </b>
        {outside.length > 0 && <small className="offtab abnormal">{said.outside}</small>}
      </div>
      <DayMarks days={one.days} starts={all.days} most={most} zone={zone} dated={one === all.stations[0]} />
      <p className="sum1">
        <Rich
          text={said.row(one)}
          of={[
            ['stops', past.count(one.stops)],
            ['stood', past.past(one.stood)],
          ]}
          quiet
        />
      </p>
    </li>
  );
}
