import { Area, ComposedChart, Line, ReferenceDot, ReferenceLine, XAxis, YAxis } from 'recharts';
import type { SetPointRow } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import { Figure } from '../figures/figure.tsx';
import { type CostPoint, costPoints, heightsOf, roundStep } from './costPoints.ts';

const said = words.screen.past.setPoints;
const { cost } = said.one;
const BOX = { top: 10, height: 128, axis: 26, left: 44, right: 14, type: 13 } as const;

/** Two drawings over one scale: cartons lost against the recommended number, and rejects with the interval they lie in. */
export function CostChart({ row, width }: { readonly row: SetPointRow; readonly width: number }) {
  if (!row.learned) return null;
  const points = costPoints(row.learned);
  return (
    <>
      <p className="second">
        <Figure of="setPointCost">{cost.lost}</Figure>
      </p>
      <Curve row={row} points={points} width={width} of="lost" />
      <p className="second">
        <Figure of="setPointRejects">{cost.rejects}</Figure>
      </p>
      <Curve row={row} points={points} width={width} of="rejects" />
    </>
  );
}

function Curve({
  row,
  points,
  width,
  of,
}: {
  readonly row: SetPointRow;
  readonly points: readonly CostPoint[];
  readonly width: number;
  readonly of: 'lost' | 'rejects';
}) {
  const heights = heightsOf(
    Math.max(...points.map((one) => (of === 'lost' ? (one.lost ?? one.lostBeyond ?? 0) : one.interval[1]))),
  );
  const line = { type: 'monotone', stroke: 'var(--trace)', dot: false, isAnimationActive: false } as const;
  return (
    // the table is what is read
    <div aria-hidden="true" inert>
      <ComposedChart
        width={width}
        height={BOX.top + BOX.height + BOX.axis}
        data={[...points]}
        margin={{ top: BOX.top, left: 0, right: BOX.right, bottom: 0 }}
        accessibilityLayer={false}
      >
        <XAxis
          dataKey="at"
          type="number"
          domain={domainOf(points, row)}
          ticks={ticksOf(points, row, width)}
          tickFormatter={(at: number) => said.number(at, row)}
          height={BOX.axis}
          stroke="var(--cut)"
          tick={{ fill: 'var(--ink2)', fontSize: BOX.type }}
        />
        <YAxis
          type="number"
          domain={[0, heights.at(-1)!]}
          ticks={[...heights]}
          width={BOX.left}
          axisLine={false}
          tickLine={false}
          tick={{ fill: 'var(--ink2)', fontSize: BOX.type }}
        />
        {of === 'rejects' && (
          <Area
            dataKey="interval"
            type="monotone"
            stroke="none"
            fill="var(--board)"
            fillOpacity={1}
            isAnimationActive={false}
            activeDot={false}
          />
        )}
        {row.book !== undefined && (
          <ReferenceLine x={row.book} stroke="var(--ink)" strokeWidth={2} strokeDasharray="5 3" />
        )}
        <Line {...line} dataKey={`${of}Beyond`} strokeWidth={1.6} strokeDasharray="5 4" activeDot={false} />
        <Line {...line} dataKey={of} strokeWidth={2.2} activeDot={false} />
        {(row.learned?.marks ?? [])
          .filter(({ at }) => isWithin(points, at))
          .map(({ at }) => (
            <ReferenceDot
              key={at}
              x={at}
              y={0}
              r={5}
              fill="var(--sheet)"
              stroke="var(--cut)"
              strokeWidth={2}
            />
          ))}
      </ComposedChart>
    </div>
  );
}

function isWithin(points: readonly CostPoint[], at: number): boolean {
  return at >= points[0]!.at - 1e-9 && at <= points.at(-1)!.at + 1e-9;
}

/** What was estimated, and the book beside it where it lies beyond that. */
function domainOf(points: readonly CostPoint[], { book }: SetPointRow): [number, number] {
  const ends = [points[0]!.at, points.at(-1)!.at, ...(book === undefined ? [] : [book])];
  return [Math.min(...ends), Math.max(...ends)];
}

/** Round numbers of the scale that find room. */
function ticksOf(points: readonly CostPoint[], row: SetPointRow, width: number): number[] {
  const [from, to] = domainOf(points, row);
  const room = Math.max(1, Math.floor((width - BOX.left - BOX.right) / 52));
  const step = roundStep(Math.max((to - from) / room, 10 ** -row.decimals));
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, n) => (first + n) * step);
}
