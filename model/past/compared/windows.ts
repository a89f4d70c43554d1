import { type Instant, MINUTE } from '../../units/units.ts';
import { joined, type Stretch, without } from '../stretches.ts';

/** One of two stretches as its time is laid over the other's. */
export interface SideTime extends Stretch {
  /** Where both have their zero: a whole minute. */
  readonly origin: Instant;
  /** What nobody saw of it. */
  readonly dark: readonly Stretch[];
}

/** What is held against one another: whole minutes, as counts are kept by the minute. */
export interface Windows {
  readonly here: Stretch;
  readonly there: Stretch;
  /** Those parts of them that count. */
  readonly kept: { readonly here: readonly Stretch[]; readonly there: readonly Stretch[] };
  /** Not seen in one of them, and so left out of both: in the time of `here`. */
  readonly leftOut: readonly Stretch[];
  /** Which of them ends before the moment that is looked at. */
  readonly ended: 'here' | 'there' | undefined;
}

/** Since their zero up to a moment of the first; what nobody saw in one of them is left out of both. */
export function windowsOfTime(here: SideTime, there: SideTime, at: Instant): Windows {
  const longs = [at - here.origin, here.to - here.origin, there.to - there.origin].map(minutesDown);
  const long = Math.max(0, Math.min(...longs));
  const window: Stretch = { from: 0 as Instant, to: long as Instant };
  const dark = [here, there].flatMap((side) =>
    side.dark.map(({ from, to }) => ({
      from: minutesDown(from - side.origin) as Instant,
      to: minutesUp(to - side.origin) as Instant,
    })),
  );
  const leftOut = joined(
    dark.map(({ from, to }) => ({
      from: Math.max(0, from) as Instant,
      to: Math.min(long, to) as Instant,
    })),
  );
  const kept = without(window, leftOut);
  const on = ({ origin }: SideTime) => shiftedBy(origin);
  return {
    here: on(here)(window),
    there: on(there)(window),
    kept: { here: kept.map(on(here)), there: kept.map(on(there)) },
    leftOut: leftOut.map(on(here)),
    ended: long < longs[0]! ? (longs[2]! <= longs[1]! ? 'there' : 'here') : undefined,
  };
}

/** One whole minute's end, and the good cartons since the beginning of its stretch. */
export interface MadeAt {
  readonly at: Instant;
  readonly cartons: number;
}

export interface SideMade extends Stretch {
  /** The oldest first; the first of them is where its first whole minute begins, with none. */
  readonly made: readonly MadeAt[];
}

/** Up to as many good cartons in both as the first had at a moment; where the other never had as many, up to as many as it had. */
export function windowsOfCartons(here: SideMade, there: SideMade, at: Instant): Windows {
  const wanted = here.made.findLast((one) => one.at <= at) ?? first(here);
  const reached = there.made.find(({ cartons }) => cartons >= wanted.cartons);
  const last = there.made.at(-1) ?? first(there);
  const end = reached ?? last;
  const own = reached ? wanted : (here.made.find(({ cartons }) => cartons >= last.cartons) ?? wanted);
  const windows = {
    here: { from: first(here).at, to: own.at },
    there: { from: first(there).at, to: end.at },
  };
  const piece = (one: Stretch) => (one.to > one.from ? [one] : []);
  return {
    ...windows,
    kept: { here: piece(windows.here), there: piece(windows.there) },
    leftOut: [],
    ended: reached ? undefined : 'there',
  };
}

function first({ from, made }: SideMade): MadeAt {
  return made[0] ?? { at: minutesUp(from) as Instant, cartons: 0 };
}

function shiftedBy(by: number): (one: Stretch) => Stretch {
  return ({ from, to }) => ({ from: (from + by) as Instant, to: (to + by) as Instant });
}

export function minutesDown(ticks: number): number {
  return Math.floor(ticks / MINUTE) * MINUTE;
}

export function minutesUp(ticks: number): number {
  return Math.ceil(ticks / MINUTE) * MINUTE;
}
