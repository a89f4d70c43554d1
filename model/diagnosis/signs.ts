import { logGamma } from '../statistics/logGamma.ts';
import { type Signs, SYMPTOMS, type Symptom } from './symptoms.ts';
import type { ReasonUsual } from './troubled.ts';
import {
  CLUMP,
  FILE_WORTH,
  SAID_WORTH,
  SAID_WRONGLY,
  SHARE_OF,
  UNNAMED,
  UNNAMED_ELSEWHERE,
  USUAL_WORTH,
} from './weights.ts';

/** Shares that add up to 1, in the order of the reasons or of `SYMPTOMS`. */
export type Shares = readonly number[];

/** How a trouble divides itself among the reasons here and elsewhere, as the file says it. */
export function reasonShares(
  signs: Signs,
  reasons: readonly ReasonUsual[],
  near: readonly boolean[],
): Shares {
  return sharesOf(
    reasons.map(({ kind, id }, place) => {
      const strength = kind === 'reject' ? signs.rejects.get(String(id)) : signs.stops.get(Number(id));
      return strength === undefined ? (near[place] ? UNNAMED : UNNAMED_ELSEWHERE) : SHARE_OF[strength];
    }),
  );
}

/** How often it would be said to look so, mistakes among it. */
export function symptomShares(signs: Signs): Shares {
  const shares = sharesOf(
    SYMPTOMS.map((symptom) => {
      const strength = signs.symptoms.get(symptom);
      return strength === undefined ? UNNAMED : SHARE_OF[strength];
    }),
  );
  return shares.map((share) => (1 - SAID_WRONGLY) * share + SAID_WRONGLY / SYMPTOMS.length);
}

export function meanShares(all: readonly Shares[], length: number): Shares {
  if (all.length === 0) return Array.from({ length }, () => 1 / length);
  return Array.from({ length }, (_, nth) => all.reduce((sum, shares) => sum + shares[nth]!, 0) / all.length);
}

/** What came, divided among the reasons, from where it has to be explained. */
export interface Divided {
  readonly counts: readonly number[];
  /** How the usual divides itself. */
  readonly usual: Shares;
}

/**
 * The logarithm of how likely the division is, where `part` of what came is the trouble's. The file's shares are not exact, and
 * those of the usual are only nearly so: the counts vary as a Dirichlet-multinomial distribution.
 */
export function logOfReasons({ counts, usual }: Divided, shares: Shares, part: number): number {
  const spread = part ** 2 / (FILE_WORTH + 1) + (1 - part) ** 2 / (USUAL_WORTH + 1);
  const worth = 1 / spread - 1;
  const means = usual.map((share, nth) => (1 - part) * share + part * shares[nth]!);
  return logDirichletMultinomial(counts, means, worth) / CLUMP;
}

export function logOfSymptoms(said: ReadonlyMap<Symptom, number>, shares: Shares): number {
  const counts = SYMPTOMS.map((symptom) => said.get(symptom) ?? 0);
  return logDirichletMultinomial(counts, shares, SAID_WORTH);
}

/** Without the part that no explanation changes. */
function logDirichletMultinomial(counts: readonly number[], means: Shares, worth: number): number {
  const all = counts.reduce((sum, count) => sum + count, 0);
  let sum = logGamma(worth) - logGamma(worth + all);
  for (const [nth, count] of counts.entries()) {
    if (count === 0) continue;
    const weight = Math.max(1e-6, worth * means[nth]!);
    sum += logGamma(weight + count) - logGamma(weight);
  }
  return sum;
}

function sharesOf(weights: readonly number[]): Shares {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}
