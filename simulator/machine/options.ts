import type { Instant } from '../../model/units/units.ts';
import { standardCalendar, standardZone } from '../calendar/standard.ts';
import type { PlantCalendar } from '../calendar/windows.ts';
import { standard, type Variant } from '../lines/variant.ts';

import { bundledOrders, type PlannedOrder } from './orders.ts';

/** What makes one run of the machine. The same options give the same run, to the last tick. */
export interface MachineOptions {
  /** A whole number from 0 on. */
  readonly seed: number;
  readonly start: Instant;
  readonly zone?: string;
  readonly calendar?: PlantCalendar;
  readonly variant?: Partial<Variant>;
  /** Whether some jams are cleared with the power locked out, so that the PLC falls silent. */
  readonly lockOuts?: boolean;
  /** Whether some jams are cleared with a jog backwards, and hands knock cartons that stay in their pockets. */
  readonly handling?: boolean;
  /** Made one after another; afterwards the machine goes on with orders of its own. */
  readonly orders?: readonly PlannedOrder[];
  /** Cartons of the first order that were made before the start. */
  readonly madeBefore?: number;
  /** How many times as often as usual something happens: 1 is a line that runs fairly well. */
  readonly lively?: number;
}

export interface Settled {
  readonly seed: number;
  readonly start: Instant;
  readonly zone: string;
  readonly calendar: PlantCalendar;
  readonly variant: Variant;
  readonly lockOuts: boolean;
  readonly handling: boolean;
  readonly orders: readonly PlannedOrder[];
  readonly madeBefore: number;
  readonly lively: number;
}

export function settleOptions(options: MachineOptions): Settled {
  return {
    seed: options.seed,
    start: options.start,
    zone: options.zone ?? standardZone,
    calendar: options.calendar ?? standardCalendar,
    variant: { ...standard, ...options.variant },
    lockOuts: options.lockOuts ?? true,
    handling: options.handling ?? false,
    orders: options.orders ?? bundledOrders,
    madeBefore: options.madeBefore ?? 0,
    lively: options.lively ?? 1,
  };
}
