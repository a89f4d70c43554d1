import type { Value } from '../signals/signals.ts';

/** How the numbers of one signal are written as whole numbers. */
export interface Decimals {
  /** Decimal places, 1 to `PLACES_MOST`. */
  readonly places: number;
  /** They went through 32 bits: 61.3 arrives as 61.29999923706055. */
  readonly rounded: boolean;
}

export const PLACES_MOST = 6;
/** Powers of ten by places. */
const powers: readonly number[] = Array.from({ length: PLACES_MOST + 1 }, (_, places) => 10 ** places);

/** The number that a whole number of decimal steps stands for. */
export function restore(scaled: number, places: number, rounded: boolean): number {
  const value = scaled / powers[places]!;
  return rounded ? Math.fround(value) : value;
}

/** The whole number of decimal steps that is nearest to a number. */
export function scaledBy(value: number, places: number): number {
  return Math.round(value * powers[places]!);
}

/**
 * The fewest decimal places that write most numbers of a group to the last bit; undefined when whole numbers do, or
 * when decimals do not help. A number that does not fit is none the worse: it is stored in full.
 */
export function decimalsOf(group: readonly Value[]): Decimals | undefined {
  let places = 0;
  let rounded: boolean | undefined;
  for (const value of group) {
    if (typeof value !== 'number' || Number.isInteger(value) || !Number.isFinite(value)) continue;
    const plain = placesOf(value, Math.max(places, 1), false);
    const short =
      plain === undefined && rounded !== false ? placesOf(value, Math.max(places, 1), true) : undefined;
    const found = rounded ? (short ?? plain) : (plain ?? short);
    if (found === undefined) continue;
    rounded ??= plain === undefined;
    places = Math.max(places, found);
  }
  return places === 0 ? undefined : { places, rounded: rounded === true };
}

function placesOf(value: number, least: number, rounded: boolean): number | undefined {
  if (rounded && Math.fround(value) !== value) return undefined;
  for (let places = least; places <= PLACES_MOST; places += 1) {
    const scaled = scaledBy(value, places);
    if (Math.abs(scaled) < 2 ** 51 && restore(scaled, places, rounded) === value) return places;
  }
  return undefined;
}
