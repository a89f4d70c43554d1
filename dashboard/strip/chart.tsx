import { memo, useMemo } from 'react';
import { Area, AreaChart, ReferenceArea, ReferenceLine, XAxis, YAxis } from 'recharts';
import type { TrendSpan, TrendView } from '../../model/view/trend.ts';
import { isMarked, isStop, type StripBox } from './scale.ts';

const FILL: { readonly [kind in TrendSpan['kind']]: string | undefined } = {
  stopped: undefined,
  starved: undefined,
  blocked: undefined,
  safety: undefined,
  changeover: 'url(#setting)',
  pause: undefined,
  isolated: 'url(#isolated)',
  unknown: 'url(#unseen)',
};

/**
 * The shift as board: its height is the rate, its length is time. A stop is a slot cut through it down to a solid
 * floor, what nobody saw is hatch, and nothing is joined across either.
 */
export const StripChart = memo(function StripChart({
  trend,
  box,
  marked,
  atRate,
}: {
  readonly trend: TrendView;
  readonly box: StripBox;
  readonly marked: ReadonlyMap<number, number>;
  readonly atRate: number | undefined;
}) {
  const data = useMemo(
    () =>
      trend.buckets.map(({ at, rate, uncertain }) => ({
        x: at + trend.bucketMs / 2,
        rate,
        doubt: uncertain ? rate : undefined,
      })),
    [trend.buckets, trend.bucketMs],
  );
  const margin = useMemo(() => ({ top: box.top, left: box.left, right: box.right, bottom: 0 }), [box]);
  const domain = useMemo<[number, number]>(() => [trend.from, trend.to], [trend.from, trend.to]);
  const ceiling = useMemo<[number, number]>(() => [0, trend.maxRate], [trend.maxRate]);
  const least = ((trend.to - trend.from) * box.slot) / (box.width - box.left - box.right);
  return (
    <AreaChart
      width={box.width}
      height={box.top + box.height}
      data={data}
      margin={margin}
      accessibilityLayer={false}
    >
      <XAxis dataKey="x" type="number" domain={domain} allowDataOverflow hide />
      <YAxis type="number" domain={ceiling} allowDataOverflow hide width={0} />
      <Area
        dataKey="rate"
        type="linear"
        stroke="var(--trace)"
        strokeWidth={box.type > 20 ? 2.2 : 1.6}
        fill="var(--board)"
        fillOpacity={1}
        dot={false}
        activeDot={false}
        isAnimationActive={false}
        connectNulls={false}
      />
      <Area
        dataKey="doubt"
        type="linear"
        stroke="none"
        fill="url(#dots)"
        fillOpacity={1}
        dot={false}
        activeDot={false}
        isAnimationActive={false}
        connectNulls={false}
      />
      {trend.spans.map((span) => {
        const to = span.to ?? trend.now;
        const short = Math.max(0, least - (to - span.from)) / 2;
        const abnormal = isMarked(span, marked);
        return [
          <ReferenceArea
            key={`${span.kind}${span.from}`}
            x1={span.from - short}
            x2={to + short}
            fill={abnormal ? 'var(--abnormal)' : 'var(--ground)'}
            fillOpacity={1}
            ifOverflow="hidden"
            stroke="none"
          />,
          FILL[span.kind] && (
            <ReferenceArea
              key={`${span.kind}${span.from}p`}
              x1={span.from - short}
              x2={to + short}
              fill={FILL[span.kind] ?? 'none'}
              fillOpacity={1}
              ifOverflow="hidden"
              stroke="none"
            />
          ),
          ...edges(span, span.from - short, to + short),
        ];
      })}
      {atRate !== undefined && atRate > trend.from && (
        <ReferenceLine
          x={atRate}
          stroke="var(--score)"
          strokeWidth={1.5}
          strokeDasharray="6 4"
          ifOverflow="hidden"
        />
      )}
      {trend.target !== undefined && (
        <ReferenceLine
          y={trend.target}
          stroke="var(--cut)"
          strokeWidth={1.5}
          strokeDasharray="6 4"
          ifOverflow="hidden"
        />
      )}
    </AreaChart>
  );
});

/** A stop's edges are cuts, a pause's or changeover's are scores; the hatch has a dashed box. */
function edges(span: TrendSpan, from: number, to: number) {
  const cut = isStop(span) || span.kind === 'isolated';
  const line = cut
    ? { stroke: 'var(--cut)', strokeWidth: 1.1 }
    : {
        stroke: span.kind === 'unknown' ? 'var(--ink3)' : 'var(--score)',
        strokeWidth: 1.5,
        strokeDasharray: '6 4',
      };
  return [
    <ReferenceLine key={`${span.kind}${span.from}a`} x={from} ifOverflow="hidden" {...line} />,
    <ReferenceLine key={`${span.kind}${span.from}b`} x={to} ifOverflow="hidden" {...line} />,
  ];
}
