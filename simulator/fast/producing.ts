import { reasons, stations } from '../lines/cartoner.ts';
import { chance, exponential, uniform, whole } from '../machine/random.ts';
import { breaksOf } from './breaks.ts';
import { type FastLine, minuteOf, stood } from './line.ts';
import { type Seconds, SHIFT_SECONDS } from './options.ts';
import { type Fate, spoiled, steps } from './spoil.ts';
import { incidents, jammed, startUp } from './standing.ts';

/** Short dips of the speed take this share of it on average. */
const DIPS = 0.997;
/** Cycles that are lost while the machine comes up to speed again. */
const SPIN_UP = 1.1;
/** Chance that a position falls behind with a carton, and that it then misses one of the next. */
const FALLS_BEHIND = 0.0003;
const MISSES_BEHIND = 0.35;
/** Rests of a jam are met by so many cartons, each with this chance. */
const MEET_RESTS = 8;
const MEETS = 0.2;
const firstPocket = 25;
const numberOf = new Map(
  reasons.flatMap(({ kind, station, number }) =>
    kind === 'machine' && station ? [[station, number] as const] : [],
  ),
);
const distanceOf = new Map(stations.map(({ id, pockets }) => [id, pockets]));

/** Makes an order, through everything that happens on the way. */
export function produce(line: FastLine): void {
  while (line.made < line.order.quantity) {
    const pause = breakDue(line);
    const due = line.dues.reduce((first, other) => (other.at < first.at ? other : first));
    if (pause && pause.at <= line.now) takeBreak(line);
    else if (due.at <= line.now) happen(line, due);
    else {
      const minuteEnds = 60 * (1 + Math.floor(line.now / 60));
      runOn(line, Math.min(minuteEnds, due.at, pause?.at ?? Infinity, SHIFT_SECONDS * (line.shift + 1)));
    }
  }
}

/** The next break that is not too late; each shift plans its own. */
function breakDue(line: FastLine) {
  const shift = Math.floor(line.now / SHIFT_SECONDS);
  if (shift !== line.shift) {
    line.breaks = [...breaksOf(shift, line.draw)].filter(({ at }) => at > line.now);
    line.shift = shift;
  }
  while (line.breaks[0] && line.now > line.breaks[0].latest) line.breaks.shift();
  return line.breaks[0];
}

function takeBreak(line: FastLine): void {
  const { lasts } = line.breaks.shift()!;
  const stop = { number: 201, kind: 'pause', station: undefined, attempt: 1 } as const;
  stood(line, stop, lasts + startUp(line.draw));
  line.now += SPIN_UP * cycle(line);
}

function happen(line: FastLine, due: FastLine['dues'][number]): void {
  const { number, kind, station, stands, hours } = incidents[due.place]!;
  stood(line, { number, kind, station, attempt: 1 }, stands(line.draw));
  due.at = line.now + exponential(line.draw, hours * 3_600);
  line.now += SPIN_UP * cycle(line);
}

/** Seconds of one carton at the speed that is reached now. */
function cycle({ now, target, ramp }: FastLine): Seconds {
  const gone = now - ramp.began;
  const reached = gone >= ramp.lasts ? 1 : ramp.from + (1 - ramp.from) * (gone / ramp.lasts);
  return 60 / (target * reached * DIPS);
}

/** Good cartons up to a moment, or up to the first carton that is not. */
function runOn(line: FastLine, until: Seconds): void {
  const each = cycle(line);
  const hazards = hazardsOf(line);
  const clean = hazards.reduce((product, hazard) => product * (1 - hazard), 1 - FALLS_BEHIND);
  const most = Math.floor(line.begun + (until - line.now) / each);
  const left = line.order.quantity - line.made;
  const next = 1 + Math.floor(Math.log(1 - line.draw()) / Math.log(clean));
  const first = Math.min(next, line.rests?.after ?? Infinity);
  if (first > Math.min(most, left)) {
    const cartons = Math.min(most, left);
    const seconds = cartons < most ? (cartons - line.begun) * each : until - line.now;
    const begun = cartons < most ? 0 : line.begun + seconds / each - cartons;
    return came(line, cartons, Math.max(0, seconds), begun);
  }
  came(line, first - 1, Math.max(0, (first - line.begun) * each), 0);
  if (line.rests && line.rests.after <= 1) {
    const { station, attempt } = line.rests;
    return jam(line, station, attempt + 1);
  }
  befall(line, hazards, clean);
}

/** Good cartons of the minute in which the time began. */
function came(line: FastLine, cartons: number, seconds: Seconds, begun: number): void {
  minuteOf(line).good += cartons;
  line.made += cartons;
  line.now += seconds;
  line.begun = begun;
  used(line, cartons);
  line.world.ran(seconds);
  line.fault.ran(line.now, seconds, cartons);
}

/** Blanks come from a lot, and rests of a jam are met by cartons that come. */
function used(line: FastLine, cartons: number): void {
  if (line.rests) line.rests.after -= cartons;
  line.lotLeft -= cartons;
  if (line.lotLeft > 0) return;
  line.lotLeft = whole(line.draw, 6_000, 9_500);
  line.world.nextLot();
}

function hazardsOf(line: FastLine): readonly number[] {
  const risks = line.world.risks();
  return steps.map((step) => {
    if (step === 'jam') return 0.000012;
    if (step === 'code') return 0.0004;
    const usual = step === 'loading' ? line.slips : (risks.get(step) ?? 0);
    return Math.min(0.9, usual * line.fault.times(step));
  });
}

/** One carton, or its blank, to which something happens; or hands that fall behind. */
function befall(line: FastLine, hazards: readonly number[], clean: number): void {
  const { draw } = line;
  let rest = draw() * (1 - clean);
  if (rest < FALLS_BEHIND) return fallBehind(line);
  rest -= FALLS_BEHIND;
  let before = 1 - FALLS_BEHIND;
  let place = 0;
  for (; place < hazards.length - 1; place += 1) {
    const here = before * hazards[place]!;
    if (rest < here) break;
    rest -= here;
    before -= here;
  }
  const fate = spoiled(place, { hazards, draw, jamsMore: line.fault.jamsMore });
  tell(line, fate);
}

function tell(line: FastLine, fate: Fate): void {
  switch (fate.kind) {
    case 'good':
      return came(line, 1, 0, 0);
    case 'missed':
      return miss(line);
    case 'rejected':
      minuteOf(line).rejects[fate.reason] += 1;
      return used(line, 1);
    case 'jammed':
      return jam(line, fate.station, 1);
  }
}

/** One position misses some of its next pockets. */
function fallBehind(line: FastLine): void {
  const { draw } = line;
  const pockets = whole(draw, 4, 14);
  let empty = 0;
  for (let pocket = 0; pocket < pockets; pocket += 1) if (chance(draw, MISSES_BEHIND)) empty += 1;
  minuteOf(line).rejects.empty += empty;
  used(line, empty);
  line.now += empty * cycle(line);
}

/** A pick that missed; one in fifty is the first of three, which stop the line. */
function miss(line: FastLine): void {
  const three = chance(line.draw, 0.02);
  minuteOf(line).missed += three ? 3 : 1;
  if (three) jam(line, 'pick', 1);
}

function jam(line: FastLine, station: string, attempt: number): void {
  const { draw } = line;
  const distance = distanceOf.get(station) ?? 0;
  const late = [...line.jamsOfLate, { station, at: line.now }].filter(({ at }) => line.now - at < 3_600);
  const worse = late.filter((one) => one.station === station).length >= 3;
  line.jamsOfLate = worse ? late.filter((one) => one.station !== station) : late;
  const repaired = worse ? line.world.repair(station) : 0;
  const seconds = jammed(draw, { distance, again: attempt > 1, repaired });
  const stop = { number: numberOf.get(station) ?? 0, kind: 'machine', station, attempt } as const;
  stood(line, stop, seconds);
  line.rests =
    !worse && station !== 'pick' && station !== 'discharge' ? restsOf(line, station, attempt) : undefined;
  line.now += (SPIN_UP + cleared(line, station, distance)) * cycle(line);
}

/** Whether this jam is cleared badly, so that one of the next cartons meets its rests. */
function restsOf(line: FastLine, station: string, attempt: number): FastLine['rests'] {
  if (!chance(line.draw, line.fault.rests(station))) return undefined;
  for (let after = 1; after <= MEET_RESTS; after += 1)
    if (chance(line.draw, MEETS)) return { station, after, attempt };
  return undefined;
}

/** Pockets that people empty; they come round without a carton. */
function cleared({ draw }: FastLine, station: string, distance: number): number {
  const how = draw();
  const upstream = Math.min(firstPocket, distance + whole(draw, 0, 2));
  if (station === 'pick' && how < 0.8) return firstPocket - upstream + 1;
  if (how < 0.6) return upstream - distance + 1;
  return how < 0.88 ? upstream - Math.max(0, distance - whole(draw, 2, 5)) + 1 : upstream + 1;
}

/** The rate creeps up after a changeover, over some minutes. */
export function rampUp(line: FastLine, sizeChanges: boolean): void {
  const minutes = sizeChanges ? uniform(line.draw, 5, 11) : uniform(line.draw, 2, 5);
  line.ramp = { from: uniform(line.draw, 0.62, 0.8), began: line.now, lasts: 60 * minutes };
}
