import type { FlowTold } from '../fold/flow.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Instant } from '../units/units.ts';
import type { PastAsked } from './past.ts';
import type { Stretch } from './stretches.ts';

export interface BalanceAsked extends PastAsked {
  readonly counted: boolean;
  readonly begun: Instant;
  /** Also one that lasts. */
  readonly gaps: readonly RecordBodies['gap'][];
  readonly entries: readonly RecordBodies['entry'][];
  /** The newest minute that had ended by a moment; at the end of a stretch that goes on until now, what is told now. */
  readonly minuteAt: (at: Instant) => Minute | undefined;
  /** Minutes that ended in a stretch, its end included. */
  readonly minutesIn: (stretch: Stretch) => readonly Minute[];
}

export type Minute = Pick<RecordBodies['minute'], 'at' | 'flow'>;

/** A moment at which the pockets were known. */
export interface KnownFlow {
  readonly at: Instant;
  readonly flow: FlowTold;
  readonly inPockets: number;
  readonly unaccounted: number;
}

/** What a minute tells of the pockets, where they were known. */
export function knownFlow(minute: Minute | undefined): KnownFlow | undefined {
  const flow = minute?.flow;
  if (!minute || !flow || flow[4] === null || flow[5] === null) return undefined;
  return { at: minute.at, flow, inPockets: flow[4], unaccounted: flow[5] };
}

/** [BA4] Cartons that people entered in a stretch, its end included. */
export function takenIn(entries: BalanceAsked['entries'], { from, to }: Stretch) {
  const sums = { sample: 0, byHand: 0, broughtBack: 0 };
  for (const { at, entry } of entries)
    if (entry.kind === 'takenOut' && at > from && at <= to) sums[entry.why] += entry.cartons;
  return { ...sums, takenOut: sums.sample + sums.byHand - sums.broughtBack };
}
