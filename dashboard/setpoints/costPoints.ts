import type { Learned } from '../../model/past/setPointsPast.ts';
import { type CostAgainst, costAgainst } from '../../model/setpoints/costAgainst.ts';

/** A number of the scale in the drawing: solid where it was tried, dashed beyond; at the last one tried both, so that they join. */
export interface CostPoint {
  readonly at: number;
  readonly lost: number | undefined;
  readonly lostBeyond: number | undefined;
  readonly rejects: number | undefined;
  readonly rejectsBeyond: number | undefined;
  readonly interval: readonly [low: number, high: number];
}

/** Between the lowest and the highest setting that ran it is tried; beyond them nobody was. */
export function costPoints(learned: Learned): readonly CostPoint[] {
  const { marks } = learned;
  const cost = costAgainst(learned);
  const [first, last] = [marks[0]?.at, marks.at(-1)?.at];
  const tried = ({ at }: CostAgainst) =>
    first !== undefined && last !== undefined && at >= first - 1e-9 && at <= last + 1e-9;
  return cost.map((one, place) => {
    const { at, more, rejectsPerThousand, low, high } = one;
    const inside = tried(one);
    const [before, after] = [cost[place - 1], cost[place + 1]];
    // where the two meet, both lines have it
    const edge = (before !== undefined && !tried(before)) || (after !== undefined && !tried(after));
    const beyond = !inside || edge;
    return {
      at,
      lost: inside ? more : undefined,
      lostBeyond: beyond ? more : undefined,
      rejects: inside ? rejectsPerThousand : undefined,
      rejectsBeyond: beyond ? rejectsPerThousand : undefined,
      interval: [low, high],
    };
  });
}

/** Round numbers from 0 up to what has to be drawn: a few of them. */
export function heightsOf(most: number): readonly number[] {
  const step = roundStep(Math.max(most, 1e-9) / 3);
  return Array.from({ length: Math.ceil(most / step - 1e-9) + 1 }, (_, n) => n * step);
}

/** The next round number from there on: one, two or five with zeros. */
export function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least) + 1e-9);
  return ([1, 2, 5].find((times) => times * power >= least - 1e-9) ?? 10) * power;
}
