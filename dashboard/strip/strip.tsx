import { memo, useDeferredValue, useMemo } from 'react';
import type { TrendView } from '../../model/view/trend.ts';
import { words } from '../app/words.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { Line } from '../type/line.tsx';
import { measure } from '../type/measure.ts';
import { Axis, Needed, SpanWords } from './axis.tsx';
import { StripChart } from './chart.tsx';
import { SafetyRail } from './rail.tsx';
import { freeAfterNow, isMarked, isStop, type Pip, pips, type StripBox } from './scale.ts';
import { StripSees } from './sees.tsx';
import { Slots } from './slots.tsx';

/** The shift so far and what is left of it: board, slots, target, needed rate, pauses, and the safety rail below. */
export const Strip = memo(function Strip({
  box,
  sees = false,
}: {
  readonly box: StripBox;
  /** Whether what is drawn leads to its moment: not where a screen only shows. */
  readonly sees?: boolean;
}) {
  // the sentence comes first: what the whole shift was is drawn after it, when there is time
  const trend = useDeferredValue(usePart('trend'));
  const plan = usePart('plan');
  const { zone } = usePart('line');
  const moment = useMoment();
  const seen = moment.sight === 'live' || moment.sight === 'stale';
  const changeover = usePart('changeover');
  const marked = useMarked();
  const numbered = useMemo(() => pips(trend, box), [trend, box]);
  const stops = trend.spans.filter(isStop).length;
  const needed =
    seen && plan.needed !== undefined && plan.needed > 0 && plan.shift !== undefined
      ? plan.needed
      : undefined;
  return (
    <figure
      className="strip"
      aria-label={words.screen.line.strip.chart(plan.good, stops)}
      style={{ width: box.width, height: box.rail + box.rope * 0.6 }}
    >
      {/* the chart's library gives its own shapes tab stops; the table is what is read */}
      <div aria-hidden="true" inert className="stripchart">
        <StripChart
          buckets={trend.buckets}
          bucketMs={trend.bucketMs}
          from={trend.from}
          to={trend.to}
          maxRate={trend.maxRate}
          box={box}
        />
      </div>
      <svg width={box.width} height={box.rail + box.rope * 0.6} className="stripover" aria-hidden="true">
        <Slots trend={trend} box={box} marked={marked} atRate={changeover.atRate} />
        <SpanWords trend={trend} box={box} />
        <Axis trend={trend} box={box} zone={zone} />
        {needed !== undefined && <Needed trend={trend} box={box} needed={needed} />}
        <g>
          {numbered.map((pip) => (
            <PipShape key={pip.span.from} pip={pip} box={box} abnormal={isMarked(pip.span, marked)} />
          ))}
        </g>
        <SafetyRail trend={trend} box={box} />
      </svg>
      {sees && <StripSees trend={trend} box={box} pips={numbered} />}
      {needed !== undefined && plan.shift !== undefined && (
        <NeededWords
          lines={words.screen.line.plan.needed(needed, plan.planned, plan.shift.to, zone)}
          planned={plan.planned}
          trend={trend}
          box={box}
        />
      )}
    </figure>
  );
});

/** Since when each station that is out of its normal, or holds the line, has been so: its slots from then on are yellow. */
function useMarked(): ReadonlyMap<number, number> {
  const { stations } = usePart('path');
  const head = usePart('head');
  const matters = usePart('matters');
  return useMemo(() => {
    const since = new Map<number, number>();
    for (const { id, number, mark } of stations) {
      if (mark === 'none') continue;
      const told = matters.find((matter) => matter.kind === 'stationAbnormal' && matter.station === id);
      const episode =
        head.kind === 'stopped' && head.reason?.station === id ? head.since - head.within : undefined;
      const starts = [told?.kind === 'stationAbnormal' ? told.since : undefined, episode].filter(
        (at) => at !== undefined,
      );
      if (starts.length > 0) since.set(number, Math.min(...starts));
    }
    return since;
  }, [stations, head, matters]);
}

/** Words that can be asked stand in a drawing of their own: the other one is hidden from those who listen. */
function NeededWords({
  lines,
  planned,
  trend,
  box,
}: {
  readonly lines: readonly string[];
  readonly planned: number;
  readonly trend: TrendView;
  readonly box: StripBox;
}) {
  const wide = Math.max(...lines.map((line) => measure(line, box.type)));
  const x = freeAfterNow(trend, box, wide);
  if (x === undefined) return null;
  const pitch = box.type * 1.18;
  const y = box.top + box.height - 10 - pitch * (lines.length - 1);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset
    <svg
      width={box.width}
      height={box.rail + box.rope * 0.6}
      className="stripover stripneeded"
      role="group"
      aria-label={lines.join(' ')}
    >
      <rect
        x={x - 4}
        y={y - box.type}
        width={wide + 8}
        height={pitch * lines.length + 4}
        fill="var(--ground)"
      />
      {lines.map((line, i) => (
        <Line
          key={line}
          x={x}
          y={y + i * pitch}
          size={box.type}
          tone="ink2"
          // the rate is the first word of the first line
          of={[
            ['needed', i === 0 ? (line.split(' ')[0] ?? '') : ''],
            ['shiftPlan', words.screen.line.count(planned)],
          ]}
        >
          {line}
        </Line>
      ))}
    </svg>
  );
}

function PipShape({
  pip,
  box,
  abnormal,
}: {
  readonly pip: Pip;
  readonly box: StripBox;
  readonly abnormal: boolean;
}) {
  const top = box.top - 4 - box.pip.height;
  const [left, right] = [pip.x - pip.width / 2, pip.x + pip.width / 2];
  return (
    <g>
      <path
        d={`M${left} ${top + box.pip.height}V${top + 4}L${left + 4} ${top}H${right - 4}L${right} ${top + 4}V${top + box.pip.height}Z`}
        fill={abnormal ? 'var(--abnormal)' : 'var(--sheet)'}
        stroke="var(--cut)"
        strokeWidth={1.4}
      />
      <path d={`M${pip.x} ${box.top - 4}L${pip.slot} ${box.top}`} stroke="var(--cut)" strokeWidth={1.2} />
      <text
        x={pip.x}
        y={top + box.pip.height / 2}
        dy=".36em"
        fontSize={box.pip.type}
        textAnchor="middle"
        className={abnormal ? 'onAbnormal' : ''}
        fontWeight={abnormal ? 700 : 400}
      >
        {pip.text}
      </text>
    </g>
  );
}

/** What the strip shows: the shift, or the time between two. */
export function useStripTitle(): string {
  const { shift } = usePart('plan');
  const { strip } = words.screen.line;
  return shift === undefined ? strip.noShift : strip.title;
}

/** How many stops have no number, for the words beside the title. */
export function useStripLegend(box: StripBox): string {
  const trend = usePart('trend');
  const shown = useMemo(() => pips(trend, box).length, [trend, box]);
  const stops = trend.spans.filter((span) => isStop(span) && span.station !== undefined).length;
  return shown < stops ? words.screen.line.strip.numbered(shown) : words.screen.line.strip.legend;
}
