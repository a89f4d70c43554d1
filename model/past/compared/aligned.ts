import type { EpochMs } from '../../units/units.ts';

/** On what two stretches are laid over one another: time since each began, since its changeover, or good cartons. */
export const ALIGNMENTS = ['clock', 'changeover', 'cartons'] as const;
export type Alignment = (typeof ALIGNMENTS)[number];

/** One of the two on the axis that they have in common. */
export interface AlignedSide {
  readonly from: EpochMs;
  /** Where it ends; of one that goes on, now. */
  readonly to: EpochMs;
  /** Here the axis has its zero. */
  readonly origin: EpochMs;
  /** Good cartons since its beginning, by moments; undefined where the axis is time. */
  readonly made: readonly MadeBy[] | undefined;
}

export interface MadeBy {
  readonly at: EpochMs;
  readonly cartons: number;
}

/** Milliseconds since the zero, or good cartons. */
export interface Axis {
  readonly from: number;
  readonly to: number;
}

/** Where a moment of a side lies on the axis. */
export function placeOf({ origin, made }: AlignedSide, at: number): number {
  if (!made) return at - origin;
  const next = made.findIndex((one) => one.at > at);
  const [before, after] = [next < 0 ? made.at(-1) : made[next - 1], made[next]];
  if (!before) return 0;
  if (!after) return before.cartons;
  return before.cartons + ((at - before.at) / (after.at - before.at)) * (after.cartons - before.cartons);
}

/** When a side was at a place first; undefined where it was never there. */
export function momentOf(side: AlignedSide, place: number): number | undefined {
  const { from, to, origin, made } = side;
  if (!made) {
    const at = origin + place;
    return at >= from && at <= to ? at : undefined;
  }
  const reached = made.findIndex(({ cartons }) => cartons >= place);
  const [before, after] = [made[reached - 1], made[reached]];
  if (!after) return undefined;
  if (!before) return after.at;
  const share = (place - before.cartons) / (after.cartons - before.cartons);
  return before.at + share * (after.at - before.at);
}

/** As long as both together. */
export function axisOf(sides: readonly AlignedSide[]): Axis {
  const from = Math.min(...sides.map((side) => placeOf(side, side.from)));
  return { from, to: Math.max(from + 1, ...sides.map((side) => placeOf(side, side.to))) };
}
