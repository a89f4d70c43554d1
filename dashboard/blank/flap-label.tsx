import type { Numbered } from '../figures/pieces.ts';
import { Line } from '../type/line.tsx';

/** Label of a panel in its flap. */
export function FlapLabel({
  children,
  x,
  y,
  max,
  of = [],
}: {
  readonly children: string;
  readonly x: number;
  readonly y: number;
  readonly max: number;
  readonly of?: readonly Numbered[];
}) {
  return (
    <Line x={x} y={y} size={23} max={max} anchor="middle" tone="ink2" of={of}>
      {children}
    </Line>
  );
}
