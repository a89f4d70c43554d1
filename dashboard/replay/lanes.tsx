import type { AroundLane } from '../../model/past/around.ts';
import { words } from '../app/words.ts';
import { measure } from '../type/measure.ts';
import { type TimeBox, xOf } from './scale.ts';

const said = words.screen.past.replay;
const around = words.screen.past.stations.around;
const ROW = 44;
const HEIGHT = 26;
const TYPE = 13;

/** What the signals of a station read, one lane each: a measured value over its normal range, ticks of a counter, or one state after another. */
export function StationLanes({
  lanes,
  asked,
  width,
  at,
}: {
  readonly lanes: readonly AroundLane[];
  readonly asked: { readonly from: number; readonly to: number };
  readonly width: number;
  readonly at: number;
}) {
  const box: TimeBox = { ...asked, left: width < 700 ? 8 : 168, right: width - 8 };
  if (lanes.length === 0) return <p className="second">{said.lanes.empty}</p>;
  const x = xOf(at, box);
  return (
    <svg
      width={width}
      height={lanes.length * ROW + 4}
      className="windowsheet stationlanes"
      role="img"
      aria-label={said.lanes.title}
    >
      {lanes.map((lane, place) => (
        <Lane key={lane.id} lane={lane} box={box} y={place * ROW + 4} named={box.left > 100} at={at} />
      ))}
      {at >= box.from && at <= box.to && <path d={`M${x} 0V${lanes.length * ROW}`} className="pocketline" />}
    </svg>
  );
}

function Lane({
  lane,
  box,
  y,
  named,
  at,
}: {
  readonly lane: AroundLane;
  readonly box: TimeBox;
  readonly y: number;
  readonly named: boolean;
  readonly at: number;
}) {
  const here = lane.readings.findLast(({ after }) => box.from + after <= at);
  const top = y + (named ? 8 : 14);
  return (
    <g>
      <text x={named ? 0 : box.left} y={y + (named ? 12 : 8)} fontSize={TYPE}>
        {cutTo(around.name(lane), named ? box.left - 16 : 220)}
      </text>
      {named && here && (
        <text x={0} y={y + 30} fontSize={TYPE} className="ink2">
          {cutTo(readingOf(lane, here), box.left - 16)}
        </text>
      )}
      {lane.kind === 'count' ? (
        <Ticks lane={lane} box={box} top={top} />
      ) : lane.kind === 'value' ? (
        <Values lane={lane} box={box} top={top} />
      ) : (
        <States lane={lane} box={box} top={top} />
      )}
      {lane.more > 0 && <LeftOut lane={lane} box={box} top={top} />}
    </g>
  );
}

/** One lane, on the scale of the window, from so far down. */
interface Drawn {
  readonly lane: AroundLane;
  readonly box: TimeBox;
  readonly top: number;
}

/** A counter says what it counted in the window up to here: its own number means nothing to anybody. */
function readingOf(lane: AroundLane, here: AroundLane['readings'][number]): string {
  const first = lane.readings[0]?.value;
  if (
    lane.kind !== 'count' ||
    typeof here.value !== 'number' ||
    typeof first !== 'number' ||
    here.value < first
  )
    return around.value(here, lane);
  return said.lanes.sinceBegin(here.value - first);
}

/** From here on there were more readings than are drawn: nothing is said of them. */
function LeftOut({ lane, box, top }: Drawn) {
  const left = xOf(box.from + (lane.readings.at(-1)?.after ?? 0), box);
  return (
    <>
      <rect x={left} y={top + 2} width={box.right - left} height={HEIGHT - 6} className="statebox dark" />
      <text x={left + 6} y={top + HEIGHT / 2 - 1} dy=".36em" fontSize={TYPE}>
        {said.lanes.more(lane.more)}
      </text>
    </>
  );
}

function cutTo(text: string, max: number): string {
  if (measure(text, TYPE) <= max) return text;
  let shown = text;
  while (shown.length > 1 && measure(`${shown}…`, TYPE) > max) shown = shown.slice(0, -1);
  return `${shown}…`;
}

function Ticks({ lane, box, top }: Drawn) {
  const path = lane.readings
    .filter(({ after }) => after > 0)
    .map(({ after }) => `M${xOf(box.from + after, box)} ${top + 4}V${top + HEIGHT - 4}`)
    .join('');
  return (
    <>
      <path d={`M${box.left} ${top + HEIGHT / 2}H${box.right}`} className="laneline" />
      <path d={path} className="edge" />
    </>
  );
}

function Values({ lane, box, top }: Drawn) {
  const values = lane.readings.flatMap(({ value }) => (typeof value === 'number' ? [value] : []));
  const { normal } = lane;
  const [low, high] = [Math.min(...values, ...(normal ?? [])), Math.max(...values, ...(normal ?? []))];
  const y = (value: number) =>
    top + HEIGHT - 3 - ((HEIGHT - 6) * (value - low)) / Math.max(1e-9, high - low || 1);
  let joined = false;
  const path = lane.readings
    .map(({ after, value }, place) => {
      if (typeof value !== 'number') {
        joined = false;
        return '';
      }
      const begin = xOf(box.from + Math.max(0, after), box);
      const next = lane.readings[place + 1];
      const end = next ? xOf(box.from + next.after, box) : box.right;
      const step = `${joined ? 'V' : `M${begin} `}${y(value)}H${end}`;
      joined = true;
      return step;
    })
    .join('');
  return (
    <>
      {normal && (
        <rect
          x={box.left}
          y={y(normal[1])}
          width={box.right - box.left}
          height={Math.max(1, y(normal[0]) - y(normal[1]))}
          className="normalband"
        />
      )}
      <path d={path} className="valueline" />
    </>
  );
}

function States({ lane, box, top }: Drawn) {
  return lane.readings.map((reading, place) => {
    const left = xOf(box.from + Math.max(0, reading.after), box);
    const next = lane.readings[place + 1];
    const right = next ? xOf(box.from + next.after, box) : box.right;
    const name = around.value(reading, lane);
    return (
      <g key={reading.after}>
        <rect
          x={left}
          y={top + 2}
          width={Math.max(1, right - left)}
          height={HEIGHT - 6}
          className={reading.value === null ? 'statebox dark' : 'statebox'}
        />
        {measure(name, TYPE) + 10 < right - left && (
          <text x={left + 5} y={top + HEIGHT / 2 - 1} dy=".36em" fontSize={TYPE}>
            {name}
          </text>
        )}
      </g>
    );
  });
}
