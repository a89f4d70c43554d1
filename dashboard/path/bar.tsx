import type { LossPart } from '../../model/view/view.ts';
import { PATTERN, pieces } from './loss.ts';

/** Cartons lost as a bar, a pattern for each cause. `anchor` says where x stands. */
export function LossBar({
  causes,
  perCarton,
  x,
  y,
  height,
  anchor,
}: {
  readonly causes: readonly LossPart[];
  readonly perCarton: number;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly anchor: 'start' | 'middle' | 'end';
}) {
  const parts = pieces(causes, perCarton);
  const width = parts.reduce((sum, piece) => sum + piece.width, 0);
  const left = anchor === 'start' ? x : anchor === 'middle' ? x - width / 2 : x - width;
  return (
    <g className="measured">
      {parts.map((piece) => (
        <Swatch
          key={piece.cause}
          cause={piece.cause}
          x={left + piece.from}
          y={y}
          width={piece.width}
          height={height}
        />
      ))}
    </g>
  );
}

export function Swatch({
  cause,
  ...box
}: {
  readonly cause: LossPart['cause'];
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}) {
  const { fill, dashed } = PATTERN[cause];
  return (
    <>
      <rect {...box} fill="var(--sheet)" />
      <rect {...box} fill={fill} stroke="var(--cut)" strokeWidth={1.4} strokeDasharray={dashed && '4 2.6'} />
    </>
  );
}
