import { EXCESS, logMean, logOfCourse, logOfNothing, logSum, type Shape } from './course.ts';
import type { Beginning, Explanation } from './explanations.ts';
import { readingSpeaks, toldOf } from './readings.ts';
import { actingIn, type Scene } from './scene.ts';
import { logOfReasons, logOfSymptoms, type Shares } from './signs.ts';

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
  const reasonsFor = reasonsBy(scene, shares.reasons);
  const readingFor = readingBy(scene, explanation);
  const logs: number[] = [];
  let best: Omit<Weighed, 'explanation' | 'log'> | undefined;
  let most = -Infinity;
  for (const beginning of explanation.beginnings) {
    const course = courseFor(beginning.shape);
    const reading = readingFor(beginning);
    const more = timesTheUsual(scene, beginning.shape);
    const own = EXCESS.map((excess, nth) => {
      const brings = (excess * more * scene.ofAll) / shares.here;
      const reasons = reasonsFor(brings / (1 + brings));
      const parts = { course: course[nth]!, reasons, symptoms, reading: reading[nth]! };
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

/** How far the trouble's part is told apart: a fiftieth more or less makes no difference to what is said. */
const PARTS_APART = 50;

/** By the part of what has to be explained that would be the trouble's; each part is reckoned once. */
function reasonsBy({ divided }: Scene, shares: Shares): (part: number) => number {
  const known = new Map<number, number>();
  return (part) => {
    const rounded = Math.round(PARTS_APART * part) / PARTS_APART;
    const log = known.get(rounded) ?? logOfReasons(divided, shares, rounded);
    known.set(rounded, log);
    return log;
  };
}

/** For each excess; beginnings that a reading tells the same of are reckoned once. */
function readingBy(scene: Scene, explanation: Explanation): (beginning: Beginning) => readonly number[] {
  const acting = actingIn(scene, explanation);
  const nothing = EXCESS.map(() => 0);
  if (!acting) return () => nothing;
  const known = new Map<string, readonly number[]>();
  const moving = explanation.how !== 'misSet';
  return (beginning) => {
    const told = toldOf(acting.known, { ...beginning, moving });
    const key = `${told.reading} ${told.by}`;
    const logs =
      known.get(key) ??
      EXCESS.map((excess) => {
        const off = { side: explanation.side!, excess, usual: scene.usual };
        return Math.log(readingSpeaks(acting.known, acting.signs, off, told));
      });
    known.set(key, logs);
    return logs;
  };
}

/** How many times the usual the trouble brought where it has to be explained, for an excess of one. */
function timesTheUsual({ course, first }: Scene, shape: Shape): number {
  let [usual, more] = [0, 0];
  for (let cell = first; cell < course.usual.length; cell += 1) {
    usual += course.usual[cell]!;
    more += shape[cell]! * course.usual[cell]!;
  }
  return more / usual;
}
