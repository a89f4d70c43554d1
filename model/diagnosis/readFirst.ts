import { type Acting, causeKey } from './explanations.ts';
import { chanceIfOff, chanceIfWell } from './readings.ts';
import type { AdjustmentKnown } from './troubled.ts';
import { SYMPTOMS } from './symptoms.ts';
import { READ_WRONGLY, SAID_WORTH } from './weights.ts';
import type { Scene } from './scene.ts';
import type { Weighed } from './weighing.ts';

/** A scale that somebody should read, and how much its number would tell. */
export interface ReadFirst {
  readonly number: string;
  /** Expected information about the cause, in bits. */
  readonly bits: number;
}

/** Numbers that a scale may be found at: so many places to either side of the best one, half of `shows` apart. */
const PLACES = 16;
const LEAST_BITS = 0.02;

/** [DG4] Scales that are read by eye and that nobody read since it began, by what a reading would tell. */
export function readFirstOf(
  scene: Scene,
  weighed: readonly Weighed[],
  chances: readonly number[],
): readonly ReadFirst[] {
  return scene.acting
    .filter((acting) => acting.known.best && !readSince(scene, acting.known))
    .map((acting) => ({ number: acting.signs.number, bits: bitsOf(scene, acting, weighed, chances) }))
    .filter(({ bits }) => bits >= LEAST_BITS)
    .sort((a, b) => b.bits - a.bits);
}

/** A sensor reads it, or somebody did since the trouble was there. */
function readSince({ troubled: { cells }, first }: Scene, { reading }: AdjustmentKnown): boolean {
  if (reading?.known === 'sensor') return true;
  const since = cells[first]!;
  return reading?.known === 'typed' && reading.since > since.from && reading.since > cells[0]!.from;
}

/** How much the number tells whether it is this adjustment, and to which side. */
function bitsOf(
  scene: Scene,
  { signs, known }: Acting,
  weighed: readonly Weighed[],
  chances: readonly number[],
): number {
  const asRead: AdjustmentKnown = {
    ...known,
    reading: { value: known.best!.value, known: 'typed', since: scene.troubled.cells.at(-1)!.to },
  };
  const numbers = Array.from({ length: 2 * PLACES + 1 }, (_, nth) => ((nth - PLACES) / 2) * signs.shows);
  const well = shared(numbers.map((far) => chanceIfWell(asRead, signs, { far, by: undefined })));
  const own = weighed.flatMap(({ explanation: { cause, side }, excess }, nth) => {
    if (cause.kind !== 'adjustment' || cause.number !== signs.number || !side) return [];
    const off = { side, excess, usual: scene.usual };
    const found = shared(numbers.map((far) => chanceIfOff(asRead, signs, off, { far, by: undefined })));
    const wrongly = READ_WRONGLY.typedNow;
    return [
      {
        chance: chances[nth]!,
        found: found.map((one, place) => wrongly * well[place]! + (1 - wrongly) * one),
      },
    ];
  });
  const it = own.reduce((sum, { chance }) => sum + chance, 0);
  if (it <= 0 || it >= 1) return 0;
  const ifIt = numbers.map(
    (_, place) => own.reduce((sum, one) => sum + one.chance * one.found[place]!, 0) / it,
  );
  return informationOf(it, ifIt, well);
}

/**
 * [DG6] What one more person would tell, in bits, who says how spoiled cartons look. What was said already counts: the next one most
 * likely says the same.
 */
export function looksTell(scene: Scene, weighed: readonly Weighed[], chances: readonly number[]): number {
  const said = SYMPTOMS.map((symptom) => scene.troubled.symptoms.get(symptom) ?? 0);
  const worth = SAID_WORTH + said.reduce((sum, times) => sum + times, 0);
  const byCause = new Map<string, { chance: number; says: number[] }>();
  for (const [nth, { explanation }] of weighed.entries()) {
    const { symptoms } = scene.signsOf(explanation);
    const key = causeKey(explanation.cause);
    const own = byCause.get(key) ?? { chance: 0, says: said.map(() => 0) };
    own.chance += chances[nth]!;
    own.says = own.says.map(
      (sum, place) => sum + (chances[nth]! * (SAID_WORTH * symptoms[place]! + said[place]!)) / worth,
    );
    byCause.set(key, own);
  }
  const any = said.map((_, place) => [...byCause.values()].reduce((sum, { says }) => sum + says[place]!, 0));
  let bits = 0;
  for (const { chance, says } of byCause.values())
    for (const [place, one] of says.entries())
      if (one > 0) bits += one * Math.log2(one / (chance * any[place]!));
  return Math.max(0, bits);
}

function shared(densities: readonly number[]): readonly number[] {
  const all = densities.reduce((sum, density) => sum + density, 0);
  return densities.map((density) => density / all);
}

/** Mutual information of "it is this one" and the number found, in bits. */
function informationOf(chance: number, ifIt: readonly number[], ifNot: readonly number[]): number {
  let bits = 0;
  for (const [place, one] of ifIt.entries()) {
    const other = ifNot[place]!;
    const any = chance * one + (1 - chance) * other;
    if (one > 0) bits += chance * one * Math.log2(one / any);
    if (other > 0) bits += (1 - chance) * other * Math.log2(other / any);
  }
  return Math.max(0, bits);
}
