import { hardRatio, KINDS, moreRatio, rejectsRatio, type TroubleKind } from './repeatedTrouble.ts';
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
const STOPS_LEAST = 2;
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
  const alike = new Map<number, number>();
  let [sum, most] = [0, 0];
  let told: Pick<Evidence, 'strongest' | 'by'> = { strongest: undefined, by: 'stops' };
  for (const strongest of beginnings(seen)) {
    const { more, harder } = ratioOf(usual, seen, strongest, alike);
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

/** How much likelier what came since a beginning is, by kinds of trouble that make more stops and by those that make harder ones. */
function ratioOf(
  usual: UsualStops,
  { recent, nowCartons, begunCartons, rejects }: RunSeen,
  { from, before }: Beginning,
  alike: Map<number, number>,
): { more: number; harder: number } {
  const after = recent.slice(before);
  const retries = after.reduce((sum, { tries }) => sum + tries - 1, 0);
  const ratio = { more: 0, harder: 0 };
  if (after.length + retries < STOPS_LEAST) return ratio;
  const then = learned(usual.stops, before, from - begunCartons);
  const hard = hardRatio(usual.again, retries, after.length - 1);
  const stopsMore = (times: number) => moreRatio(then, after.length, nowCartons - from, times);
  const rejectsToo = (times: number) =>
    rejectsRatio(usual.rejects, rejects, { begun: begunCartons, from, to: nowCartons, times });
  alike.clear();
  const remembered = (kind: TroubleKind) => {
    const key = kind.rejects ? -kind.times : kind.times;
    const known = alike.get(key);
    if (known !== undefined) return known;
    const found = stopsMore(kind.times) * (kind.rejects ? rejectsToo(kind.times) : 1);
    alike.set(key, found);
    return found;
  };
  for (const kind of KINDS) {
    const likelier = kind.chance * remembered(kind) * (kind.hard ? hard : 1);
    if (kind.hard) ratio.harder += likelier;
    else ratio.more += likelier;
  }
  return ratio;
}

/** The level of a run after what it has brought. */
export function learned({ shape, cartons }: Level, count: number, of: number): Level {
  return { shape: shape + count, cartons: cartons + of };
}
