import { memo } from 'react';
import type { TrendSpan, TrendView } from '../../model/view/trend.ts';
import { isMarked, isStop, type StripBox, xOf, yOf } from './scale.ts';

const PATTERN: { readonly [kind in TrendSpan['kind']]?: string } = {
  changeover: 'url(#setting)',
  isolated: 'url(#isolated)',
  unknown: 'url(#unseen)',
};

interface Slot {
  readonly span: TrendSpan;
  readonly left: number;
  readonly right: number;
}

/**
 * What the line did not produce in, cut out of the board: a stop is a slot down to a solid floor, what nobody saw is
 * hatch. Drawn as a handful of paths however many there are, so that a shift with hundreds of stops is as quick as one
 * with none.
 */
export const Slots = memo(function Slots({
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
  const slots = trend.spans.flatMap((span) => slotOf(span, trend, box));
  const [top, floor] = [box.top, box.top + box.height];
  const boxes = (of: readonly Slot[]) =>
    of.map(({ left, right }) => `M${left} ${top}H${right}V${floor}H${left}Z`).join('');
  const edges = (of: readonly Slot[]) =>
    of.map(({ left, right }) => `M${left} ${top}V${floor}M${right} ${top}V${floor}`).join('');
  const abnormal = (slot: Slot) => isMarked(slot.span, marked);
  const isCut = ({ span }: Slot) => isStop(span) || span.kind === 'isolated';
  const kinds = Object.keys(PATTERN) as (keyof typeof PATTERN)[];
  const [cuts, scores] = [slots.filter(isCut), slots.filter((slot) => !isCut(slot))];
  // what is not there is not drawn: an empty shape would still count as yellow on a wall at rest
  const yellow = slots.filter(abnormal);
  return (
    <g className="slots">
      <path d={boxes(slots.filter((slot) => !abnormal(slot)))} fill="var(--ground)" />
      {yellow.length > 0 && <path d={boxes(yellow)} fill="var(--abnormal)" />}
      {kinds.map((kind) => (
        <path key={kind} d={boxes(slots.filter(({ span }) => span.kind === kind))} fill={PATTERN[kind]} />
      ))}
      <path d={edges(cuts)} stroke="var(--cut)" strokeWidth={1.1} />
      <path d={edges(scores.filter(({ span }) => span.kind !== 'unknown'))} className="scoreline" />
      <path
        d={edges(scores.filter(({ span }) => span.kind === 'unknown'))}
        stroke="var(--ink3)"
        strokeWidth={1.5}
        strokeDasharray="6 4"
      />
      {atRate !== undefined && atRate > trend.from && (
        <path className="scoreline" d={`M${xOf(atRate, trend, box)} ${top}V${floor}`} />
      )}
      {trend.target !== undefined && (
        <path
          d={`M${box.left} ${yOf(trend.target, trend, box)}H${box.width - box.right}`}
          stroke="var(--cut)"
          strokeWidth={1.5}
          strokeDasharray="6 4"
        />
      )}
    </g>
  );
});

/** Never narrower than the box's least width, so that a short stop is seen; nothing for what lies outside the shift. */
function slotOf(span: TrendSpan, trend: TrendView, box: StripBox): readonly Slot[] {
  const to = span.to ?? trend.now;
  if (to < trend.from || span.from > trend.to) return [];
  const [from, end] = [xOf(span.from, trend, box), xOf(to, trend, box)];
  const short = Math.max(0, box.slot - (end - from)) / 2;
  const edge = box.width - box.right;
  return [{ span, left: Math.max(box.left, from - short), right: Math.min(edge, end + short) }];
}
