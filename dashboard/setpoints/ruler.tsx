import type { AdjustmentScale } from '../../model/past/adjustmentsNow.ts';

/** Where a number stands on the part of a scale that is drawn, in percent of its width; beyond an end, at that end. */
export function placeOn({ from, to }: AdjustmentScale): (at: number) => number {
  return (at) => 2 + (96 * (Math.min(to, Math.max(from, at)) - from)) / Math.max(1e-9, to - from);
}

/** The scale as it is on the machine: its line at `y`, a tick at each step, and a number at each fifth. */
export function Ruler({
  scale,
  y,
  label,
  said,
}: {
  readonly scale: AdjustmentScale;
  readonly y: number;
  readonly label: { readonly y: number; readonly size: number };
  /** The number of a tick in words. */
  readonly said: (at: number) => string;
}) {
  const place = placeOn(scale);
  const x = (at: number) => `${place(at)}%`;
  return (
    <>
      <line className="ruler" x1={x(scale.from)} x2={x(scale.to)} y1={y} y2={y} />
      {scale.ticks.map(({ at, labelled }) => (
        <line key={at} className="ruler" x1={x(at)} x2={x(at)} y1={y} y2={y + (labelled ? 8 : 4)} />
      ))}
      {scale.ticks
        .filter(({ labelled }) => labelled)
        .map(({ at }) => (
          <text key={at} x={x(at)} y={label.y} fontSize={label.size} textAnchor="middle" className="ink2">
            {said(at)}
          </text>
        ))}
    </>
  );
}
