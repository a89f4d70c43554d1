import { type AlignedSide, type Axis, momentOf, placeOf } from '../../model/past/compared/aligned.ts';

/** A strip of time, px. */
export interface TimeBox {
  readonly from: number;
  readonly to: number;
  readonly left: number;
  readonly right: number;
  /** Where it lies on an axis that another has in common with it; left out where it is alone. */
  readonly aligned?: { readonly side: AlignedSide; readonly axis: Axis } | undefined;
}

export function xOf(at: number, { from, to, left, right, aligned }: TimeBox): number {
  const share = aligned ? shareOf(placeOf(aligned.side, at), aligned.axis) : shareOf(at, { from, to });
  return left + share * (right - left);
}

export function timeAt(x: number, { from, to, left, right, aligned }: TimeBox): number {
  const share = (x - left) / (right - left);
  if (!aligned) return from + share * (to - from);
  const { side, axis } = aligned;
  const place = axis.from + share * (axis.to - axis.from);
  return momentOf(side, place) ?? (place < placeOf(side, from) ? from : to);
}

function shareOf(place: number, { from, to }: Axis): number {
  return (place - from) / (to - from);
}

const STEPS = [
  1_000, 5_000, 10_000, 30_000, 60_000, 120_000, 300_000, 600_000, 1_200_000, 3_600_000, 7_200_000,
  14_400_000, 43_200_000, 86_400_000,
];

/** Whole moments of a clock, so far apart that their names have room. The zone's offset is one of whole quarters of an hour. */
export function ticksOf(box: Omit<TimeBox, 'aligned'>, room: number): readonly number[] {
  const most = Math.max(2, Math.floor((box.right - box.left) / room));
  const step = STEPS.find((one) => (box.to - box.from) / one <= most) ?? STEPS.at(-1)!;
  const ticks: number[] = [];
  for (let at = Math.ceil(box.from / step) * step; at <= box.to; at += step) ticks.push(at);
  return ticks;
}

/** Round counts, so far apart that they have room. */
export function countTicks({ from, to }: Axis, width: number, room: number): readonly number[] {
  const most = Math.max(2, Math.floor(width / room));
  const least = Math.max(1, (to - from) / most);
  const ten = 10 ** Math.floor(Math.log10(least));
  const step = [1, 2, 5, 10].map((times) => times * ten).find((one) => one >= least)!;
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.floor(to / step) - first + 1 }, (_, place) => (first + place) * step);
}
