import { type Instant, minutes } from '../units/units.ts';
import type { AdjustmentSigns, Side } from './symptoms.ts';
import type { AdjustmentKnown, Reading } from './troubled.ts';
import { COST_KNOWN, COST_UNKNOWN, MOVED_BY, READ_TO, READ_WRONGLY, SET_TO } from './weights.ts';

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

/** How what is known of an adjustment lies to the beginning of a trouble that it is thought to explain. */
export interface Told {
  /**
   * then: it tells of it, as it was set at the changeover. since: it was read while it was so. before: it was said before. still: a
   * sensor has read the same since before, so that nothing moved. nothing: nobody read it.
   */
  readonly reading: 'then' | 'since' | 'before' | 'still' | 'nothing';
  /** By so much a move that was recorded moved it. */
  readonly by: number | undefined;
}

/** A sensor may have seen the move so long before anything came of it. */
const SEEN_BEFORE = minutes(15);

export function toldOf(
  { reading, best }: AdjustmentKnown,
  { since, by, moving }: { since: Instant | 'run'; by?: number; moving: boolean },
): Told {
  if (!reading) return { reading: 'nothing', by };
  if (reading.known === 'sensor') {
    const still = moving && since !== 'run' && reading.since < since - SEEN_BEFORE;
    return { reading: still ? 'still' : best ? 'since' : 'nothing', by };
  }
  if (!best) return { reading: 'nothing', by };
  if (since === 'run') return { reading: 'then', by };
  return { reading: reading.since < since ? 'before' : 'since', by };
}

/** What was found of an adjustment: how far it is from its best number, and by how much it was moved. Undefined is not known. */
export interface Found {
  readonly far: number | undefined;
  readonly by: number | undefined;
}

/**
 * How much likelier what is known of an adjustment is if it is so far off, than if it stands well. What was said before the trouble
 * began tells nothing of what moved then: 1.
 */
export function readingSpeaks(known: AdjustmentKnown, signs: AdjustmentSigns, off: Off, told: Told): number {
  if (told.reading === 'still') return READ_WRONGLY.sensor;
  const tells = told.reading === 'then' || told.reading === 'since';
  const found: Found = { far: tells ? deviationOf(known) : undefined, by: told.by };
  if (found.far === undefined && found.by === undefined) return 1;
  const wrongly = tells ? wronglyRead(known.reading!, told.reading === 'then') : 0;
  const times = chanceIfOff(known, signs, off, found) / chanceIfWell(known, signs, found);
  return wrongly + (1 - wrongly) * times;
}

function wronglyRead({ known }: Reading, atChangeover: boolean): number {
  if (known === 'typed') return atChangeover ? READ_WRONGLY.typedThen : READ_WRONGLY.typedNow;
  return READ_WRONGLY[known];
}

/** The density of what was found, where nothing is wrong with it: it was set nearly right, and hands move it by little. */
export function chanceIfWell(known: AdjustmentKnown, { shows }: AdjustmentSigns, { far, by }: Found): number {
  const read = far === undefined ? 1 : heavy(far, Math.hypot(readTo(known, shows), SET_TO * shows));
  return read * (by === undefined ? 1 : heavy(by, MOVED_BY * shows));
}

/** The same where it explains the excess: it is off by what that takes, and came there from where it stood well. */
export function chanceIfOff(
  known: AdjustmentKnown,
  signs: AdjustmentSigns,
  off: Off,
  { far, by }: Found,
): number {
  const { middle, spread } = wantedDeviation(known, signs, off);
  const scale = readTo(known, signs.shows);
  const way = off.side === 'high' ? 1 : -1;
  let sum = 0;
  for (const place of SEVENTHS) {
    const is = way * middle * Math.exp(spread * place);
    const read = far === undefined ? 1 : heavy(far - is, scale);
    sum += read * (by === undefined ? 1 : heavy(by - is, SET_TO * signs.shows));
  }
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

/** How exactly the deviation is known: as the best number is, and as the scale is read. */
function readTo({ best, reading }: AdjustmentKnown, shows: number): number {
  return Math.hypot(best?.sd ?? 0, shows * (reading?.known === 'sensor' ? READ_TO.sensor : READ_TO.eye));
}

/** Student's distribution with four degrees: now and then a number is further off than a normal one would be. */
function heavy(far: number, scale: number): number {
  const z = far / scale;
  return (0.375 / scale) * (1 + (z * z) / 4) ** -2.5;
}
