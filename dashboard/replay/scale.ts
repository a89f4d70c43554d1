/** A strip of time, px. */
export interface TimeBox {
  readonly from: number;
  readonly to: number;
  readonly left: number;
  readonly right: number;
}

export function xOf(at: number, { from, to, left, right }: TimeBox): number {
  return left + ((at - from) / (to - from)) * (right - left);
}

export function timeAt(x: number, { from, to, left, right }: TimeBox): number {
  return from + ((x - left) / (right - left)) * (to - from);
}

const STEPS = [
  1_000, 5_000, 10_000, 30_000, 60_000, 120_000, 300_000, 600_000, 1_200_000, 3_600_000, 7_200_000,
  14_400_000, 43_200_000, 86_400_000,
];

/** Whole moments of a clock, so far apart that their names have room. The zone's offset is one of whole quarters of an hour. */
export function ticksOf(box: TimeBox, room: number): readonly number[] {
  const most = Math.max(2, Math.floor((box.right - box.left) / room));
  const step = STEPS.find((one) => (box.to - box.from) / one <= most) ?? STEPS.at(-1)!;
  const ticks: number[] = [];
  for (let at = Math.ceil(box.from / step) * step; at <= box.to; at += step) ticks.push(at);
  return ticks;
}
