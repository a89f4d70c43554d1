import { orderAt } from '../machine/orders.ts';
import { uniform, whole } from '../machine/random.ts';
import { type FastLine, type FastRun, newLine, stood, targetOf } from './line.ts';
import type { FastOptions, Seconds } from './options.ts';
import { produce, rampUp } from './producing.ts';
import { startUp } from './standing.ts';

/**
 * Runs of a line of cartons and stops only, one after another without end: thousands of shifts a minute, equal in distribution to
 * the full simulator (`tests/simulator/fast.test.ts`). No pockets, no PLC, no moments finer than what statistics need. The same
 * options give the same runs.
 */
export function* fastRuns(options: FastOptions): Generator<FastRun, never> {
  const line = newLine(options);
  for (;;) {
    produce(line);
    const size = line.order.size;
    const ended = line.now;
    changeOver(line);
    if (line.order.size === size) continue;
    yield { size, from: line.runFrom, to: ended, minutes: line.minutes, stops: line.stops };
    line.minutes = [];
    line.stops = [];
    line.runFrom = line.now;
  }
}

/** From the end of one order to production of the next. */
function changeOver(line: FastLine): void {
  const { draw } = line;
  const next = orderAt(line.orders, line.seed, line.place + 1);
  const sizeChanges = next.size !== line.order.size;
  const settings = line.world.changeOver(next.size);
  const rest = sizeChanges ? 0 : uniform(draw, 150, 400) + trial(line) + uniform(draw, 15, 40);
  const seconds = 25 + uniform(draw, 4, 20) + uniform(draw, 20, 70) + uniform(draw, 30, 90) + settings + rest;
  stood(line, { number: 202, kind: 'changeover', station: undefined, attempt: 1 }, seconds + startUp(draw));
  line.place += 1;
  line.order = next;
  line.made = 0;
  line.begun = 0;
  line.rests = undefined;
  line.lotLeft = whole(draw, 6_000, 9_500);
  line.target = targetOf(line.variant, next);
  rampUp(line, sizeChanges);
}

function trial({ draw, target }: FastLine): Seconds {
  return (whole(draw, 32, 60) * 60) / (target * 0.6) + startUp(draw);
}
