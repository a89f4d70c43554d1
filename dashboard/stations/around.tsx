import type { AroundLane, AroundReading, AroundStop } from '../../model/past/around.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { useAsked } from '../past/asked.ts';
import { usePart } from '../store/use.tsx';

const { past } = words.screen;
const said = past.stations.around;

/** What is told of a stop that has begun may still come late. */
const AGAIN_MS = 60_000;
const SIDE_MS = 10_000;
const HEIGHT = 40;

/** What the PLC told from 10 s before a stop's beginning to 10 s after it, one lane a signal. */
export function Around({ stop, zone }: { readonly stop: string; readonly zone: string }) {
  const { id } = usePart('line');
  const asked = useAsked<AroundStop>(
    `/api/lines/${encodeURIComponent(id)}/past/around?stop=${encodeURIComponent(stop)}`,
    AGAIN_MS,
  );
  const around = asked.data;
  if (!around) return <p>{asked.state === 'refused' ? past.refused(asked.trouble ?? '') : past.asking}</p>;
  const { lanes, unmoved } = around;
  return (
    <section className="around" aria-label={said.title(around.at, zone)}>
      <h3>{said.title(around.at, zone)}</h3>
      <p className="second">
        {said.about(around)} {said.cause}
      </p>
      {!around.whole && <p>{said.notWhole}</p>}
      {lanes.length === 0 && <p>{said.nothing}</p>}
      <ul className="aroundlanes">
        {lanes.map((lane, place) => (
          <Lane key={lane.id} lane={lane} first={place === 0} />
        ))}
        <li className="aroundaxis" aria-hidden="true">
          <span />
          <div>
            {said.ticks.map(({ ms, said: tick }) => (
              <i key={ms} style={{ left: percent(ms) }}>
                {tick}
              </i>
            ))}
          </div>
          <span />
        </li>
      </ul>
      {unmoved.length > 0 && (
        <p className="foot">
          {said.unmoved}:{' '}
          <Figure of="aroundReading" quiet>
            {unmoved.map((lane) => said.unmovedOne(lane)).join('; ')}
          </Figure>
          .
        </p>
      )}
    </section>
  );
}

function Lane({ lane, first }: { readonly lane: AroundLane; readonly first: boolean }) {
  return (
    <li>
      <div className="aroundname">
        <b>{said.name(lane)}</b>
        {lane.normal && (
          <small>
            <Figure of="normalRange" quiet>
              {said.normal(lane)}
            </Figure>
          </small>
        )}
      </div>
      <div className={`aroundlane ${lane.kind}`} aria-hidden="true">
        <Unknown lane={lane} />
        {lane.kind === 'state' ? <States lane={lane} /> : <Drawn lane={lane} />}
        <u />
      </div>
      <p className="aroundsaid">
        {lane.outside && <b>{said.outside} </b>}
        <Figure of="aroundReading" quiet={!first}>
          {said.said(lane)}
        </Figure>
      </p>
    </li>
  );
}

/** Before the first reading that was found, nothing is known. */
function Unknown({ lane: { readings } }: { readonly lane: AroundLane }) {
  const first = readings[0]?.after ?? SIDE_MS;
  return first > -SIDE_MS ? (
    <i className="notknown" style={{ left: 0, right: `calc(100% - ${percent(first)})` }} />
  ) : null;
}

/** One thing after another, each with its word. */
function States({ lane }: { readonly lane: AroundLane }) {
  return lane.readings.map((reading, place) => {
    const until = lane.readings[place + 1]?.after ?? SIDE_MS;
    return (
      <span
        key={`${reading.after} ${String(reading.value)}`}
        className={reading.value === null ? 'one notknown' : 'one'}
        style={{ left: percent(reading.after), right: `calc(100% - ${percent(until)})` }}
      >
        <Figure of="aroundReading" quiet>
          {said.value(reading, lane)}
        </Figure>
      </span>
    );
  });
}

/** A measured value over its normal range, or a tick each time a counter moved. */
function Drawn({ lane }: { readonly lane: AroundLane }) {
  return (
    <svg
      width="100%"
      height={HEIGHT}
      viewBox={`0 0 ${2 * SIDE_MS} ${HEIGHT}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      {lane.kind === 'count' ? <path className="ticks" d={ticksOf(lane.readings)} /> : <Value lane={lane} />}
    </svg>
  );
}

function Value({ lane: { readings, normal } }: { readonly lane: AroundLane }) {
  const values = readings.flatMap(({ value }) => (typeof value === 'number' ? [value] : []));
  const [low, high] = [Math.min(...values, ...(normal ?? [])), Math.max(...values, ...(normal ?? []))];
  const y = (value: number) => HEIGHT - 5 - ((HEIGHT - 10) * (value - low)) / Math.max(1e-9, high - low);
  return (
    <>
      {normal && (
        <rect
          className="normal1"
          x={0}
          width={2 * SIDE_MS}
          y={y(normal[1])}
          height={y(normal[0]) - y(normal[1])}
        />
      )}
      <path className="value1" d={stepsOf(readings, y)} />
    </>
  );
}

function ticksOf(readings: readonly AroundReading[]): string {
  return readings
    .filter(({ after }) => after > -SIDE_MS)
    .map(({ after }) => `M${after + SIDE_MS} 8V${HEIGHT - 8}`)
    .join('');
}

/** Each value until the next one; nothing is joined across what is not known. */
function stepsOf(readings: readonly AroundReading[], y: (value: number) => number): string {
  let joined = false;
  return readings
    .map(({ after, value }, place) => {
      if (typeof value !== 'number') {
        joined = false;
        return '';
      }
      const until = readings[place + 1]?.after ?? SIDE_MS;
      const step = `${joined ? 'V' : `M${after + SIDE_MS} `}${y(value)}H${until + SIDE_MS}`;
      joined = true;
      return step;
    })
    .join('');
}

function percent(after: number): string {
  return `${(100 * (after + SIDE_MS)) / (2 * SIDE_MS)}%`;
}
