import { epochMs } from '../../model/units/units.ts';
import { type TimeBox, xOf } from './scale.ts';
import type { Progress } from './session.ts';

/** A time in milliseconds since 1970 in which nothing came from the PLC. */
export interface UnheardSpan {
  readonly from: number;
  readonly to: number;
}

const NONE: readonly UnheardSpan[] = [];

export function unheardIn(progress: Progress): readonly UnheardSpan[] {
  if (progress.kind !== 'open') return NONE;
  return progress.opened.unheard.map(({ from, to }) => ({ from: epochMs(from), to: epochMs(to) }));
}

/** Whether a part of it lies in a stretch. */
export function isWithin(span: UnheardSpan, { from, to }: UnheardSpan): boolean {
  return span.to > from && span.from < to;
}

/** Bars above the board: whoever looked at a screen then saw nothing of what stands below them. */
export function Unheard({
  spans,
  box,
  y,
}: {
  readonly spans: readonly UnheardSpan[];
  readonly box: TimeBox;
  readonly y: number;
}) {
  return spans
    .filter((span) => isWithin(span, box))
    .map(({ from, to }) => {
      const left = Math.max(box.left, xOf(from, box));
      const right = Math.min(box.right, Math.max(left + 3, xOf(to, box)));
      return <rect key={from} x={left} y={y} width={right - left} height={9} className="unheardbar" />;
    });
}
