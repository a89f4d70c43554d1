import type { Happened } from '../../model/replay/happened.ts';

/** From what the moments of a list are counted. */
export interface Zero {
  readonly kind: 'firstFault' | 'press' | 'stop' | 'window';
  readonly at: number;
}

/** Looked for so long before the moment, and a little after it. */
const BEFORE_MS = 600_000;
const AFTER_MS = 60_000;

/** The first fault nearest to a moment; else a press, else a stop's beginning, else the moment. */
export function zeroOf(happened: readonly Happened[], at: number): Zero {
  const near = happened.filter((one) => one.at >= at - BEFORE_MS && one.at <= at + AFTER_MS);
  for (const [kind, of] of [
    ['firstFault', 'firstFault'],
    ['press', 'press'],
    ['stop', 'stopBegan'],
  ] as const) {
    const [found] = near
      .filter((one) => one.kind === of)
      .sort((a, b) => Math.abs(a.at - at) - Math.abs(b.at - at));
    if (found) return { kind, at: found.at };
  }
  return { kind: 'window', at };
}
