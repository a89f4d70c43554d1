import { Line } from '../type/line.tsx';

/** Label of a panel in its flap. */
export function FlapLabel({
  children,
  x,
  y,
  max,
}: {
  readonly children: string;
  readonly x: number;
  readonly y: number;
  readonly max: number;
}) {
  return (
    <Line x={x} y={y} size={23} max={max} anchor="middle" tone="ink2">
      {children}
    </Line>
  );
}
