import type { ReactNode } from 'react';
import { Mark } from '../marks/symbols.tsx';
import { type Blank, firstPanel, glueScore, outline, scores } from './outline.ts';
import type { Said } from './state.ts';

const FILL = {
  rest: undefined,
  abnormal: 'var(--abnormal)',
  emergency: 'var(--emergency)',
  unseen: 'url(#unseen)',
} as const;
const INK = {
  rest: 'var(--ink2)',
  abnormal: 'var(--on-abnormal)',
  emergency: 'var(--on-emergency)',
  unseen: 'var(--ink)',
} as const;

/** The opened blank: sheet, coloured first panel where the state has a colour, cuts, scores, and the mark on the glue flap. */
export function BlankSheet({
  blank,
  look,
  mark,
  children,
}: {
  readonly blank: Blank;
  readonly look: Said['look'];
  readonly mark: string;
  readonly children: ReactNode;
}) {
  const d = outline(blank);
  const fill = FILL[look];
  const middle = (blank.top + blank.bottom) / 2;
  const left = (blank.glue + (blank.edges[0] ?? 0)) / 2;
  return (
    <>
      <path d={d} fill="var(--sheet)" />
      {fill && <path d={firstPanel(blank)} fill={fill} opacity={look === 'unseen' ? 0.55 : 1} />}
      <path
        d={d}
        className="cutline"
        style={{
          strokeWidth: look === 'emergency' ? 3 : 2,
          strokeDasharray: look === 'unseen' ? '8 6' : undefined,
        }}
      />
      <path
        d={glueScore(blank)}
        className="scoreline"
        style={{ stroke: look === 'rest' || look === 'unseen' ? 'var(--cut)' : INK[look] }}
      />
      <path d={scores(blank)} className="scoreline strong" />
      {look === 'unseen' && <rect x={left - 34} y={middle - 34} width={68} height={68} fill="var(--sheet)" />}
      <g style={{ color: INK[look] }}>
        <Mark id={mark} size={60} x={left - 30} y={middle - 30} />
      </g>
      {children}
    </>
  );
}

/** Words on the hatch of what is not seen stand on a clear sheet, so that they can be read. */
export function ClearOfHatch({
  look,
  x,
  y,
  width,
  height,
}: {
  readonly look: Said['look'];
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}) {
  return look === 'unseen' ? <rect x={x} y={y} width={width} height={height} fill="var(--sheet)" /> : null;
}
