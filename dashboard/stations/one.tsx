import { useState } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';
import type { StationTold } from '../../model/past/worsePast.ts';
import { DESK_FROM } from '../app/route.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { figuresSeen } from '../figures/period.ts';
import type { Numbered } from '../figures/pieces.ts';
import { FittedHere } from '../fitted/fitted.tsx';
import { DoneAt } from '../maintenance/done.tsx';
import { ToMaintenance } from '../maintenance/toMaintenance.tsx';
import { Carton } from '../marks/symbols.tsx';
import { Caution } from '../matters/caution.tsx';
import { Going } from '../matters/going.tsx';
import { useAsked } from '../past/asked.ts';
import { periodOf, queryOf, useChosen } from '../past/chosen.ts';
import { PeriodChoice } from '../past/choose.tsx';
import { Frame } from '../past/frame.tsx';
import { seenNumbers } from '../past/numbers.ts';
import { LossBar } from '../path/bar.tsx';
import { causesSaid, scaleOf } from '../path/loss.ts';
import { causeNumbers, flapNumbers } from '../path/station.tsx';
import { usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { Adjustments } from './adjustments.tsx';
import { Explains } from './explains.tsx';
import { OwnNormal } from './normal.tsx';
import { AGAIN_MS } from './stations.tsx';
import { StationStops } from './stops.tsx';
import { StationStrip } from './strip.tsx';
import { Trend } from './trend.tsx';

const { past, caution } = words.screen;
const said = past.stations;
/** Stops that the list has at first, and so many more each time. */
const SHOWN = 20;
/** Batches that are drawn at first, on a phone and on a desk; no drawing has more points than the last. */
const BATCHES = { phone: 60, desk: 160, most: 480 } as const;

/** One station: how it is now, what came to it, its trend, its adjustments as they read, and its stops. */
export function OneStation({
  id,
  overview,
}: {
  readonly id: string;
  readonly overview: PastOverview | undefined;
}) {
  const [chosen, choose] = useChosen();
  const line = usePart('line').id;
  const period = chosen.period ?? 'shift';
  const stretch = overview && periodOf(period, overview);
  const query =
    stretch &&
    queryOf({
      ...stretch,
      size: chosen.size,
      batches: chosen.batches ?? BATCHES[innerWidth < DESK_FROM ? 'phone' : 'desk'],
      most: Number(chosen.most ?? SHOWN),
    });
  const asked = useAsked<StationTold>(
    query && `/api/lines/${encodeURIComponent(line)}/past/stations/${encodeURIComponent(id)}${query}`,
    AGAIN_MS,
  );
  const one = asked.data;
  const named = overview?.stations.find((station) => station.id === id);
  const span =
    one && overview ? past.period.span(one.seen.from, one.seen.to, overview.now, overview.zone) : '…';
  return (
    <Frame
      screen="stations"
      title={named ? said.oneTitle(named.number, named.name) : id}
      lead={one ? said.oneLead(one, span) : [asked.state === 'refused' ? '' : past.asking, '']}
      of={one && leadNumbers(one)}
      seen={figuresSeen(one?.seen, { size: chosen.size })}
      actions={<ToMaintenance />}
      overview={overview}
      asked={asked}
    >
      {overview && (
        <>
          <div className="choices">
            <PeriodChoice overview={overview} chosen={period} choose={(name) => choose({ period: name })} />
          </div>
          <StationStrip overview={overview} current={id} />
        </>
      )}
      {one && overview && (
        <>
          <Now one={one} zone={overview.zone} />
          <Caution title={caution.title} text={caution.jam} />
          <OwnNormal one={one} zone={overview.zone} />
          <Explained one={one} zone={overview.zone} />
          <Trend
            one={one}
            zone={overview.zone}
            choose={(size) => choose({ size })}
            more={chosen.batches === undefined ? () => choose({ batches: String(BATCHES.most) }) : undefined}
          />
          <Adjustments station={one.sum.station.id} adjustments={one.adjustments} zone={overview.zone} />
          <FittedHere station={id} />
          <DoneAt station={id} now={overview.now} zone={overview.zone} />
          <StationStops
            stops={one.stops}
            zone={overview.zone}
            again={asked.again}
            opened={chosen.stop}
            open={(stop) => choose({ stop })}
            more={() => choose({ most: String(Math.min(500, one.stops.list.length + 2 * SHOWN)) })}
          />
        </>
      )}
    </Frame>
  );
}

/** What explains its trouble, where it has some; else for whoever asks. */
function Explained({ one, zone }: { readonly one: StationTold; readonly zone: string }) {
  const { id } = one.sum.station;
  const told = usePart('notices').open.some(({ station }) => station?.id === id);
  const outside = one.normal?.rules.some((rule) => rule.outside) ?? false;
  const [wanted, want] = useState(false);
  if (told || outside) return <Explains station={id} zone={zone} />;
  return (
    <details className="noprint" onToggle={(event) => want(event.currentTarget.open)}>
      <summary>{said.explains.open}</summary>
      <p>{said.explains.inside}</p>
      {wanted && <Explains station={id} zone={zone} />}
    </details>
  );
}

/** The carton as it is folded here, how the station is now, and what came to it in the time that was chosen. */
function Now({ one, zone }: { readonly one: StationTold; readonly zone: string }) {
  const { station } = one.sum;
  const live = usePart('path').stations.find(({ id }) => id === station.id);
  const mark = live?.mark ?? 'none';
  const { rejects } = live ?? {};
  return (
    <section className="sheet stationnow">
      <Carton drawing={station.drawing} off={mark !== 'none'} width={120} />
      <div>
        {mark !== 'none' && <p className="stationtab">{said.now[mark]}</p>}
        {live && rejects && (
          <p className="big">
            <Rich text={said.rejectsNow(rejects.inLast, rejects.of, rejects.normal)} of={flapNumbers(live)} />
          </p>
        )}
        {mark === 'firstFault' && <Going />}
        <h2>{said.figures}</h2>
        <Figures one={one} />
        <p className="foot">
          <Rich text={said.whole(one.shifts)} of={[['seenOf', past.count(one.shifts)]]} quiet />{' '}
          <Rich text={past.seen(one.seen, zone)} of={seenNumbers(one.seen)} /> {said.charged}
        </p>
      </div>
    </section>
  );
}

const FIGURE_OF = {
  presented: 'presented',
  rejects: 'rejected',
  empty: 'notLoaded',
  missed: 'missedPick',
  crushed: 'crushed',
} as const;

/** Numbers of the heading's answer: stops here, and what was lost here. */
function leadNumbers({ sum, stops }: StationTold): readonly Numbered[] {
  return [
    ['stops', past.count(stops.stops)],
    ['stood', past.lasted(stops.stood)],
    ['lostByStation', past.count(Math.abs(sum.lost))],
  ];
}

function Figures({ one: { sum } }: { readonly one: StationTold }) {
  const { figure } = said;
  return (
    <dl className="stationfigures">
      {(['presented', 'rejects', 'empty', 'missed', 'crushed'] as const)
        .filter((name) => sum[name] !== undefined || name === 'presented')
        .map((name) => (
          <div key={name}>
            <dt>{figure[name]}</dt>
            <dd>
              {sum[name] === undefined ? (
                said.noCounterHere
              ) : (
                <Figure of={FIGURE_OF[name]}>{past.count(sum[name])}</Figure>
              )}
            </dd>
          </div>
        ))}
      <div className="wide">
        <dt>{figure.lost}</dt>
        <dd>
          <Figure of="lostByStation">{words.screen.line.path.amount(sum.lost)}</Figure>
          <svg width={202} height={18} aria-hidden="true">
            <LossBar
              causes={sum.causes}
              perCarton={scaleOf([sum.lost], 0, 200)}
              x={1}
              y={1}
              height={16}
              anchor="start"
            />
          </svg>
          <small>
            <Rich text={causesSaid(sum.causes)} of={causeNumbers(sum.causes)} />
          </small>
        </dd>
      </div>
    </dl>
  );
}
