import type { SeenTime } from '../past/past.ts';
import type { EpochMs } from '../units/units.ts';
import type { FigureValue } from './figureValues.ts';

/** Every key figure of a period, and what it is of. */
export interface FiguresAnswer {
  readonly seen: SeenTime;
  /** Stretches that were added up: more than one where only one size, order or kind of shift was wanted. */
  readonly parts: number;
  /** Shifts that have a part in the period. */
  readonly shifts: number;
  /** When the first part began, and the last one ended; undefined where there is none. */
  readonly first: EpochMs | undefined;
  readonly last: EpochMs | undefined;
  readonly values: readonly FigureValue[];
  /** Settings that figures stand on: the ideal rate of each size, a minute, and how long a minor stop is at most. */
  readonly ideal: readonly { readonly id: string; readonly name: string; readonly ideal: number }[];
  readonly minorStopMinutes: number;
}
