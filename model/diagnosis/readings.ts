import type { Instant } from '../units/units.ts';
import type { AdjustmentSigns, Side } from './symptoms.ts';
import type { AdjustmentKnown, Reading } from './troubled.ts';
import { COST_KNOWN, COST_UNKNOWN, READ_TO, READ_WRONGLY, SET_TO } from './weights.ts';

/** An adjustment that is thought to be off to one side, so much that it explains an excess. */
export interface Off {
  readonly side: Side;
  /** Times the usual on top of it. */
  readonly excess: number;
  /** So many are usual in 1,000 cartons. */
  readonly usual: number;
}

/** Places in a normal distribution that stand for a seventh of it each. */
const SEVENTHS = [-1.4652, -0.7916, -0.3661, 0, 0.3661, 0.7916, 1.4652] as const;

/** How far the number lies from the best one; undefined where either is not known. */
export function deviationOf({ reading, best }: AdjustmentKnown): number | undefined {
  return reading && best ? reading.value - best.value : undefined;
}

/**
 * How much likelier this reading is if the adjustment is so far off since a moment, than if it stands well. What was said before
 * that moment tells nothing of it: 1.
 */
export function readingSpeaks(
  known: AdjustmentKnown,
  signs: AdjustmentSigns,
  off: Off,
  since: Instant | 'run',
): number {
  const { reading, best } = known;
  if (!reading || !best) return 1;
  if (reading.known !== 'sensor' && since !== 'run' && reading.since < since) return 1;
  const wrongly = wronglyRead(reading, since);
  const far = reading.value - best.value;
  const ratio = chanceIfOff(known, signs, off, far) / chanceIfWell(known, signs, far);
  return wrongly + (1 - wrongly) * ratio;
}

function wronglyRead({ known }: Reading, since: Instant | 'run'): number {
  if (known === 'typed') return since === 'run' ? READ_WRONGLY.typedThen : READ_WRONGLY.typedNow;
  return READ_WRONGLY[known];
}

/** The density of a number so far from the best one, where nothing is wrong with it. */
export function chanceIfWell(known: AdjustmentKnown, { shows }: AdjustmentSigns, far: number): number {
  return heavy(far, Math.hypot(known.best?.sd ?? shows, readTo(known, shows), SET_TO * shows));
}

/** The same where it explains the excess. */
export function chanceIfOff(known: AdjustmentKnown, signs: AdjustmentSigns, off: Off, far: number): number {
  const { middle, spread } = wantedDeviation(known, signs, off);
  const scale = Math.hypot(known.best?.sd ?? signs.shows, readTo(known, signs.shows));
  const way = off.side === 'high' ? 1 : -1;
  let sum = 0;
  for (const place of SEVENTHS) sum += heavy(far - way * middle * Math.exp(spread * place), scale);
  return sum / SEVENTHS.length;
}

/** How far off it has to be to explain the excess: by its measured cost, else by what the file says. */
export function wantedDeviation(
  { cost }: Pick<AdjustmentKnown, 'cost'>,
  { shows }: AdjustmentSigns,
  { excess, usual }: Off,
): { readonly middle: number; readonly spread: number } {
  const byFile = { middle: shows * Math.sqrt(excess), spread: COST_UNKNOWN };
  if (!cost || cost.perSquare <= 0 || cost.sd >= cost.perSquare) return byFile;
  const middle = Math.sqrt((excess * usual) / cost.perSquare);
  // the deviation goes with the root of the cost, so half of its own uncertainty counts
  return { middle, spread: Math.hypot(COST_KNOWN, cost.sd / cost.perSquare / 2) };
}

function readTo({ reading }: AdjustmentKnown, shows: number): number {
  return shows * (reading?.known === 'sensor' ? READ_TO.sensor : READ_TO.eye);
}

/** Student's distribution with four degrees: now and then a number is further off than a normal one would be. */
function heavy(far: number, scale: number): number {
  const z = far / scale;
  return (0.375 / scale) * (1 + (z * z) / 4) ** -2.5;
}
