import { adjustments, type SizeId, stations } from '../lines/cartoner.ts';
import type { Variant } from '../lines/variant.ts';
import { chance, type Draw, exponential, normal, pick, stream, uniform, whole } from '../machine/random.ts';
import {
  adjustment,
  createSetpoints,
  deviation,
  reckonRisks,
  rightValue,
  type Setpoints,
  settle,
  tolerance,
} from '../machine/setpoints.ts';
import type { Levels, Seconds } from './options.ts';

/** What chance of a misfold each station has now, and what changes it. */
export interface World {
  readonly risks: () => ReadonlyMap<string, number>;
  /** Another order, perhaps with another size: how many seconds its settings and corrections take. */
  readonly changeOver: (size: SizeId) => Seconds;
  readonly nextLot: () => void;
  /** The line ran for so many seconds. */
  readonly ran: (seconds: Seconds) => void;
  /** Somebody saw to a station that keeps jamming: how many seconds that takes. */
  readonly repair: (station: string) => Seconds;
}

export function worldOf(levels: Levels, seed: number, variant: Variant, size: SizeId): World {
  return levels.kind === 'machine'
    ? machineWorld(levels.loose, seed, variant, size)
    : logNormalWorld(levels, seed, variant, size);
}

/** Levels follow from adjustments, lots and sizes by the full simulator's own reckoning. */
function machineWorld(loose: boolean, seed: number, variant: Variant, size: SizeId): World {
  const draw = stream(seed, 'fast settings');
  const setpoints = createSetpoints(seed, variant.tuck, size, whole(draw, 2_100, 8_900));
  const guide = loose ? looseGuide(setpoints, stream(seed, 'fast drift')) : undefined;
  return {
    risks: () => setpoints.risks,
    changeOver: (next) => {
      const changes = next !== setpoints.size;
      setpoints.size = next;
      setpoints.lot += 1;
      if (changes) guide?.tighten();
      const took = changes ? setByBook(setpoints, draw) : 0;
      reckonRisks(setpoints);
      return took;
    },
    nextLot: () => {
      setpoints.lot += 1;
      reckonRisks(setpoints);
    },
    ran: (seconds) => guide?.ran(seconds),
    repair: (station) => {
      let took = 0;
      for (const facts of adjustments.filter((one) => one.station === station)) {
        took += Math.min(400, Math.max(25, 70 * Math.exp(0.5 * normal(draw))));
        move(setpoints, facts.number, rightValue(setpoints, facts) + 0.4 * tolerance(facts) * normal(draw));
        guide?.tighten(facts.number);
      }
      reckonRisks(setpoints);
      return took;
    },
  };
}

function move(setpoints: Setpoints, number: string, value: number): void {
  setpoints.actual.set(number, settle(adjustment(number), value));
}

/** By the book, read by eye; then up to three rounds of trial cartons, after which what is clearly off is mostly moved. */
function setByBook(setpoints: Setpoints, draw: Draw): Seconds {
  let took = 0;
  for (const facts of adjustments) {
    took += uniform(draw, 18, 70) + uniform(draw, 6, 25);
    const slip = chance(draw, 0.05) ? 2.2 : 0.45;
    move(setpoints, facts.number, facts.book[setpoints.size] + slip * tolerance(facts) * normal(draw));
  }
  for (let rounds = whole(draw, 1, 3); rounds > 0; rounds -= 1) {
    took += whole(draw, 32, 60) * 2.2 + 12;
    for (const facts of adjustments) {
      if (Math.abs(deviation(setpoints, facts)) < 0.9 || !chance(draw, 0.75)) continue;
      took += uniform(draw, 12, 45);
      move(setpoints, facts.number, rightValue(setpoints, facts) + 0.4 * tolerance(facts) * normal(draw));
    }
  }
  return took;
}

/** A guide that works loose now and then, and creeps while the machine shakes it. */
function looseGuide(setpoints: Setpoints, draw: Draw) {
  let now: { readonly number: string; readonly perHour: number; carried: number } | undefined;
  let waits = exponential(draw, 22 * 3_600);
  const tighten = (number?: string) => {
    if (!now || (number !== undefined && now.number !== number)) return;
    now = undefined;
    waits = exponential(draw, 22 * 3_600);
  };
  const ran = (seconds: Seconds) => {
    waits -= seconds;
    if (!now && waits <= 0) {
      const number = pick(draw, ['4.2', '5.1', '5.2', '9.1', '6.1'], (name) => (name === '5.2' ? 3 : 1));
      now = { number, perHour: uniform(draw, 0.4, 1.1) * (chance(draw, 0.5) ? 1 : -1), carried: 0 };
    }
    if (!now) return;
    const facts = adjustment(now.number);
    now.carried += (now.perHour * tolerance(facts) * seconds) / 3_600;
    const step = 10 ** -facts.decimals;
    if (Math.abs(now.carried) < step || Math.abs(deviation(setpoints, facts)) > 3.5) return;
    const moved = Math.trunc(now.carried / step) * step;
    now.carried -= moved;
    move(setpoints, now.number, (setpoints.actual.get(now.number) ?? 0) + moved);
    reckonRisks(setpoints);
  };
  return { tighten, ran };
}

const WANDERS_EVERY = 900;
/** On average a station's adjustments stand a little off, which this many times its least risk is. */
const USUAL_STRAIN = 1.4;

/** Levels are drawn: a family that no rule of the model assumes. */
function logNormalWorld(
  { betweenRuns, wander, held }: Extract<Levels, { kind: 'logNormal' }>,
  seed: number,
  variant: Variant,
  size: SizeId,
): World {
  const draw = stream(seed, 'fast levels');
  const bases = basesOf(seed, variant, size);
  const states = [...bases.keys()].map((id) => ({ id, run: 0, off: 0 }));
  let risks: ReadonlyMap<string, number> = bases;
  let sinceWander = 0;
  const reckon = () => {
    risks = new Map(
      states.map(({ id, run, off }) => [id, Math.min(0.3, bases.get(id)! * Math.exp(run + off))]),
    );
  };
  const begin = () => {
    for (const state of states) {
      state.run = betweenRuns * normal(draw);
      state.off = wander * normal(draw);
    }
    reckon();
  };
  begin();
  return {
    risks: () => risks,
    changeOver: () => {
      begin();
      return 900 + 600 * draw();
    },
    nextLot: () => undefined,
    ran: (seconds) => {
      sinceWander += seconds;
      if (wander === 0 || sinceWander < WANDERS_EVERY) return;
      sinceWander = 0;
      for (const state of states)
        state.off = held * state.off + wander * Math.sqrt(1 - held ** 2) * normal(draw);
      reckon();
    },
    repair: () => 60 + 60 * draw(),
  };
}

/** Each station's risk where every number is right, a little more. */
function basesOf(seed: number, variant: Variant, size: SizeId): ReadonlyMap<string, number> {
  const setpoints = createSetpoints(seed, variant.tuck, size, 1);
  for (const facts of adjustments) setpoints.actual.set(facts.number, rightValue(setpoints, facts));
  reckonRisks(setpoints);
  return new Map(stations.map(({ id }) => [id, USUAL_STRAIN * (setpoints.risks.get(id) ?? 0)]));
}
