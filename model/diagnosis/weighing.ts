import {
  courseOf,
  EXCESS,
  likelyBeginning,
  logMean,
  logOfCourse,
  logOfNothing,
  logSum,
  type Course,
  type Shape,
} from './course.ts';
import type { Acting, Beginning, Explanation } from './explanations.ts';
import { readingSpeaks } from './readings.ts';
import {
  type Divided,
  logOfReasons,
  logOfSymptoms,
  meanShares,
  reasonShares,
  type Shares,
  symptomShares,
} from './signs.ts';
import { type OtherCause, type Signs, SYMPTOMS } from './symptoms.ts';
import type { Troubled } from './troubled.ts';

/** An explanation with how likely it makes what was seen. */
export interface Weighed {
  readonly explanation: Explanation;
  /** Logarithm of prior times likelihood. */
  readonly log: number;
  /** The beginning that speaks most for it, and how many times the usual came on top. */
  readonly beginning: Beginning | undefined;
  readonly excess: number;
  /** What each kind of evidence adds, there: logarithms, that mean nothing but against another explanation's. */
  readonly parts: Readonly<Record<Part, number>>;
}

export const PARTS = ['course', 'reasons', 'symptoms', 'reading'] as const;
export type Part = (typeof PARTS)[number];

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

/** Every explanation, weighed. Courses of the same shape are reckoned once. */
export function weigh(scene: Scene, explanations: readonly Explanation[]): readonly Weighed[] {
  const courses = new Map<string, readonly number[]>();
  const courseFor = (shape: Shape) => {
    const key = shape.join();
    const known = courses.get(key) ?? logOfCourse(scene.course, shape);
    courses.set(key, known);
    return known;
  };
  return explanations.map((explanation) =>
    explanation.cause.kind === 'chance'
      ? weighNothing(scene, explanation)
      : weighOne(scene, explanation, courseFor),
  );
}

function weighNothing(scene: Scene, explanation: Explanation): Weighed {
  const { reasons, symptoms } = scene.signsOf(explanation);
  const parts = {
    course: logOfNothing(scene.course),
    reasons: logOfReasons(scene.divided, reasons, 0),
    symptoms: logOfSymptoms(scene.troubled.symptoms, symptoms),
    reading: 0,
  };
  const log = Math.log(explanation.prior) + parts.course + parts.reasons + parts.symptoms;
  return { explanation, log, beginning: undefined, excess: 0, parts };
}

function weighOne(
  scene: Scene,
  explanation: Explanation,
  courseFor: (shape: Shape) => readonly number[],
): Weighed {
  const shares = scene.signsOf(explanation);
  const symptoms = logOfSymptoms(scene.troubled.symptoms, shares.symptoms);
  const acting = actingIn(scene, explanation);
  const logs: number[] = [];
  let best: Omit<Weighed, 'explanation' | 'log'> | undefined;
  let most = -Infinity;
  for (const beginning of explanation.beginnings) {
    const course = courseFor(beginning.shape);
    const own = EXCESS.map((excess, nth) => {
      const off = { side: explanation.side ?? 'high', excess, usual: scene.usual };
      const parts = {
        course: course[nth]!,
        reasons: logOfReasons(scene.divided, shares.reasons, partOf(scene, beginning.shape, excess)),
        symptoms,
        reading: acting ? Math.log(readingSpeaks(acting.known, acting.signs, off, beginning.since)) : 0,
      };
      const log = parts.course + parts.reasons + parts.symptoms + parts.reading;
      if (log + Math.log(beginning.share) > most) {
        most = log + Math.log(beginning.share);
        best = { beginning, excess, parts };
      }
      return log;
    });
    logs.push(Math.log(beginning.share) + logMean(own));
  }
  return { explanation, log: Math.log(explanation.prior) + logSum(logs), ...best! };
}

export function actingIn({ acting }: Scene, { cause }: Explanation): Acting | undefined {
  return cause.kind === 'adjustment' ? acting.find(({ signs }) => signs.number === cause.number) : undefined;
}

/** Which part of what has to be explained would be the trouble's. */
function partOf({ course, first }: Scene, shape: Shape, excess: number): number {
  let [usual, more] = [0, 0];
  for (let cell = first; cell < course.usual.length; cell += 1) {
    usual += course.usual[cell]!;
    more += excess * shape[cell]! * course.usual[cell]!;
  }
  return more / (usual + more);
}
