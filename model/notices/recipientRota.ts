import type { Instant } from '../units/units.ts';
import { dayAt, dayOf, daysAfter, momentOf, momentOn } from './recipientDays.ts';

/** Who is on call, turn by turn, handed over by the line's clocks. */
export interface Rota {
  readonly id: string;
  /** Date of a hand-over to the first of the turns, as 2026-03-30; the turns go on before it as after it. */
  readonly first: string;
  /** Clock of the hand-over. */
  readonly clock: string;
  /** Length of a turn; 7 for weeks. */
  readonly days: number;
  /** Numbers of people. */
  readonly turns: readonly string[];
  readonly substitutes: readonly Substitute[];
}

/** One stands in for another from one reading of the line's clocks to another, as 2026-03-30T06:00. */
export interface Substitute {
  readonly of: string;
  readonly by: string;
  readonly from: string;
  readonly to: string;
}

/** Who is on call at a moment; undefined for a rota without turns. Of substitutes for the same person the last one counts. */
export function onCall(rota: Rota, zone: string, at: Instant): string | undefined {
  const { length } = rota.turns;
  if (length === 0) return undefined;
  const turn = turnAt(rota, zone, at);
  return standingIn(rota, zone, at, rota.turns[((turn % length) + length) % length]!);
}

/** The next moment at which somebody else may be on call; undefined for a rota without turns. */
export function nextHandOver(rota: Rota, zone: string, at: Instant): Instant | undefined {
  if (rota.turns.length === 0) return undefined;
  const turn = handOver(rota, zone, turnAt(rota, zone, at) + 1);
  const ends = rota.substitutes.flatMap(({ from, to }) => [momentOf(from, zone), momentOf(to, zone)]);
  return [turn, ...ends].filter((moment) => moment > at).sort((a, b) => a - b)[0];
}

/** How many hand-overs lie between the first and a moment; negative before it. */
function turnAt(rota: Rota, zone: string, at: Instant): number {
  const turn = Math.floor((dayAt(at, zone) - dayOf(rota.first)) / rota.days);
  return handOver(rota, zone, turn) <= at ? turn : turn - 1;
}

function handOver(rota: Rota, zone: string, turn: number): Instant {
  return momentOn(daysAfter(dayOf(rota.first), turn * rota.days), rota.clock, zone);
}

/** A substitute may have one too; two that stand in for each other stand where the circle began. */
function standingIn(rota: Rota, zone: string, at: Instant, person: string): string {
  const seen = new Set<string>();
  let stands = person;
  while (!seen.has(stands)) {
    seen.add(stands);
    const one = rota.substitutes.findLast(
      ({ of, from, to }) => of === stands && momentOf(from, zone) <= at && at < momentOf(to, zone),
    );
    if (one === undefined) return stands;
    stands = one.by;
  }
  return person;
}
