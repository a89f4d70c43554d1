import { type Key, type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { Line, LineChart, ReferenceArea, ReferenceLine, XAxis, YAxis } from 'recharts';
import type { Batch } from '../../model/past/batches.ts';
import type { StationTrend } from '../../model/past/stationPast.ts';
import { words } from '../app/words.ts';
import { useFigure } from '../figures/figure.tsx';
import { SeeIt } from '../replay/seeIt.tsx';

const { past } = words.screen;
const said = past.stations.trend;
const BOX = { top: 26, height: 190, axis: 26, left: 34, type: 13 } as const;
/** Room on the right for the limit in words; narrower drawings leave it to the sentence below. */
const LABELS = { right: 116, from: 900 } as const;

/** A batch at its place in the drawing; nothing is joined to `undefined`. */
interface Point {
  readonly x: number;
  readonly y: number | undefined;
  readonly batch: Batch | undefined;
  /** Its number is written beside it: of those above that stand close, the largest has room. */
  readonly named: boolean;
}

/** Batches as a line over the shaded band of the station's own normal: a circle below the line, a diamond with its number above it. */
export function TrendChart({
  trend,
  station,
  zone,
}: {
  readonly trend: StationTrend;
  readonly station: string;
  readonly zone: string;
}) {
  const [frame, width] = useWidth();
  const points = useMemo(() => pointsOf(trend.batches, width), [trend.batches, width]);
  const bands = useMemo(() => bandsOf(points), [points]);
  const heights = heightsOf(trend.batches);
  const top = heights.at(-1)!;
  const right = width >= LABELS.from && trend.normal ? LABELS.right : 12;
  return (
    <figure ref={frame} className="trendchart" aria-label={`${said.title(trend)}. ${said.said(trend)}`}>
      {width > 0 && (
        // the chart's library gives its own shapes tab stops; the table is what is read
        <div aria-hidden="true" inert>
          <LineChart
            width={width}
            height={BOX.top + BOX.height + BOX.axis}
            data={points}
            margin={{ top: BOX.top, left: 0, right, bottom: 0 }}
            accessibilityLayer={false}
          >
            <XAxis
              dataKey="x"
              type="number"
              domain={[-0.5, points.length - 0.5]}
              ticks={ticksOf(points, width)}
              tickFormatter={(x: number) => labelOf(points[x], zone)}
              height={BOX.axis}
              stroke="var(--cut)"
              tick={{ fill: 'var(--ink2)', fontSize: BOX.type }}
            />
            <YAxis
              type="number"
              domain={[0, top]}
              ticks={heights}
              width={BOX.left}
              axisLine={false}
              tickLine={false}
              tick={{ fill: 'var(--ink2)', fontSize: BOX.type }}
            />
            {bands.map(({ from, to, most }) => (
              <ReferenceArea
                key={from}
                x1={from}
                x2={to}
                y1={0}
                y2={most + 0.5}
                fill="var(--board2)"
                fillOpacity={1}
                stroke="none"
              />
            ))}
            {bands.map(({ from, to, most }) => (
              <ReferenceLine
                key={from}
                segment={[
                  { x: from, y: most + 0.5 },
                  { x: to, y: most + 0.5 },
                ]}
                stroke="var(--cut)"
                strokeDasharray="6 4"
              />
            ))}
            {points
              .filter(({ batch }) => batch === undefined)
              .map(({ x }) => (
                <ReferenceLine key={x} x={x} stroke="var(--score)" strokeDasharray="6 4" />
              ))}
            {trend.normal && <ReferenceLine y={trend.normal.mean} stroke="var(--score)" />}
            <Line
              dataKey="y"
              type="linear"
              stroke="var(--trace)"
              strokeWidth={1.6}
              dot={dotOf}
              activeDot={false}
              isAnimationActive={false}
              connectNulls={false}
            />
          </LineChart>
          {right > 12 && <Labels trend={trend} top={top} x={width - right + 10} width={width} />}
        </div>
      )}
      {width > 0 &&
        points.map(
          ({ x, batch, named }) =>
            batch &&
            named && (
              <SeeIt
                key={batch.from}
                className="onchart"
                at={batch.from}
                until={batch.to}
                station={station}
                named={`${past.when(batch.from, zone)}, ${said.batch(batch)}`}
                style={{
                  left: BOX.left + ((x + 0.5) / points.length) * (width - BOX.left - right),
                  top: BOX.top + BOX.height * (1 - batch.counted / top),
                }}
              />
            ),
        )}
    </figure>
  );
}

/** The limit and the normal, in words at their height. */
function Labels({
  trend: { normal },
  top,
  x,
  width,
}: {
  readonly trend: StationTrend;
  readonly top: number;
  readonly x: number;
  readonly width: number;
}) {
  const figure = useFigure();
  if (!normal) return null;
  const y = (value: number) => BOX.top + BOX.height * (1 - value / top);
  const [more, so] = said.aboveLabel(normal.most);
  const limit = Math.min(y(normal.most + 0.5), y(normal.mean) - 44);
  return (
    <svg className="trendlabels" width={width} height={BOX.top + BOX.height} aria-hidden="true">
      <text x={x} y={limit} fontSize={BOX.type} {...figure('rejectLimit', true)}>
        {more}
        <tspan x={x} dy={16}>
          {so}
        </tspan>
      </text>
      <text
        x={x}
        y={y(normal.mean) + 4}
        fontSize={BOX.type}
        className="ink2"
        {...figure('normalRejects', true)}
      >
        {said.normalLabel(normal.mean)}
      </text>
    </svg>
  );
}

/** Of a dot: its place, the point it stands for, and the key that the chart gives it. */
interface Dot {
  readonly cx?: number | undefined;
  readonly cy?: number | undefined;
  readonly payload?: Point;
  readonly key?: Key | null | undefined;
}

function dotOf({ cx, cy, payload, key }: Dot): ReactNode {
  const batch = payload?.batch;
  if (!batch || cx === undefined || cy === undefined) return <g key={key} />;
  if (!batch.above) return <circle key={key} className="below1" cx={cx} cy={cy} r={2.8} />;
  return (
    <g key={key}>
      <path className="above1" d={`M${cx} ${cy - 7}l7 7l-7 7l-7-7z`} />
      {payload.named && (
        <text
          x={cx}
          y={cy - 11}
          fontSize={BOX.type}
          fontWeight={700}
          textAnchor="middle"
          data-figure="batchRejects"
        >
          {past.count(batch.counted)}
        </text>
      )}
    </g>
  );
}

/** One place for each batch, and an empty one before each that stands apart. */
function pointsOf(batches: readonly Batch[], width: number): readonly Point[] {
  const points: Point[] = [];
  const near = Math.ceil((NUMBER_WIDE * batches.length) / Math.max(1, width));
  for (const [place, batch] of batches.entries()) {
    if (batch.apart && points.length > 0)
      points.push({ x: points.length, y: undefined, batch: undefined, named: false });
    const around = batches.slice(Math.max(0, place - near), place + near + 1);
    const named = batch.above && around.every((other) => other === batch || other.counted < batch.counted);
    points.push({ x: points.length, y: batch.counted, batch, named });
  }
  return points;
}
const NUMBER_WIDE = 20;

interface Band {
  readonly from: number;
  readonly to: number;
  readonly most: number;
}

/** Neighbours with the same limit have one band. */
function bandsOf(points: readonly Point[]): readonly Band[] {
  const bands: Band[] = [];
  for (const { x, batch } of points) {
    if (batch?.most === undefined) continue;
    const last = bands.at(-1);
    if (last && last.to === x - 0.5 && last.most === batch.most)
      bands[bands.length - 1] = { ...last, to: x + 0.5 };
    else bands.push({ from: x - 0.5, to: x + 0.5, most: batch.most });
  }
  return bands;
}

/** What the side of the drawing says, from 0 up to its top: whole numbers, a few of them. */
function heightsOf(batches: readonly Batch[]): number[] {
  const most = Math.max(4, ...batches.map(({ counted, most: limit = 0 }) => Math.max(counted, limit + 1)));
  const step = STEPS.find((one) => one * 4 >= most) ?? Math.ceil(most / 4);
  return Array.from({ length: Math.ceil(most / step) + 1 }, (_, n) => n * step);
}
const STEPS = [1, 2, 5, 10, 20, 50, 100] as const;

/** Some batches, evenly apart, that say when they began. */
function ticksOf(points: readonly Point[], width: number): readonly number[] {
  const shown = points.filter(({ batch }) => batch !== undefined);
  const many = Math.max(1, Math.min(shown.length, Math.floor(width / 150)));
  return Array.from({ length: many }, (_, n) => shown[Math.floor(((n + 0.5) * shown.length) / many)]!.x);
}

function labelOf(point: Point | undefined, zone: string): string {
  return point?.batch ? past.when(point.batch.from, zone) : '';
}

/** How wide what it stands in is; 0 before it is known. */
function useWidth() {
  const frame = useRef<HTMLElement>(null);
  const [width, set] = useState(0);
  useEffect(() => {
    const element = frame.current;
    if (!element) return;
    const watch = new ResizeObserver(() => set(Math.floor(element.clientWidth)));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return [frame, width] as const;
}
