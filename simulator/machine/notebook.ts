import type { Instant } from '../../model/units/units.ts';
import { type AdjustmentFacts, adjustments } from '../lines/cartoner.ts';
import { changeoverSteps } from '../lines/changeoverSteps.ts';
import type { Plant } from './plant.ts';
import { chance } from './random.ts';
import { settle, tolerance } from './setpoints.ts';

/**
 * What a setter writes down while setting: not the truth, which is the ledger's, but what was read by eye; a number that looked like
 * the book's is now and then only ticked off. `confirmed`: ticked off as the book's.
 */
export type Noted =
  | {
      readonly at: Instant;
      readonly kind: 'number';
      readonly station: string;
      readonly number: string;
      readonly value: number;
      readonly how: 'typed' | 'confirmed' | 'readBack';
    }
  | { readonly at: Instant; readonly kind: 'step'; readonly step: string; readonly approval: boolean };

/** An adjustment was set. What an encoder shows is written down only where it was left off the book. */
export function noteNumber(plant: Plant, facts: AdjustmentFacts): void {
  const { notebook: draw } = plant.draw;
  const actual = plant.setpoints.actual.get(facts.number) ?? 0;
  const step = 10 ** -facts.decimals;
  const book = facts.book[plant.setpoints.size];
  const sensed = facts.tag !== undefined;
  if (sensed && Math.abs(actual - book) <= step * 1.01) return;
  const ticked = !sensed && chance(draw, 0.35) && Math.abs(actual - book) <= 0.6 * tolerance(facts);
  const misread = !sensed && chance(draw, 0.08) ? (chance(draw, 0.5) ? step : -step) : 0;
  note(plant, {
    at: plant.now,
    kind: 'number',
    station: facts.station,
    number: facts.number,
    value: ticked ? book : settle(facts, actual + misread),
    how: ticked ? 'confirmed' : 'typed',
  });
}

/** Along the machine once more, to read what no encoder shows. */
export function noteAgain(plant: Plant): void {
  for (const facts of adjustments) {
    if (facts.tag !== undefined) continue;
    const { number, station } = facts;
    const value = plant.setpoints.actual.get(number) ?? 0;
    note(plant, { at: plant.now, kind: 'number', station, number, value, how: 'readBack' });
  }
}

/** A step of the changeover that is no number was done. */
export function noteStep(plant: Plant, ...ids: readonly string[]): void {
  for (const { id, kind } of changeoverSteps)
    if (ids.includes(id))
      note(plant, { at: plant.now, kind: 'step', step: id, approval: kind === 'approval' });
}

/** Now and then what was moved is written down. */
export function noteMoved(plant: Plant, facts: AdjustmentFacts): void {
  if (chance(plant.draw.notebook, 0.7)) noteNumber(plant, facts);
}

/** A live line has nobody who reads it: the newest are kept. */
const KEPT = 2_000;

function note({ notebook }: Plant, noted: Noted): void {
  notebook.push(noted);
  if (notebook.length > 2 * KEPT) notebook.splice(0, KEPT);
}
