import type { Instant } from '../units/units.ts';
import { logSum } from './course.ts';
import { deviationOf, wantedDeviation } from './readings.ts';
import type { Loose, Strength, Symptom } from './symptoms.ts';
import type { Reading } from './troubled.ts';
import { actingIn, type Scene } from './scene.ts';
import type { Part, Weighed } from './weighing.ts';
import type { Explanation } from './explanations.ts';

/** What speaks for a cause or against it, with all that words need. Moments are the model's own, or those of people's programs. */
export type Evidence<Moment = Instant> = Spoken &
  (
    | {
        /** It stands so far from its best number, which may itself be off by `sd`; off by `wanted` it would explain the trouble. */
        readonly kind: 'deviation';
        readonly reading: Omit<Reading, 'since'> & { readonly since: Moment };
        readonly best: number;
        readonly sd: number;
        readonly far: number;
        readonly wanted: number;
      }
    | { readonly kind: 'began'; readonly how: Explanation['how']; readonly at: Moment | undefined }
    | { readonly kind: 'reasons'; readonly reasons: readonly ReasonSeen[] }
    | { readonly kind: 'symptoms'; readonly said: readonly SymptomSaid[] }
    | { readonly kind: 'worksLoose'; readonly loose: Loose }
  );

interface Spoken {
  readonly speaks: 'for' | 'against';
  /** How many times likelier it makes the cause against all others; below 1 where it speaks against. */
  readonly times: number;
}

export interface ReasonSeen {
  readonly kind: 'reject' | 'stop';
  readonly id: string | number;
  readonly seen: number;
  readonly usual: number;
  /** How the file says that it shows; undefined where it does not name it. */
  readonly fits: Strength | undefined;
}

export interface SymptomSaid {
  readonly symptom: Symptom;
  readonly times: number;
  readonly fits: Strength | undefined;
}

/** What speaks less than so many times for or against is not worth a sentence. */
const LEAST = 1.3;

/** [DG3] Each part of the evidence, held against what the other explanations make of it, by how likely they were before. */
export function evidenceOf(scene: Scene, lead: Weighed, weighed: readonly Weighed[]): readonly Evidence[] {
  const others = weighed.filter(({ explanation }) => !sameCause(explanation, lead.explanation));
  const timesOf = (part: Part) => {
    const priors = logSum(others.map(({ explanation }) => Math.log(explanation.prior)));
    const theirs = logSum(others.map((one) => Math.log(one.explanation.prior) + one.parts[part]));
    return Math.exp(Math.min(700, lead.parts[part] - (theirs - priors)));
  };
  const found = [
    ...deviation(scene, lead, timesOf('reading')),
    ...began(lead, timesOf('course')),
    ...reasons(scene, lead, timesOf('reasons')),
    ...symptoms(scene, lead, timesOf('symptoms')),
    ...worksLoose(scene, lead),
  ];
  return found
    .filter(({ times }) => Math.abs(Math.log(times)) >= Math.log(LEAST))
    .sort((a, b) => Math.abs(Math.log(b.times)) - Math.abs(Math.log(a.times)));
}

function sameCause(a: Explanation, b: Explanation): boolean {
  if (a.cause.kind === 'adjustment')
    return b.cause.kind === 'adjustment' && a.cause.number === b.cause.number;
  if (a.cause.kind === 'other') return b.cause.kind === 'other' && a.cause.id === b.cause.id;
  return a.cause.kind === b.cause.kind;
}

function spoken(times: number): Spoken {
  return { times, speaks: times >= 1 ? 'for' : 'against' };
}

function deviation(scene: Scene, { explanation, excess }: Weighed, times: number): readonly Evidence[] {
  const acting = actingIn(scene, explanation);
  const far = acting && deviationOf(acting.known);
  if (!acting || far === undefined || !explanation.side) return [];
  const { reading, best } = acting.known;
  const off = { side: explanation.side, excess, usual: scene.usual };
  const wanted = wantedDeviation(acting.known, acting.signs, off).middle * (off.side === 'high' ? 1 : -1);
  return [
    { kind: 'deviation', ...spoken(times), reading: reading!, best: best!.value, sd: best!.sd, far, wanted },
  ];
}

function began({ explanation: { how }, beginning }: Weighed, times: number): readonly Evidence[] {
  return [{ kind: 'began', ...spoken(times), how, at: beginning?.at }];
}

function reasons(scene: Scene, lead: Weighed, times: number): readonly Evidence[] {
  const { troubled, divided, course, first, ofAll } = scene;
  const signs = signsFor(scene, lead);
  const all = course.usual.slice(first).reduce((sum, usual) => sum + usual, 0) / ofAll;
  const seen = troubled.reasons.flatMap(({ kind, id }, nth) => {
    const [count, usual] = [divided.counts[nth]!, divided.usual[nth]! * all];
    const fits = kind === 'reject' ? signs?.rejects.get(String(id)) : signs?.stops.get(Number(id));
    return count > usual || fits !== undefined ? [{ kind, id, seen: count, usual, fits }] : [];
  });
  return [
    {
      kind: 'reasons',
      ...spoken(times),
      reasons: seen.sort((a, b) => b.seen - b.usual - (a.seen - a.usual)),
    },
  ];
}

function symptoms(scene: Scene, lead: Weighed, times: number): readonly Evidence[] {
  const signs = signsFor(scene, lead);
  const said = [...scene.troubled.symptoms].map(([symptom, often]) => ({
    symptom,
    times: often,
    fits: signs?.symptoms.get(symptom),
  }));
  return said.length > 0 ? [{ kind: 'symptoms', ...spoken(times), said }] : [];
}

function worksLoose(scene: Scene, { explanation }: Weighed): readonly Evidence[] {
  const loose = actingIn(scene, explanation)?.signs.loose;
  if (explanation.how !== 'loose' || loose === undefined || loose === 'sometimes') return [];
  return [{ kind: 'worksLoose', ...spoken(loose === 'easily' ? 2 : 0.5), loose }];
}

function signsFor(scene: Scene, { explanation }: Weighed) {
  const { cause, side } = explanation;
  if (cause.kind === 'other') return scene.others.find(({ id }) => id === cause.id)?.signs;
  return side && actingIn(scene, explanation)?.signs[side];
}
