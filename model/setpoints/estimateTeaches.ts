import type { Sureness, Teaches } from './estimate.ts';
import { addedAt, onStep } from './estimateAnswer.ts';
import type { Drawn } from './estimateColumns.ts';
import type { Scale } from './estimateEvidence.ts';
import type { Tried } from './estimateSure.ts';

export interface TeachesAsked {
  readonly scale: Scale;
  readonly place: number;
  readonly tried: Tried;
  readonly recommended: number;
  readonly chain: readonly Drawn[];
  readonly sure: Sureness;
  readonly together: readonly string[];
}

/** A change is small: no farther from what is recommended, and beyond what was tried, than so many widths. */
const FARTHEST = 0.6;
const BEYOND_TRIED = 0.4;
/** Nor may it be expected to raise the station's risk by more than this share. */
const COSTS_MOST = 0.4;

/** [SB6] The small change that may gain most, over all that may be so, among those that are not expected to cost much. */
export function teaches(asked: TeachesAsked): Teaches | undefined {
  const { scale, place, tried, recommended, chain, sure, together } = asked;
  if (sure === 'cannotSay' || sure === 'sure' || tried.marks.length === 0) return undefined;
  const { facts, width } = scale;
  const lowest = tried.marks[0]!.at;
  const highest = tried.marks.at(-1)!.at;
  let most = 0;
  let to: number | undefined;
  for (const share of [-1, -0.75, -0.5, 0.5, 0.75, 1]) {
    const wished = recommended + Math.sign(share) * Math.max(facts.step, Math.abs(share) * FARTHEST * width);
    const number = onStep(facts, wished);
    if (number === recommended) continue;
    if (
      number < lowest - BEYOND_TRIED * width - facts.step ||
      number > highest + BEYOND_TRIED * width + facts.step
    )
      continue;
    const { mean, gain } = foreseen(scale, place, chain, recommended, number);
    if (mean > Math.log(1 + COSTS_MOST) || gain <= most) continue;
    [most, to] = [gain, number];
  }
  if (to === undefined) return undefined;
  if (sure === 'neverVaried') return { to, why: 'neverVaried' };
  if (together.length > 0) return { to, why: 'apart' };
  return { to, why: to < lowest || to > highest ? 'otherSide' : 'wide' };
}

/** How much worse the station would run there than at what is recommended, over the draws; and how much better, where it would. */
function foreseen(scale: Scale, place: number, chain: readonly Drawn[], from: number, to: number) {
  let sum = 0;
  let gain = 0;
  for (const drawn of chain) {
    const log = Math.log((1 + addedAt(scale, place, drawn, to)) / (1 + addedAt(scale, place, drawn, from)));
    sum += log;
    gain += Math.max(0, -log);
  }
  return { mean: sum / chain.length, gain: gain / chain.length };
}
