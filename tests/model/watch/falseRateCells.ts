import { EVIDENCE, SHAPES, STOPS_PER_RUN } from '../../../model/watch/falseRate.ts';
import type { RecentStop } from '../../../model/watch/repeated.ts';
import { partOf } from '../../../model/watch/repeatedPart.ts';
import type { UsualStops } from '../../../model/watch/repeatedUsual.ts';
import type { Instant } from '../../../model/units/units.ts';
import { chance, type Draw, exponential, normal, stream } from '../../../simulator/machine/random.ts';

/** Usual stops that are simulated for each cell. */
const STOPS = 40_000;
/** A new call only after the evidence fell to this share. */
const REARM = 1 / 8;
/** Beyond as few calls as this the table goes on as the sum promises. */
const CALLS_LEAST = 30;
/** As many cartons to a usual stop: only shares of it matter. */
const CARTONS = 20_000;

/**
 * One cell of the table: how many usual stops to one false call, for each evidence. Runs of one length have levels drawn as the
 * rule supposes them, and jams of which one in six has rests.
 */
export function cell(shapePlace: number, runPlace: number): readonly number[] {
  const [shape, stopsPerRun] = [SHAPES[shapePlace]!, STOPS_PER_RUN[runPlace]!];
  const draw = stream(1_000 * shapePlace + runPlace, 'false rate');
  const usual: UsualStops = {
    stops: { shape, cartons: shape * CARTONS },
    rejects: undefined,
    again: { yes: 10, no: 50 },
  };
  const calls = EVIDENCE.map(() => 0);
  const runs = Math.round(STOPS / stopsPerRun);
  for (let run = 0; run < runs; run += 1)
    callsOf(usual, runOf(draw, shape, stopsPerRun)).forEach((count, place) => {
      calls[place]! += count;
    });
  const stops = runs * stopsPerRun;
  return calls.reduce<number[]>((once, count, place) => {
    const simulated = stops / Math.max(1, count);
    once.push(
      count < CALLS_LEAST && place > 0
        ? Math.round(once[place - 1]! * 20) / 10
        : Math.round(simulated * 10) / 10,
    );
    return once;
  }, []);
}

function runOf(draw: Draw, shape: number, stopsPerRun: number): readonly RecentStop[] {
  const level = gammaDrawn(draw, shape) / shape;
  const stops: RecentStop[] = [];
  let at = 0;
  for (;;) {
    at += exponential(draw, 1 / level);
    if (at > stopsPerRun) return stops;
    let tries = 1;
    while (chance(draw, 1 / 6)) tries += 1;
    stops.push({ id: `${stops.length}`, at: 0 as Instant, cartons: CARTONS * at, tries });
  }
}

/** New calls at each evidence, looked at after every try. */
function callsOf(usual: UsualStops, stops: readonly RecentStop[]): readonly number[] {
  const on = EVIDENCE.map(() => false);
  const calls = EVIDENCE.map(() => 0);
  stops.forEach((stop, place) => {
    for (let tries = 1; tries <= stop.tries; tries += 1) {
      const recent = [...stops.slice(0, place), { ...stop, tries }];
      const { sum } = partOf(usual, { recent, nowCartons: stop.cartons }).evidence;
      EVIDENCE.forEach((level, which) => {
        if (sum >= level && !on[which]) {
          on[which] = true;
          calls[which]! += 1;
        } else if (sum < REARM * level) on[which] = false;
      });
    }
  });
  return calls;
}

/** By Marsaglia and Tsang (ACM Transactions on Mathematical Software 2000), for shapes of 1 and more. */
function gammaDrawn(draw: Draw, shape: number): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal(draw);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(draw()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}
