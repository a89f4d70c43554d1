import { useEffect, useState } from 'react';
import type { Frame } from '../../model/replay/asked.ts';
import type { PastStop, StopsPast } from '../../model/past/stopsPast.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { queryOf } from '../past/chosen.ts';

const { past } = words.screen;
const said = past.replay.soFar;

/** The gateway is asked once the moment has rested so long; and again, in case what came since says more. */
const REST_MS = 400;
const AGAIN_MS = 60_000;
const LISTED = 8;

/** The stops of the shift up to the moment looked at, as the gateway would have told them then, or tells them now. */
export function SoFar({
  line,
  from,
  frame,
  station,
  zone,
  go,
}: {
  readonly line: string;
  readonly from: number;
  readonly frame: Frame;
  readonly station: string | undefined;
  readonly zone: string;
  readonly go: (at: number) => void;
}) {
  const { position, as, view } = useRested(frame);
  const then = as === 'shown' ? { asOf: position, shownAt: view.at } : {};
  const query = queryOf({ from, to: view.at, station, most: LISTED, ...then });
  const asked = useAsked<StopsPast>(`/api/lines/${encodeURIComponent(line)}/past/stops${query}`, AGAIN_MS);
  const stops = asked.data;
  return (
    <section className="sofar">
      <h3>{said.title(as, view.path.stations.find(({ id }) => id === station)?.name)}</h3>
      {asked.state === 'refused' && <p>{past.refused(asked.trouble ?? '')}</p>}
      {asked.state === 'noAnswer' && <p>{past.noAnswer}</p>}
      {stops && <p className="second">{said.sum(stops.stops, stops.stood)}</p>}
      <ol>
        {stops?.list.map((stop) => (
          <Row key={stop.id} stop={stop} zone={zone} go={go} />
        ))}
      </ol>
      {stops && stops.stops > stops.list.length && (
        <p className="foot">{said.more(stops.stops - stops.list.length)}</p>
      )}
    </section>
  );
}

function Row({
  stop,
  zone,
  go,
}: {
  readonly stop: PastStop;
  readonly zone: string;
  readonly go: (at: number) => void;
}) {
  return (
    <li>
      <button type="button" onClick={() => go(stop.at)}>
        <span className="offset">{past.exactly(stop.at, zone)}</span>
        <span className="what">{said.one(stop)}</span>
      </button>
    </li>
  );
}

/** The newest frame that has rested. */
function useRested(frame: Frame): Frame {
  const [rested, set] = useState(frame);
  useEffect(() => {
    const timer = setTimeout(() => set(frame), REST_MS);
    return () => clearTimeout(timer);
  }, [frame]);
  return rested;
}
