import type { AdjustmentSigns } from '../../../model/diagnosis/symptoms.ts';
import type { AdjustmentKnown, Move, Reading } from '../../../model/diagnosis/troubled.ts';
import type { Instant } from '../../../model/units/units.ts';
import { chance, type Draw, normal, uniform } from '../../../simulator/machine/random.ts';
import type { Truth } from './trouble.ts';
import type { World } from './world.ts';

/** What is known of an adjustment is made of this. */
export interface Made {
  readonly world: World;
  readonly truth: Truth;
  /** Minutes of the run. */
  readonly ended: number;
  readonly draw: Draw;
  readonly at: (minute: number) => Instant;
}

interface Known {
  readonly known: AdjustmentKnown;
  /** What somebody says who reads its scale now. */
  readonly read: () => AdjustmentKnown;
}

/** A hand that moved it in the run: for no reason, or because of the trouble. */
interface Hand {
  readonly minute: number;
  readonly by: number;
}

export function knownOf(made: Made, signs: AdjustmentSigns): Known {
  const { world, truth, ended, draw, at } = made;
  const own = world.adjustments.get(signs.number)!;
  const hasSensor = world.machine.sensed.includes(signs.number);
  const guilty = truth.number === signs.number;
  const hands = handsOf(made, signs, guilty);
  const set = harmless(made, signs);
  const place = (minute: number) =>
    own.best +
    (guilty ? truth.far(minute) : set) +
    hands.reduce((sum, hand) => sum + (hand.minute <= minute ? hand.by : 0), 0);
  const told = hands.map(() => hasSensor || chance(draw, 0.35));
  const moves = movesOf(made, { guilty, hasSensor, place, hands: hands.filter((_, nth) => told[nth]) });
  const reading = hasSensor
    ? sensed(made, signs, place)
    : said(made, signs, { guilty, place, last: hands.findLast((_, nth) => told[nth]) });
  const known: AdjustmentKnown = {
    ...{ number: signs.number, hasSensor, reading, best: own.thought, moves },
    cost: own.cost && {
      perSquare: own.cost.perSquare * usualIn(world, truth),
      sd: own.cost.sd * usualIn(world, truth),
    },
  };
  const read = (): AdjustmentKnown => {
    const wrong = chance(draw, 0.05) ? 2.5 * signs.shows * normal(draw) : 0;
    const value = place(ended) + wrong + 0.12 * signs.shows * normal(draw);
    return { ...known, reading: { value, known: 'typed', since: at(ended) } };
  };
  return { known, read };
}

/** So many are usual in 1,000 cartons, over the reasons that the trouble shows in. */
function usualIn({ machine, usual }: World, { station, shown }: Truth): number {
  return (
    1000 *
    usual.reduce(
      (sum, one, nth) =>
        sum + (machine.reasons[nth]!.station === station || shown.reasons[nth]! > 0.05 ? one : 0),
      0,
    )
  );
}

/** Nobody sets a number exactly; what is not guilty is not so far off that it would spoil as much again as is usual. */
function harmless({ world, draw }: Made, { number, shows }: AdjustmentSigns): number {
  const { excess } = world.adjustments.get(number)!;
  let off = shows * world.manner.setTo * normal(draw) * (chance(draw, 0.1) ? 2.5 : 1);
  while (excess(off) > 0.6) off /= 2;
  return off;
}

function handsOf({ truth, ended, draw }: Made, { shows }: AdjustmentSigns, guilty: boolean): readonly Hand[] {
  const hands: Hand[] = [];
  if (guilty && truth.kind === 'moved') hands.push({ minute: truth.from, by: 0 });
  if (chance(draw, 0.06)) hands.push({ minute: uniform(draw, 0, ended), by: 0.4 * shows * normal(draw) });
  // people try things while it is bad
  if (chance(draw, 0.12))
    hands.push({ minute: uniform(draw, Math.max(0, truth.from), ended), by: 0.5 * shows * normal(draw) });
  return hands.filter(({ minute }) => minute <= ended).sort((a, b) => a.minute - b.minute);
}

interface Moving {
  readonly guilty: boolean;
  readonly hasSensor: boolean;
  readonly place: (minute: number) => number;
  readonly hands: readonly Hand[];
}

function movesOf(
  { truth, ended, draw, at }: Made,
  { guilty, hasSensor, place, hands }: Moving,
): readonly Move[] {
  const moves: Move[] = [];
  if (chance(draw, 0.85)) moves.push({ at: at(0), from: undefined, to: place(0), by: 'changeover' });
  for (const { minute } of hands)
    moves.push({ at: at(minute), from: place(minute - 0.01), to: place(minute), by: 'hand' });
  if (guilty && hasSensor && truth.kind === 'knocked')
    moves.push({ at: at(truth.from), from: place(truth.from - 0.01), to: place(truth.from), by: 'hand' });
  if (guilty && hasSensor && truth.kind === 'loose' && chance(draw, 0.85))
    moves.push({ at: at(truth.from), from: place(truth.from), to: place(ended), by: 'drift' });
  return moves.sort((a, b) => a.at - b.at);
}

/** An encoder is nearly exact; now and then its coupling slips, or its value flickers. */
function sensed(
  { ended, draw, at }: Made,
  { shows }: AdjustmentSigns,
  place: (minute: number) => number,
): Reading {
  const slipped = chance(draw, 0.02) ? 2 * shows * normal(draw) : 0;
  let since = ended;
  while (since > 0 && Math.abs(place(since) - place(ended)) < 0.15 * shows) since -= 1;
  if (since > 0) since = Math.min(ended, since + 1);
  if (chance(draw, 0.05)) since = uniform(draw, since, ended);
  return {
    value: place(ended) + slipped + 0.05 * shows * normal(draw),
    known: 'sensor',
    since: at(Math.max(0, since)),
  };
}

interface Saying {
  readonly guilty: boolean;
  readonly place: (minute: number) => number;
  readonly last: Hand | undefined;
}

/** Typed at the changeover, tapped "as book", or nothing; a hand that told is newer. */
function said(
  made: Made,
  { number, shows }: AdjustmentSigns,
  { guilty, place, last }: Saying,
): Reading | undefined {
  const { world, truth, draw, at } = made;
  const { book, thought } = world.adjustments.get(number)!;
  if (last)
    return { value: place(last.minute) + 0.1 * shows * normal(draw), known: 'typed', since: at(last.minute) };
  const how = draw();
  if (how > 0.8) return undefined;
  if (how > 0.45) return { value: book, known: 'confirmed', since: at(0) };
  // who set it wrongly often types what it should have been
  const asMeant = guilty && truth.kind === 'misSet' && chance(draw, 0.35);
  const value = asMeant ? (thought?.value ?? book) : place(0);
  return { value: value + 0.1 * shows * normal(draw), known: 'typed', since: at(0) };
}
