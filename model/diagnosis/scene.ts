import { type Course, courseOf, likelyBeginning } from './course.ts';
import type { Acting, Explanation } from './explanations.ts';
import { type Divided, meanShares, reasonShares, type Shares, symptomShares } from './signs.ts';
import { type OtherCause, type Signs, SYMPTOMS } from './symptoms.ts';
import type { ReasonUsual, Troubled } from './troubled.ts';

/** What came, and from where it has to be explained. */
export interface Scene {
  readonly troubled: Troubled;
  readonly acting: readonly Acting[];
  readonly others: readonly OtherCause[];
  readonly course: Course;
  /** The cell from which on what came has to be explained. */
  readonly first: number;
  readonly divided: Divided;
  /** So many rejects and stops are usual here in 1,000 cartons; and their part of all that is usual here and elsewhere. */
  readonly usual: number;
  readonly ofAll: number;
  readonly signsOf: (explanation: Explanation) => Shown;
}

/** How an explanation shows: its shares of reasons and symptoms, and the part of it that shows here. */
export interface Shown {
  readonly reasons: Shares;
  readonly symptoms: Shares;
  readonly here: number;
}

/**
 * Here is what is the station's own, or what the file names for an adjustment that acts on it; what only a cause brings that acts on
 * other stations too is elsewhere. Any other reason says nothing of this station.
 */
export function sceneOf(troubled: Troubled, acting: readonly Acting[], others: readonly OtherCause[]): Scene {
  const ofStation = [
    ...acting.flatMap(({ signs }) => [signs.high, signs.low]),
    ...others.flatMap(({ signs, stations }) => (stations.length === 1 ? [signs] : [])),
  ];
  const near = troubled.reasons.map(
    (reason) => reason.station === troubled.station || ofStation.some((signs) => names(signs, reason)),
  );
  const far = troubled.reasons.map(
    (reason, place) => !near[place] && others.some(({ signs }) => names(signs, reason)),
  );
  const kept = only(
    troubled,
    troubled.reasons.map((_, place) => near[place]! || far[place]!),
  );
  const here = only(troubled, near);
  const course = courseOf(here.cells, here.reasons, troubled.alike);
  const first = likelyBeginning(course);
  const sumOf = (reasons: readonly ReasonUsual[]) => reasons.reduce((sum, { usual }) => sum + usual, 0);
  const [all, usual] = [sumOf(kept.reasons), sumOf(here.reasons)];
  const since = kept.cells.slice(first);
  return {
    troubled: kept,
    ...{ acting, others, course, first, usual: 1000 * usual, ofAll: usual / all },
    divided: {
      counts: kept.reasons.map((_, nth) => since.reduce((sum, { counts }) => sum + counts[nth]!, 0)),
      usual: kept.reasons.map((reason) => reason.usual / all),
    },
    signsOf: signsBy(acting, others, {
      reasons: kept.reasons,
      near: near.filter((_, place) => near[place]! || far[place]!),
    }),
  };
}

function only(troubled: Troubled, kept: readonly boolean[]): Troubled {
  const cells = troubled.cells.map((cell) => ({
    ...cell,
    counts: cell.counts.filter((_, place) => kept[place]),
  }));
  return { ...troubled, cells, reasons: troubled.reasons.filter((_, place) => kept[place]) };
}

function names(signs: Signs, { kind, id }: ReasonUsual): boolean {
  return kind === 'reject' ? signs.rejects.has(String(id)) : signs.stops.has(Number(id));
}

/** Of something else nobody knows the signs: they may be those of anything that is known, or none of them. */
function signsBy(
  acting: readonly Acting[],
  others: readonly OtherCause[],
  { reasons, near }: { readonly reasons: readonly ReasonUsual[]; readonly near: readonly boolean[] },
): Scene['signsOf'] {
  const of = (signs: Signs): Shown => {
    const shares = reasonShares(signs, reasons, near);
    return { reasons: shares, symptoms: symptomShares(signs), here: hereOf(shares, near) };
  };
  const high = new Map(acting.map(({ signs }) => [signs.number, of(signs.high)]));
  const low = new Map(acting.map(({ signs }) => [signs.number, of(signs.low)]));
  const other = new Map(others.map(({ id, signs }) => [id, of(signs)]));
  const all = [...high.values(), ...low.values(), ...other.values()];
  const even = { reasons: meanShares([], reasons.length), symptoms: meanShares([], SYMPTOMS.length) };
  const any = {
    reasons: meanShares([...all.map((one) => one.reasons), even.reasons], reasons.length),
    symptoms: meanShares([...all.map((one) => one.symptoms), even.symptoms], SYMPTOMS.length),
  };
  const anything = { ...any, here: hereOf(any.reasons, near) };
  return ({ cause, side }) => {
    if (cause.kind === 'adjustment') return (side === 'high' ? high : low).get(cause.number)!;
    return cause.kind === 'other' ? other.get(cause.id)! : anything;
  };
}

function hereOf(shares: Shares, near: readonly boolean[]): number {
  return shares.reduce((sum, share, place) => (near[place] ? sum + share : sum), 0);
}

/** The adjustment that an explanation blames. */
export function actingIn({ acting }: Scene, { cause }: Explanation): Acting | undefined {
  return cause.kind === 'adjustment' ? acting.find(({ signs }) => signs.number === cause.number) : undefined;
}
