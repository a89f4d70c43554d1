import { memo } from 'react';
import type { Pocket } from '../../model/view/view.ts';

export interface PocketBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly columns: number;
}

/** A minute is as many pockets as the target says: filled good, crossed reject, dashed empty, hatched not seen. */
export const Pockets = memo(function Pockets({
  pockets,
  box,
  upright = false,
}: {
  readonly pockets: readonly Pocket[];
  readonly box: PocketBox;
  /** Taller than wide, where rows are few. */
  readonly upright?: boolean;
}) {
  const most = Math.max(1, Math.floor(box.height / 18));
  const columns = Math.max(box.columns, Math.ceil(pockets.length / most));
  const rows = Math.max(1, Math.ceil(pockets.length / columns));
  const pitchX = (box.width + 5) / columns;
  const pitchY = upright ? box.height / rows : Math.min(pitchX * 0.82, box.height / rows);
  return (
    <g className="measured">
      {pockets.map((pocket, i) => (
        <PocketShape
          // biome-ignore lint/suspicious/noArrayIndexKey: a pocket is its place in the minute
          key={i}
          pocket={pocket}
          x={box.x + (i % columns) * pitchX}
          y={box.y + Math.floor(i / columns) * pitchY}
          width={pitchX * 0.76}
          height={pitchY * 0.76}
        />
      ))}
    </g>
  );
});

interface Shape {
  readonly pocket: Pocket;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function PocketShape({ pocket, ...box }: Shape) {
  switch (pocket) {
    case 'good':
      return <rect {...box} fill="var(--worked)" />;
    case 'reject':
      return (
        <path
          d={`M${box.x + 2} ${box.y + 1}l${box.width - 4} ${box.height - 2}m0 ${2 - box.height}l${4 - box.width} ${box.height - 2}`}
          stroke="var(--cut)"
          strokeWidth={2.6}
          fill="none"
        />
      );
    case 'missed':
      return (
        <path d={`M${box.x + box.width / 2} ${box.y}v${box.height}`} stroke="var(--cut)" strokeWidth={2} />
      );
    case 'unknown':
      return (
        <rect {...box} fill="url(#unseen)" stroke="var(--ink3)" strokeWidth={1} strokeDasharray="3 2.4" />
      );
    case 'notLoaded':
      return <rect {...box} fill="none" stroke="var(--cut)" strokeWidth={1.8} strokeDasharray="3 2.4" />;
    case 'none':
      return (
        <rect
          x={box.x + 0.8}
          y={box.y + 0.8}
          width={Math.max(0, box.width - 1.8)}
          height={Math.max(0, box.height - 1.8)}
          fill="none"
          stroke="var(--score)"
          strokeWidth={1.4}
          strokeDasharray="3 2.4"
        />
      );
  }
}
