import type { LossCause } from '../../model/view/view.ts';

/**
 * How a part of a bar or a strip is filled on paper. The same marks as the patterns on the screen, but drawn as lines: a
 * printed page would hold a picture of a whole page for every pattern.
 */
export type Fill =
  | 'board'
  | 'worked'
  | 'empty'
  | 'dashedEmpty'
  | 'hatch'
  | 'setting'
  | 'dots'
  | 'plus'
  | 'lines'
  | 'uprights'
  | 'crosses'
  | 'zigzag';

export const FILL_OF_CAUSE: Readonly<Record<LossCause, Fill>> = {
  stopped: 'worked',
  slow: 'lines',
  notLoaded: 'dashedEmpty',
  missedPick: 'uprights',
  reject: 'crosses',
  crushed: 'zigzag',
  changeover: 'setting',
  pauseOver: 'dots',
  unknown: 'hatch',
};

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A filled box with its edge. */
export function Filled({ fill, ...box }: Box & { readonly fill: Fill }) {
  const marks = MARKS[fill]?.(box);
  const solid = fill === 'board' ? 'var(--board)' : fill === 'worked' ? 'var(--worked)' : 'var(--sheet)';
  return (
    <>
      <rect
        {...box}
        fill={solid}
        stroke="var(--cut)"
        strokeWidth={1.3}
        strokeDasharray={fill === 'dashedEmpty' || fill === 'hatch' ? '4 2.6' : undefined}
      />
      {marks !== undefined && <path d={marks} fill="none" stroke="var(--cut)" strokeWidth={1.1} />}
    </>
  );
}

const MARKS: { readonly [fill in Fill]?: (box: Box) => string } = {
  hatch: diagonals,
  setting: (box) => grid(box, 7, 7, (x, y) => `M${x} ${y}v3.4`),
  dots: (box) => grid(box, 6, 5, (x, y) => `M${x} ${y}h1.2`),
  plus: (box) => grid(box, 10, 9, (x, y) => `M${x} ${y - 2}v4M${x - 2} ${y}h4`),
  lines: ({ x, y, width, height }) => rows(y, height, 4.5, (at) => `M${x} ${at}h${width}`),
  uprights: ({ x, y, width, height }) => rows(x, width, 5, (at) => `M${at} ${y}v${height}`),
  crosses: (box) => grid(box, 8, 8, (x, y) => `M${x - 2} ${y - 2}l4 4m0 -4l-4 4`),
  zigzag: (box) => grid(box, 8, 7, (x, y) => `M${x - 4} ${y + 1.5}l4 -3l4 3`),
};

function rows(from: number, length: number, step: number, mark: (at: number) => string): string {
  const count = Math.floor(length / step);
  return Array.from({ length: count }, (_, n) => mark(from + (n + 0.5) * (length / count))).join('');
}

function grid(
  { x, y, width, height }: Box,
  across: number,
  down: number,
  mark: (x: number, y: number) => string,
): string {
  return rows(y, height, down, (at) => rows(x, width, across, (place) => mark(place, at)));
}

/** From lower left to upper right, each line cut where the box ends. */
function diagonals({ x, y, width, height }: Box): string {
  const step = 8;
  const count = Math.ceil((width + height) / step);
  return Array.from({ length: count }, (_, n) => {
    const at = (n + 0.5) * step;
    const [left, bottom] = [Math.max(0, at - height), Math.min(height, at)];
    const [right, top] = [Math.min(width, at), Math.max(0, at - width)];
    return right > left ? `M${x + left} ${y + bottom}L${x + right} ${y + top}` : '';
  }).join('');
}
