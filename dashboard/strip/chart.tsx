import { memo, useMemo } from 'react';
import { Area, AreaChart, XAxis, YAxis } from 'recharts';
import type { TrendView } from '../../model/view/trend.ts';
import type { StripBox } from './scale.ts';
import { useInTurn } from './turns.ts';

/**
 * The shift as board: its height is the rate, its length is time; nothing is joined across what nobody saw. It is
 * drawn again only when a rate changed; what moves with the clock, and the stops, lie above it.
 */
export const StripChart = memo(function StripChart(
  newest: Pick<TrendView, 'buckets' | 'bucketMs' | 'from' | 'to' | 'maxRate'> & { readonly box: StripBox },
) {
  const { buckets, bucketMs, from, to, maxRate, box } = useInTurn(newest);
  const data = useMemo(
    () =>
      buckets.map(({ at, rate, uncertain }) => ({
        x: at + bucketMs / 2,
        rate,
        doubt: uncertain ? rate : undefined,
      })),
    [buckets, bucketMs],
  );
  const margin = useMemo(() => ({ top: box.top, left: box.left, right: box.right, bottom: 0 }), [box]);
  const domain = useMemo<[number, number]>(() => [from, to], [from, to]);
  const ceiling = useMemo<[number, number]>(() => [0, maxRate], [maxRate]);
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
    </AreaChart>
  );
});
