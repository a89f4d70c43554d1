import type { LossCause, LossPart } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { measure } from '../type/measure.ts';

/** One pattern for each cause, so that a grey copy still tells them apart. */
export const PATTERN: { readonly [cause in LossCause]: { readonly fill: string; readonly dashed?: true } } = {
  stopped: { fill: 'var(--worked)' },
  slow: { fill: 'url(#c-slow)' },
  notLoaded: { fill: 'var(--sheet)', dashed: true },
  missedPick: { fill: 'url(#c-missed)' },
  reject: { fill: 'url(#c-reject)' },
  crushed: { fill: 'url(#c-crushed)' },
  changeover: { fill: 'url(#setting)' },
  pauseOver: { fill: 'url(#dots)' },
  unknown: { fill: 'url(#unseen)' },
};
const ORDER = Object.keys(PATTERN) as readonly LossCause[];

export interface Piece {
  readonly cause: LossCause;
  readonly from: number;
  readonly width: number;
}

/** Pieces of a bar in a fixed order of causes; what was made up (below zero) has no length and is said in words. */
export function pieces(causes: readonly LossPart[], perCarton: number): readonly Piece[] {
  let from = 0;
  return [...causes]
    .filter(({ cartons }) => cartons > 0)
    .sort((a, b) => ORDER.indexOf(a.cause) - ORDER.indexOf(b.cause))
    .map(({ cause, cartons }) => {
      const piece = { cause, from, width: Math.max(2, cartons * perCarton) };
      from += piece.width;
      return piece;
    });
}

/** Px for one carton: the largest bar fills `most`, and bars of a young shift stay short. */
export function scaleOf(lost: readonly number[], planned: number, most: number): number {
  return most / Math.max(1, ...lost, planned * 0.0245);
}

export function causesSaid(causes: readonly LossPart[]): string {
  return causes.map(({ cause, cartons }) => words.screen.line.path.counted(cause, cartons)).join(', ');
}

/** The key of patterns, set from the right edge leftwards; what does not fit beside the sum is left off, last first. */
export function keyPlaces(
  causes: readonly LossCause[],
  { right, left, size }: { readonly right: number; readonly left: number; readonly size: number },
): readonly { readonly cause: LossCause; readonly x: number; readonly text: number }[] {
  const places: { cause: LossCause; x: number; text: number }[] = [];
  let edge = right;
  for (const cause of [...causes].reverse()) {
    const text = edge - measure(words.screen.line.path.cause(cause), size);
    const x = text - 34;
    if (x < left) break;
    places.unshift({ cause, x, text });
    edge = x - 21;
  }
  return places;
}
