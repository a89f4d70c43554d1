import { type Draw, uniform } from '../../../simulator/machine/random.ts';
import type { CurveTable } from './world.ts';

/**
 * What a deviation may cost, in tolerances: none of these is what the estimator takes a curve to be. Those that worlds are judged
 * with were not looked at while the estimator was made; it was made on the others.
 */
export type CurveFamily = (draw: Draw) => (off: number) => number;

export const judgedFamilies = {
  absolute: (draw) => {
    const slope = uniform(draw, 0.7, 1.6);
    return (off) => 1 + slope * Math.abs(off);
  },
  flatWell: (draw) => {
    const half = uniform(draw, 0.3, 0.7);
    const wall = uniform(draw, 2, 4.5);
    return (off) => 1 + wall * Math.max(0, Math.abs(off) - half);
  },
  oneSided: (draw) => {
    const side = draw() < 0.5 ? 1 : -1;
    const steep = uniform(draw, 1.2, 2.6);
    const gentle = uniform(draw, 0.15, 0.35);
    return (off) => 1 + (off * side > 0 ? steep : gentle) * Math.abs(off);
  },
  asymmetric: (draw) => {
    const side = draw() < 0.5 ? 1 : -1;
    const steep = uniform(draw, 1, 2.2);
    const ratio = uniform(draw, 0.35, 0.7);
    return (off) => 1 + (off * side > 0 ? steep : steep * ratio) * Math.abs(off);
  },
  steps: (draw) => {
    const rises = Array.from({ length: 2 }, () =>
      Array.from({ length: 16 }, () => (draw() < 0.35 ? uniform(draw, 0.3, 1.1) : uniform(draw, 0, 0.25))),
    );
    return (off) => {
      const side = rises[off > 0 ? 1 : 0]!;
      let sum = 1;
      for (let place = 0; place < side.length; place += 1)
        sum += side[place]! * Math.min(1, Math.max(0, (Math.abs(off) - 0.3 * place) / 0.3));
      return sum;
    };
  },
  plateau: (draw) => {
    const slope = uniform(draw, 1, 2);
    const most = uniform(draw, 0.8, 2);
    return (off) => 1 + Math.min(most, slope * Math.abs(off)) + 0.15 * Math.max(0, Math.abs(off) - 1);
  },
} as const satisfies Record<string, CurveFamily>;

export const tuningFamilies = {
  tiltedExponential: (draw) => {
    const tilt = uniform(draw, 0.5, 1) * (draw() < 0.5 ? 1 : -1);
    const size = uniform(draw, 0.8, 2) / tilt ** 2;
    return (off) => 1 + 0.8 * size * (Math.exp(tilt * off) - tilt * off - 1);
  },
  hyperbolicCosine: (draw) => {
    const rate = uniform(draw, 1, 1.6);
    return (off) => Math.cosh(rate * Math.min(4, Math.abs(off)));
  },
  threeHalves: (draw) => {
    const size = uniform(draw, 0.7, 1.5);
    return (off) => 1 + size * Math.abs(off) ** 1.5;
  },
  ramp: (draw) => {
    const side = draw() < 0.5 ? 1 : -1;
    const rate = uniform(draw, 2, 4);
    const steep = uniform(draw, 1, 2.2);
    const gentle = uniform(draw, 0.06, 0.2);
    return (off) =>
      1 + (steep / rate) * Math.log(1 + Math.exp(rate * side * off)) + gentle * Math.min(0, side * off) ** 2;
  },
  softWalls: (draw) => {
    const place = uniform(draw, 0.8, 1.4);
    const height = uniform(draw, 2, 4);
    return (off) =>
      1 +
      height / (1 + Math.exp(-(Math.abs(off) - place) / 0.22)) +
      0.6 * Math.max(0, Math.abs(off) - place) ** 2;
  },
} as const satisfies Record<string, CurveFamily>;

/** A family's curve as a table over deviations of an adjustment, a quarter of a tolerance apart near the best number. */
export function tableOf(curve: (off: number) => number, tolerance: number, share = 1): CurveTable {
  const offs = [-8, -6, -4, -3, -2.5, -2];
  for (let off = -1.75; off <= 1.76; off += 0.125) offs.push(off);
  offs.push(2, 2.5, 3, 4, 6, 8);
  return offs.map((off) => [round(off * tolerance), round(1 + share * (Math.min(30, curve(off)) - 1))]);
}

const round = (value: number) => Number(value.toFixed(5));
