import { useLayoutEffect, useState } from 'react';
import type { Frame } from '../../model/replay/asked.ts';
import type { As } from '../../model/replay/replay.ts';
import type { StationView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Head } from '../blank/head.tsx';
import { useSaid } from '../blank/said.ts';
import { Caution } from '../matters/caution.tsx';
import { Carton } from '../marks/symbols.tsx';
import { LossBar } from '../path/bar.tsx';
import { causesSaid, scaleOf } from '../path/loss.ts';
import { Choice } from '../past/choose.tsx';
import { Path } from '../path/path.tsx';
import { Adjustments } from '../stations/adjustments.tsx';
import { SoFar } from './soFar.tsx';
import { createStore } from '../store/store.ts';
import { type Doors, DoorsProvider, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { DevicePath } from '../wall/device-path.tsx';

const said = words.screen.past.replay;
/** Nothing is entered in a moment that has passed. */
const nothing = () => {};

interface Shown {
  readonly frame: Frame;
  readonly zone: string;
  readonly station: string | undefined;
  readonly choose: (station: string | undefined) => void;
  readonly as: As;
  readonly setAs: (as: As) => void;
  /** When the shift began, milliseconds since 1970. */
  readonly from: number;
  readonly go: (at: number) => void;
}

/** The line at the moment looked at: its parts are drawn from that view as the Line screen draws them from the newest. */
export function AtCursor({ frame, ...shown }: Omit<Shown, 'frame'> & { readonly frame: Frame | undefined }) {
  if (frame) return <Ready frame={frame} {...shown} />;
  return (
    <section className="sheet atcursor">
      <p className="second">{said.here.waiting}</p>
    </section>
  );
}

function Ready(shown: Shown) {
  const { view } = shown.frame;
  const [doors] = useState<Doors>(() => ({ store: createStore(0, view), enter: nothing }));
  useLayoutEffect(() => doors.store.whole(0, view, 0), [doors, view]);
  return (
    <DoorsProvider doors={doors}>
      <Here {...shown} />
    </DoorsProvider>
  );
}

function Here({ frame, zone, station, choose, as, setAs, from, go }: Shown) {
  const { said: head } = useSaid();
  const { stations } = usePart('path');
  const one = stations.find(({ id }) => id === station);
  return (
    <section className="sheet atcursor" data-at={frame.view.at}>
      <header>
        <h2>{said.here.title(frame.view.at, zone)}</h2>
        <p className="sentence">
          <b>{head.title}.</b> {head.lines.join(', ')}
        </p>
        <Choice
          label={said.as.label}
          options={[
            { id: 'shown', said: said.as.shown },
            { id: 'known', said: said.as.known },
          ]}
          chosen={as}
          choose={(chosen) => setAs(chosen === 'known' ? 'known' : 'shown')}
        />
      </header>
      <StationRow stations={stations} chosen={station} choose={choose} />
      {one && <OneStation one={one} />}
      {one && frame.adjustments && (
        <Adjustments station={one.id} adjustments={frame.adjustments} zone={zone} />
      )}
      <SoFar line={frame.view.line.id} from={from} frame={frame} station={station} zone={zone} go={go} />
      <details>
        <summary>{said.here.whole}</summary>
        <div className="wholeline">
          <Head />
          {frame.view.head.kind === 'pressed' ? <DevicePath /> : <Path />}
        </div>
      </details>
      <p className="foot">
        {said.here.position(frame.position)}. {said.as.about[frame.as]}
      </p>
    </section>
  );
}

/** The carton's path with what each station had lost by then; one of them can be looked at. */
function StationRow({
  stations,
  chosen,
  choose,
}: {
  readonly stations: readonly StationView[];
  readonly chosen: string | undefined;
  readonly choose: (station: string | undefined) => void;
}) {
  const { total } = usePart('path');
  const largest = Math.max(1, ...stations.map(({ lost }) => lost));
  const { path, count } = words.screen.line;
  return (
    <>
      <ol className="stationrow" aria-label={words.screen.past.stations.strip}>
        {stations.map((station) => (
          <li key={station.id} className={station.mark === 'none' ? '' : 'marked'}>
            <button
              type="button"
              aria-pressed={station.id === chosen}
              title={words.screen.past.station(station.number, station.name)}
              onClick={() => choose(station.id === chosen ? undefined : station.id)}
            >
              <Carton drawing={station.drawing} off={station.mark !== 'none'} width={66} />
              <span className="unseen">{words.screen.past.station(station.number, station.name)}</span>
              <span className={station.lost === largest ? 'lost first' : 'lost'}>{count(station.lost)}</span>
              <svg viewBox="0 0 66 12" aria-hidden="true">
                <LossBar
                  causes={station.causes}
                  perCarton={62 / largest}
                  x={33}
                  y={1}
                  height={10}
                  anchor="middle"
                />
              </svg>
            </button>
          </li>
        ))}
      </ol>
      <p className="second">
        <Rich text={path.lostThisShift(total)} />
      </p>
    </>
  );
}

function OneStation({ one }: { readonly one: StationView }) {
  const { caution } = words.screen;
  return (
    <div className="onestation">
      <h3>{words.screen.past.station(one.number, one.name)}</h3>
      <p>{causesSaid(one.causes)}</p>
      <svg viewBox="0 0 400 16" aria-hidden="true">
        <LossBar
          causes={one.causes}
          perCarton={scaleOf([one.lost], 0, 390)}
          x={1}
          y={1}
          height={14}
          anchor="start"
        />
      </svg>
      {one.rejects && <p>{said.here.rejects(one.rejects)}</p>}
      <p className="second">{said.here.stops(one.stops)}</p>
      <Caution text={caution.jam} mark={28} />
    </div>
  );
}
