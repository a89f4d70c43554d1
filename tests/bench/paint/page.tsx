import { memo, useEffect, useState } from 'react';
import { createRoot } from 'react-dom/client';
import { Area, AreaChart, XAxis, YAxis } from 'recharts';
import { StripChart } from '../../../dashboard/strip/chart.tsx';
import { DESK_STRIP } from '../../../dashboard/strip/scale.ts';
import type { TrendView } from '../../../model/view/trend.ts';

/*
 * Six of the dashboard's charts, each with as many points as a chart ever has, all of them changing once a second: as
 * they are, or each by itself without waiting for its turn (`?alone`).
 */
const CHARTS = 6;
const POINTS = 480;
const box = { ...DESK_STRIP, width: 640 };
const alone = location.search.includes('alone');

function buckets(turn: number, chart: number): TrendView['buckets'] {
  return Array.from({ length: POINTS }, (_, n) => ({
    at: n * 60_000,
    rate: 40 + 8 * Math.sin(n / 9 + chart) + ((n * 7 + turn * 13) % 5),
    uncertain: n % 50 === 0,
  })) as unknown as TrendView['buckets'];
}

/** Made beforehand, as a worker or the gateway would: here only drawing is measured. */
const TURNS = 8;
const made = Array.from({ length: TURNS }, (_, turn) =>
  Array.from({ length: CHARTS }, (__, chart) => buckets(turn, chart)),
);

function Six() {
  const [turn, next] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => next((n) => n + 1), 1000);
    return () => clearInterval(timer);
  }, []);
  const span = { bucketMs: 60_000, from: 0, to: POINTS * 60_000, maxRate: 60 } as unknown as TrendView;
  return (
    <>
      {Array.from({ length: CHARTS }, (_, chart) => chart).map((chart) =>
        alone ? (
          <Alone key={chart} rates={made[turn % TURNS]![chart]!} />
        ) : (
          <StripChart
            key={chart}
            buckets={made[turn % TURNS]![chart]!}
            bucketMs={span.bucketMs}
            from={span.from}
            to={span.to}
            maxRate={span.maxRate}
            box={box}
          />
        ),
      )}
    </>
  );
}

/** The same areas with the library's usual ways: moving to the new values, dots, and a legend of the pointer. */
const Alone = memo(function Alone({ rates }: { readonly rates: TrendView['buckets'] }) {
  const data = rates.map(({ at, rate, uncertain }) => ({ x: at, rate, doubt: uncertain ? rate : undefined }));
  return (
    <AreaChart width={box.width} height={box.top + box.height} data={data}>
      <XAxis dataKey="x" type="number" domain={[0, POINTS * 60_000]} hide />
      <YAxis type="number" domain={[0, 60]} hide width={0} />
      <Area dataKey="rate" dot isAnimationActive={false} />
      <Area dataKey="doubt" dot isAnimationActive={false} />
    </AreaChart>
  );
});

createRoot(document.getElementById('root')!).render(<Six />);
