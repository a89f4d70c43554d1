import type { TrendView } from '../../model/view/trend.ts';
import { words } from '../app/words.ts';
import { Line } from '../type/line.tsx';
import { measure } from '../type/measure.ts';
import { hours, isStop, type StripBox, xOf, yOf } from './scale.ts';

/** Floor, hours, target and zero, and the stretch that is still to come. */
export function Axis({
  trend,
  box,
  zone,
}: {
  readonly trend: TrendView;
  readonly box: StripBox;
  readonly zone: string;
}) {
  const floor = box.top + box.height;
  const now = xOf(trend.now, trend, box);
  const right = box.width - box.right;
  const { line } = words.screen;
  const say = (at: number) => (box.type > 20 ? line.hour(at, zone) : line.clock(at, zone));
  return (
    <g>
      <path d={`M${box.left} ${floor}H${now}`} stroke="var(--cut)" strokeWidth={2} />
      <path d={`M${now} ${floor}H${right}`} className="scoreline" />
      {trend.now < trend.to && (
        <path d={`M${now} ${box.top - 2}V${floor + 6}`} stroke="var(--ink)" strokeWidth={2} />
      )}
      {hours(trend, box).map((at) => (
        <g key={at}>
          <path d={`M${xOf(at, trend, box)} ${floor}v7`} stroke="var(--cut)" strokeWidth={1.5} />
          <Line
            x={xOf(at, trend, box)}
            y={floor + 9 + box.type}
            size={box.type}
            tone="ink2"
            anchor={at === trend.from ? 'start' : at === trend.to ? 'end' : 'middle'}
          >
            {say(at)}
          </Line>
        </g>
      ))}
      <Line x={box.left - box.type * 0.5} y={floor + 2} size={box.type} anchor="end">
        {line.count(0)}
      </Line>
      {trend.target !== undefined && (
        <Line
          x={box.left - box.type * 0.5}
          y={yOf(trend.target, trend, box) + box.type * 0.36}
          size={box.type}
          anchor="end"
          bold
          of={[['target', line.count(trend.target)]]}
          quiet
        >
          {line.count(trend.target)}
        </Line>
      )}
    </g>
  );
}

/** The rate needed from now to make the plan, as dots over what is still to come. */
export function Needed({
  trend,
  box,
  needed,
}: {
  readonly trend: TrendView;
  readonly box: StripBox;
  readonly needed: number;
}) {
  const now = xOf(trend.now, trend, box);
  if (needed > trend.maxRate || trend.now >= trend.to) return null;
  return (
    <path
      d={`M${now + 3} ${yOf(needed, trend, box)}H${box.width - box.right}`}
      stroke="var(--ink2)"
      strokeWidth={3}
      strokeDasharray="1 7"
      strokeLinecap="round"
    />
  );
}

/** Words inside what is no stop: changeover, pause, not seen; and the pauses still to come between scores. */
export function SpanWords({ trend, box }: { readonly trend: TrendView; readonly box: StripBox }) {
  const said = trend.spans
    .filter((span) => !isStop(span))
    .map((span) => ({
      key: `${span.kind}${span.from}`,
      text:
        span.kind === 'pause' && span.reason !== undefined
          ? span.reason
          : words.screen.line.strip.span(span.kind),
      from: xOf(span.from, trend, box),
      to: xOf(span.to ?? trend.now, trend, box),
      scored: false,
    }));
  const coming = trend.pauses
    .filter((pause) => pause.to > trend.now)
    .map((pause) => ({
      key: `coming${pause.from}`,
      text: pause.name,
      from: xOf(Math.max(pause.from, trend.now), trend, box),
      to: xOf(pause.to, trend, box),
      scored: true,
    }));
  return [...said, ...coming].map(({ key, text, from, to, scored }) => (
    <g key={key}>
      {scored && (
        <path
          className="scoreline"
          d={`M${from} ${box.top}V${box.top + box.height}M${to} ${box.top}V${box.top + box.height}`}
        />
      )}
      <SpanWord text={text} from={from} to={to} box={box} />
    </g>
  ));
}

/** Along where it fits, upright where only that fits, else left to the table. */
function SpanWord({
  text,
  from,
  to,
  box,
}: {
  readonly text: string;
  readonly from: number;
  readonly to: number;
  readonly box: StripBox;
}) {
  const [x, y] = [(from + to) / 2, box.top + box.height / 2];
  const wide = measure(text, box.type);
  const upright = to - from < wide + 8;
  if (upright && (to - from < box.type || wide > box.height - 6)) return null;
  const place = upright ? `translate(${x} ${y}) rotate(-90)` : `translate(${x} ${y})`;
  return (
    <g transform={place}>
      <rect
        x={-wide / 2 - 4}
        y={-box.type * 0.6}
        width={wide + 8}
        height={box.type * 1.2}
        fill="var(--ground)"
      />
      <text className="ink2" fontSize={box.type} textAnchor="middle" dy=".35em">
        {text}
      </text>
    </g>
  );
}
