import type { Adjustment } from '../line/line.ts';
import { onScale } from '../setpoints/standing.ts';
import type { Instant } from '../units/units.ts';
import type { FoldState } from './state.ts';

/**
 * [WL1] How far a sensor's reading has gone from where hands left it, while the line ran and nobody touched it: in single moves of
 * a few marks each, not in one.
 */
export interface CreepRecord {
  adjustment: string;
  /** Where hands left it, and when it first read otherwise. */
  from: number;
  since: Instant;
  to: number;
  /** Moves away from where it stood, less moves back. */
  net: number;
}

/** A move of more marks than this while the line runs is a hand's. */
const HAND_MARKS = 5;

/** A sensor's reading moved from one number to another; both on its scale. */
export function creeps(
  state: FoldState,
  { number, decimals }: Pick<Adjustment, 'number' | 'decimals'>,
  from: number,
  to: number,
  at: Instant,
): void {
  const marks = Math.round(Math.abs(to - from) * 10 ** decimals);
  const byItself = state.producing && state.changeover === null && marks <= HAND_MARKS;
  if (!byItself) return handsMoved(state, number);
  const last = state.creeps.find(({ adjustment }) => adjustment === number);
  if (!last) {
    state.creeps = [...state.creeps, { adjustment: number, from, since: at, to, net: 1 }];
    return;
  }
  const away = Math.abs(to - last.from) > Math.abs(last.to - last.from);
  last.to = to;
  last.net += away ? 1 : -1;
  // back where it was left: that was the sensor's own doing
  if (onScale(to, decimals) === onScale(last.from, decimals)) handsMoved(state, number);
}

/** Hands set it, or said so: from here on it is looked at anew. */
export function handsMoved(state: FoldState, adjustment: string): void {
  if (state.creeps.some((one) => one.adjustment === adjustment))
    state.creeps = state.creeps.filter((one) => one.adjustment !== adjustment);
}
