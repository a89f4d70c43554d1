import type { ActingAdjustment, OtherSize, SettledStretch } from './estimate.ts';

/** What is thought of a best number before counts are looked at, in widths from the middle. */
export interface WeakPrior {
  readonly mean: number;
  readonly spread: number;
  /** Where people mostly end. */
  readonly usual: number;
}

/** Of what a book is off for a size, people's last settings show so much: they move what is clearly off, and leave the rest. */
const SHOWN = 0.7;
/** Standard deviations in widths: of what all share (habits), of one run's end, of one lot's. */
const HABITS = 0.25;
const RUN_ENDS = 0.6;
/** How far books are off: what is a scale's own for all sizes, and a size's own. */
const OFF_SHARED = 0.45;
const OFF_OWN = 0.5;

/** A confirmed number is the book's and no look at what is right. */
export function weakPrior(
  place: number,
  { middle, width }: { readonly middle: number; readonly width: number },
  stretches: readonly SettledStretch[],
  others: readonly OtherSize[],
): WeakPrior {
  const ends = new Map<string, number>();
  for (const { run, settings } of stretches) {
    const setting = settings[place];
    if (setting && setting.known !== 'confirmed') ends.set(run, (setting.value - middle) / width);
  }
  const [mean, variance] = fromOthers(others, width);
  if (ends.size === 0) return { mean, spread: Math.sqrt(variance), usual: 0 };
  const bounded = [...ends.values()].map((end) => Math.min(2.5, Math.max(-2.5, end)));
  const usual = bounded.reduce((sum, end) => sum + end, 0) / bounded.length;
  const looked = usual / SHOWN;
  const lookVariance = (HABITS ** 2 + RUN_ENDS ** 2 / bounded.length) / SHOWN ** 2;
  const weight = variance / (variance + lookVariance);
  return {
    mean: mean + weight * (looked - mean),
    spread: Math.sqrt((variance * lookVariance) / (variance + lookVariance)),
    usual,
  };
}

/** Other sizes show what is wrong with the scale itself. */
function fromOthers(others: readonly OtherSize[], width: number): readonly [mean: number, variance: number] {
  let precision = 1 / OFF_SHARED ** 2;
  let sum = 0;
  for (const { offset, spread } of others) {
    const weight = 1 / (OFF_OWN ** 2 + (spread / width) ** 2);
    precision += weight;
    sum += (weight * offset) / width;
  }
  return [sum / precision, 1 / precision + OFF_OWN ** 2];
}

/** By the scale's step, as fine as somebody found worth reading; and by how far settings lie about the middle, the more the more there are. */
export function typicalWidth(
  { step }: Pick<ActingAdjustment, 'step'>,
  middle: number,
  known: readonly number[],
): number {
  const byStep = 1.1 * (step / 0.1) ** 0.5;
  const offs = known.map((value) => Math.min(4 * byStep, Math.abs(value - middle)));
  const about = Math.sqrt(offs.reduce((sum, off) => sum + off ** 2, 0) / Math.max(1, offs.length));
  if (about < step / 2) return byStep;
  const weight = known.length / (known.length + 8);
  return byStep ** (1 - weight) * Math.max(2 * step, 1.5 * about) ** weight;
}
