import type { RejectId } from '../lines/cartoner.ts';
import { crewsOf, standard, targetsOf, type Variant } from '../lines/variant.ts';
import { loadersOf } from '../machine/loading.ts';
import { bundledOrders, orderAt, type PlannedOrder } from '../machine/orders.ts';
import { type Draw, exponential, stream, uniform } from '../machine/random.ts';
import type { Break } from './breaks.ts';
import { type Faulted, faulted } from './fault.ts';
import type { FastOptions, Seconds } from './options.ts';
import { incidents } from './standing.ts';
import { type World, worldOf } from './world.ts';

/** What one minute of production brought at discharge; a minute in which nothing came is left out. */
export interface FastMinute {
  /** Its end. */
  readonly at: Seconds;
  good: number;
  missed: number;
  readonly rejects: Record<RejectId, number>;
}

export interface FastStop {
  readonly begin: Seconds;
  readonly end: Seconds;
  readonly number: number;
  readonly kind: 'machine' | 'starved' | 'blocked' | 'operator' | 'safety' | 'pause' | 'changeover';
  readonly station: string | undefined;
  /** 1 is the first try; others meet the rests of the jam before. */
  readonly attempt: number;
}

/** From one change of size to the next. */
export interface FastRun {
  readonly size: string;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly minutes: readonly FastMinute[];
  readonly stops: readonly FastStop[];
}

/** Everything the line is at one moment; changed in place by the files of this folder. */
export interface FastLine {
  readonly seed: number;
  readonly variant: Variant;
  readonly orders: readonly PlannedOrder[];
  readonly draw: Draw;
  readonly world: World;
  readonly fault: Faulted;
  /** Chance that a carton is left empty on a good day. */
  readonly slips: number;
  readonly positions: number;
  readonly dues: { at: Seconds; readonly place: number }[];
  now: Seconds;
  place: number;
  order: PlannedOrder;
  made: number;
  /** Part of a carton that is already on its way. */
  begun: number;
  target: number;
  ramp: { readonly from: number; readonly began: Seconds; readonly lasts: Seconds };
  lotLeft: number;
  rests: { readonly station: string; after: number; readonly attempt: number } | undefined;
  jamsOfLate: { readonly station: string; readonly at: Seconds }[];
  breaks: Break[];
  shift: number;
  minutes: FastMinute[];
  stops: FastStop[];
  runFrom: Seconds;
}

export function newLine({
  seed,
  levels,
  fault,
  variant: wished,
  orders = bundledOrders,
}: FastOptions): FastLine {
  const variant = { ...standard, ...wished };
  const order = orderAt(orders, seed, 0);
  const loaders = loadersOf(variant, seed);
  const draw = stream(seed, 'fast line');
  return {
    seed,
    variant,
    orders,
    draw,
    world: worldOf(levels, seed, variant, order.size),
    fault: faulted(fault),
    slips: loaders.reduce((sum, { slips }) => sum + slips, 0) / loaders.length,
    positions: loaders.length,
    dues: incidents.map(({ hours }, place) => ({ at: exponential(draw, hours * 3_600), place })),
    now: 0,
    place: 0,
    order,
    made: 0,
    begun: 0,
    target: targetOf(variant, order),
    ramp: { from: 1, began: 0, lasts: 0 },
    lotLeft: 4_000,
    rests: undefined,
    jamsOfLate: [],
    breaks: [],
    shift: -1,
    minutes: [],
    stops: [],
    runFrom: 0,
  };
}

export function targetOf(variant: Variant, order: PlannedOrder): number {
  return targetsOf(variant, order.size)[crewsOf(variant).assumed] ?? 0;
}

/** The minute in which the line is now. */
export function minuteOf(line: FastLine): FastMinute {
  const at = 60 * (1 + Math.floor(line.now / 60));
  const last = line.minutes.at(-1);
  if (last?.at === at) return last;
  const minute: FastMinute = {
    at,
    good: 0,
    missed: 0,
    rejects: { 'top-open': 0, 'bottom-open': 0, empty: 0, crushed: 0, code: 0 },
  };
  line.minutes.push(minute);
  return minute;
}

/** The line stands, and runs again; what fell due meanwhile comes a little after. */
export function stood(line: FastLine, stop: Omit<FastStop, 'begin' | 'end'>, seconds: Seconds): void {
  const begin = line.now;
  line.now += seconds;
  line.stops.push({ ...stop, begin, end: line.now });
  for (const due of line.dues) if (due.at < line.now + 15) due.at = line.now + uniform(line.draw, 20, 240);
}
