import { type Course, courseOf, likelyBeginning } from './course.ts';
import type { Acting, Explanation } from './explanations.ts';
import { type Divided, meanShares, reasonShares, type Shares, symptomShares } from './signs.ts';
import { type OtherCause, type Signs, SYMPTOMS } from './symptoms.ts';
import type { Troubled } from './troubled.ts';

/** What came, and from where it has to be explained. */
export interface Scene {
  readonly troubled: Troubled;
  readonly acting: readonly Acting[];
  readonly others: readonly OtherCause[];
  readonly course: Course;
  /** The cell from which on what came has to be explained. */
  readonly first: number;
  readonly divided: Divided;
  /** So many rejects and stops are usual in 1,000 cartons. */
  readonly usual: number;
  readonly signsOf: (explanation: Explanation) => { readonly reasons: Shares; readonly symptoms: Shares };
}

/** Only reasons count that are the station's own, or that the file names for something that acts on it. */
export function sceneOf(troubled: Troubled, acting: readonly Acting[], others: readonly OtherCause[]): Scene {
  const named = [
    ...acting.flatMap(({ signs }) => [signs.high, signs.low]),
    ...others.map(({ signs }) => signs),
  ];
  const kept = troubled.reasons.flatMap(({ kind, id, station }, place) =>
    station === troubled.station || named.some((signs) => names(signs, kind, id)) ? [place] : [],
  );
  const reasons = kept.map((place) => troubled.reasons[place]!);
  const cells = troubled.cells.map((cell) => ({ ...cell, counts: kept.map((place) => cell.counts[place]!) }));
  const course = courseOf(cells, reasons, troubled.alike);
  const first = likelyBeginning(course);
  const usual = reasons.reduce((sum, reason) => sum + reason.usual, 0);
  return {
    troubled: { ...troubled, reasons, cells },
    ...{ acting, others, course, first, usual: 1000 * usual },
    divided: {
      counts: reasons.map((_, nth) => cells.slice(first).reduce((sum, { counts }) => sum + counts[nth]!, 0)),
      usual: reasons.map((reason) => reason.usual / usual),
    },
    signsOf: signsBy(acting, others, reasons),
  };
}

function names(signs: Signs, kind: 'reject' | 'stop', id: string | number): boolean {
  return kind === 'reject' ? signs.rejects.has(String(id)) : signs.stops.has(Number(id));
}

/** Of something else nobody knows the signs: they may be those of anything that is known, or none of them. */
function signsBy(
  acting: readonly Acting[],
  others: readonly OtherCause[],
  reasons: Troubled['reasons'],
): Scene['signsOf'] {
  const of = (signs: Signs) => ({ reasons: reasonShares(signs, reasons), symptoms: symptomShares(signs) });
  const high = new Map(acting.map(({ signs }) => [signs.number, of(signs.high)]));
  const low = new Map(acting.map(({ signs }) => [signs.number, of(signs.low)]));
  const other = new Map(others.map(({ id, signs }) => [id, of(signs)]));
  const all = [...high.values(), ...low.values(), ...other.values()];
  const even = { reasons: meanShares([], reasons.length), symptoms: meanShares([], SYMPTOMS.length) };
  const any = {
    reasons: meanShares([...all.map((one) => one.reasons), even.reasons], reasons.length),
    symptoms: meanShares([...all.map((one) => one.symptoms), even.symptoms], SYMPTOMS.length),
  };
  return ({ cause, side }) => {
    if (cause.kind === 'adjustment') return (side === 'high' ? high : low).get(cause.number)!;
    return cause.kind === 'other' ? other.get(cause.id)! : any;
  };
}

/** The adjustment that an explanation blames. */
export function actingIn({ acting }: Scene, { cause }: Explanation): Acting | undefined {
  return cause.kind === 'adjustment' ? acting.find(({ signs }) => signs.number === cause.number) : undefined;
}
