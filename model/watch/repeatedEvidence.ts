import { hardRatio, KINDS, moreRatio, rejectsFrom, TIMES_AS_MANY } from './repeatedTrouble.ts';
import type { RecentStop, RejectsBy } from './repeated.ts';
import type { Level, UsualStops } from './repeatedUsual.ts';

/** A station in a run, or in the part of it that is still looked at. */
export interface RunSeen {
  readonly recent: readonly Pick<RecentStop, 'cartons' | 'tries'>[];
  /** Cartons of the run before the part that is looked at. */
  readonly begunCartons: number;
  readonly nowCartons: number;
  readonly rejects: readonly RejectsBy[] | undefined;
}

/** How strongly a run speaks for trouble at its station, and since when. */
export interface Evidence {
  /** How much likelier all that was seen is if trouble began somewhere in it; each beginning is weighed by the stops usual there. */
  readonly sum: number;
  /** The beginning that speaks most for it; undefined where no two stops came. */
  readonly strongest: Beginning | undefined;
  /** Whether stops that come oftener speak for it, or tries that go wrong again. */
  readonly by: 'stops' | 'tries';
}

export interface Beginning {
  /** In cartons of the run. */
  readonly from: number;
  /** How many cartons' beginnings it stands for. */
  readonly cartons: number;
  /** How many of the stops came before it. */
  readonly before: number;
}

/** "Repeated" is two stops at least, or one with a re-jam. */
export const STOPS_LEAST = 2;
/** Beginnings between the newest stops are tried apart; those before as one stretch. */
const STOPS_APART = 14;
/** Where between two stops trouble may have begun: shares of the cartons between them that lie behind, closer to the later one. */
const EDGES = [0, 0.5, 0.75, 0.875, 0.95, 0.98, 1] as const;

/**
 * The sum of Shiryaev and Roberts for a change of a rate that is itself known only as a distribution: without trouble its mean
 * grows by one for each stop that is usual, so it reaches a level no oftener than once in as many stops (Roberts, Technometrics
 * 1966; Pollak, Annals of Statistics 1985; from memory). How much more seldom it does is tabulated (`falseRate.ts`).
 */
export function evidenceOf(usual: UsualStops, seen: RunSeen): Evidence {
  const perCarton = usual.stops.shape / usual.stops.cartons;
  const ratioOf = ratios(usual, seen);
  let [sum, most] = [0, 0];
  let told: Pick<Evidence, 'strongest' | 'by'> = { strongest: undefined, by: 'stops' };
  for (const strongest of beginnings(seen)) {
    const { more, harder } = ratioOf(strongest);
    sum += perCarton * strongest.cartons * (more + harder);
    if (more + harder <= most) continue;
    most = more + harder;
    told = { strongest, by: harder > more ? 'tries' : 'stops' };
  }
  return { sum, ...told };
}

function beginnings({ recent, begunCartons }: RunSeen): readonly Beginning[] {
  const first = Math.max(0, recent.length - STOPS_APART);
  return recent.slice(first).flatMap((stop, place) => {
    const start = place === 0 ? begunCartons : recent[first + place - 1]!.cartons;
    const between = Math.max(0, stop.cartons - start);
    return EDGES.slice(1).map((edge, at) => {
      const from = start + (between * (edge + EDGES[at]!)) / 2;
      const before = place === 0 ? recent.filter(({ cartons }) => cartons <= from).length : first + place;
      return { from, cartons: between * (edge - EDGES[at]!), before };
    });
  });
}

interface Ratio {
  /** How much likelier what came since a beginning is, by kinds of trouble that make more stops. */
  readonly more: number;
  /** And by those that make jams harder to clear. */
  readonly harder: number;
}

const NEITHER: Ratio = { more: 0, harder: 0 };

/** What beginnings have in common is worked out once: their kinds of trouble are many. */
function ratios(
  usual: UsualStops,
  { recent, nowCartons, begunCartons, rejects }: RunSeen,
): (beginning: Beginning) => Ratio {
  const cameAfter = afterwards(usual, recent);
  const rejectsSeen = rejectsFrom(usual.rejects, rejects, { begun: begunCartons, to: nowCartons });
  const [stopsMore, rejectsToo] = [
    new Float64Array(TIMES_AS_MANY.length),
    new Float64Array(TIMES_AS_MANY.length),
  ];
  return ({ from, before }) => {
    const { stops, retries, hard } = cameAfter(before);
    if (stops + retries < STOPS_LEAST) return NEITHER;
    const then = learned(usual.stops, before, from - begunCartons);
    const seen = rejectsSeen?.(from);
    for (let times = 0; times < TIMES_AS_MANY.length; times += 1) {
      stopsMore[times] = moreRatio(then, stops, nowCartons - from, times);
      rejectsToo[times] = seen ? moreRatio(seen.level, seen.count, seen.of, times) : 1;
    }
    let [more, harder] = [0, 0];
    for (const kind of KINDS) {
      const both = stopsMore[kind.times]! * (kind.rejects ? rejectsToo[kind.times]! : 1);
      const likelier = kind.chance * both * (kind.hard ? hard : 1);
      if (kind.hard) harder += likelier;
      else more += likelier;
    }
    return { more, harder };
  };
}

interface Afterwards {
  readonly stops: number;
  readonly retries: number;
  readonly hard: number;
}

/** What came after so many of the stops; beginnings between the same two have it in common. */
function afterwards(usual: UsualStops, recent: RunSeen['recent']): (before: number) => Afterwards {
  let known: { readonly before: number; readonly after: Afterwards } | undefined;
  return (before) => {
    if (known?.before === before) return known.after;
    let retries = 0;
    for (let place = before; place < recent.length; place += 1) retries += recent[place]!.tries - 1;
    const stops = Math.max(0, recent.length - before);
    const hard = stops > 0 ? hardRatio(usual.again, retries, stops - 1) : 1;
    known = { before, after: { stops, retries, hard } };
    return known.after;
  };
}

/** The level of a run after what it has brought. */
export function learned({ shape, cartons }: Level, count: number, of: number): Level {
  return { shape: shape + count, cartons: cartons + of };
}
