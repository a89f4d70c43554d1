import {
  chance,
  type Draw,
  normal,
  pick,
  stream,
  uniform,
  whole,
} from '../../../simulator/machine/random.ts';
import { judgedFamilies, tableOf, tuningFamilies } from './families.ts';
import {
  type CrossEffect,
  type Interaction,
  onStep,
  type Setter,
  type World,
  type WorldAdjustment,
  type WorldLot,
  type WorldSize,
  type WorldStation,
} from './world.ts';

export type WorldSet = 'judged' | 'tuning';

/** One world of a set: its curves' families, lots, habits and levels are drawn by its number. */
export function drawWorld(set: WorldSet, number: number): World {
  const draw = stream(number, `${set} world`);
  const families: Readonly<Record<string, (draw: Draw) => (off: number) => number>> =
    set === 'judged' ? judgedFamilies : tuningFamilies;
  const names = Object.keys(families);
  // one family a world, so that the table can say where it is worse; of five worlds the fifth mixes them
  const family = number % 5 === 4 ? undefined : names[Math.floor(number / 5) % names.length]!;
  const curve = () => families[family ?? pick(draw, names, () => 1)]!(draw);
  const stations = Array.from({ length: whole(draw, 3, 4) }, (_, place) => station(draw, set, place));
  const adjustments = stations.flatMap(({ id }) =>
    Array.from(
      { length: pick(draw, [1, 2, 3, 4, 6], (many) => [4, 5, 3, 2, 1][[1, 2, 3, 4, 6].indexOf(many)]!) },
      (_, place) => adjustment(draw, id, place + 1, curve()),
    ),
  );
  const lotSpread = uniform(draw, 0.15, 0.45);
  return {
    name: `${set} ${number} ${family ?? 'mixed'}`,
    seed: number,
    cartonsPerRun: { from: 5_000, to: 25_000 },
    lostPerReject: 1,
    lostPerStop: whole(draw, 25, 70),
    combine: chance(draw, 0.5) ? 'add' : 'times',
    stations,
    adjustments,
    crossEffects: crossEffects(draw, stations, adjustments, curve),
    interactions: interactions(draw, adjustments, curve),
    movedTogether: movedTogether(draw, adjustments),
    sizes: sizesOf(draw, adjustments),
    lots: Array.from({ length: 24 }, (_, place) => lot(draw, set, adjustments, lotSpread, place)),
    runsPerLot: { from: 1, to: whole(draw, 2, 5) },
    setters: Array.from({ length: whole(draw, 2, 4) }, (_, place) => setter(draw, set, place)),
    wear: { perRun: uniform(draw, 0, 0.012), replacedEvery: whole(draw, 25, 60) },
  };
}

function station(draw: Draw, set: WorldSet, place: number): WorldStation {
  return {
    id: `station-${place + 1}`,
    rejectsPerThousand: Math.exp(uniform(draw, Math.log(0.8), Math.log(5))),
    stopsPerThousand: Math.exp(uniform(draw, Math.log(0.06), Math.log(0.5))),
    runSpread: uniform(draw, 0.1, 0.4),
    badDay:
      set === 'judged'
        ? { chance: uniform(draw, 0, 0.08), times: uniform(draw, 1.5, 3) }
        : { chance: 0, times: 1 },
    stopsFollow: uniform(draw, 0.4, 1.4),
    charged: uniform(draw, 0.8, 1),
  };
}

function adjustment(
  draw: Draw,
  station: string,
  place: number,
  curve: (off: number) => number,
): WorldAdjustment {
  const facts = pick(
    draw,
    [
      { step: 0.1, tolerance: 0.8, max: 60 },
      { step: 1, tolerance: 2, max: 160 },
      { step: 1, tolerance: 4, max: 359 },
    ],
    ({ step, tolerance }) => (step < 1 ? 5 : tolerance === 2 ? 1 : 2),
  );
  const tolerance = facts.tolerance * uniform(draw, 0.7, 1.5);
  return {
    ...{ number: `${station.split('-')[1]}.${place}`, station, min: 0, max: facts.max, step: facts.step },
    ...{ tolerance, sensor: chance(draw, 0.12), curve: tableOf(curve, tolerance) },
  };
}

function crossEffects(
  draw: Draw,
  stations: readonly WorldStation[],
  adjustments: readonly WorldAdjustment[],
  curve: () => (off: number) => number,
): readonly CrossEffect[] {
  return adjustments.flatMap(({ number, station, tolerance }) => {
    const at = stations.findIndex(({ id }) => id === station);
    const other = stations[at + (chance(draw, 0.5) ? 1 : -1)];
    if (!other || !chance(draw, 0.3)) return [];
    const share = uniform(draw, 0.1, 0.35);
    const offset = 0.25 * tolerance * normal(draw);
    return [{ adjustment: number, station: other.id, offset, curve: tableOf(curve(), tolerance, share) }];
  });
}

function interactions(
  draw: Draw,
  adjustments: readonly WorldAdjustment[],
  curve: () => (off: number) => number,
): readonly Interaction[] {
  return adjustments.flatMap((first, place) => {
    const second = adjustments[place + 1];
    if (second?.station !== first.station || !chance(draw, 0.25)) return [];
    const per = (uniform(draw, 0.5, 1) * (chance(draw, 0.5) ? 1 : -1) * first.tolerance) / second.tolerance;
    return [
      {
        station: first.station,
        first: first.number,
        second: second.number,
        per,
        curve: tableOf(curve(), first.tolerance, uniform(draw, 0.2, 0.6)),
      },
    ];
  });
}

function movedTogether(
  draw: Draw,
  adjustments: readonly WorldAdjustment[],
): readonly (readonly [string, string])[] {
  if (!chance(draw, 0.15)) return [];
  const pairs = adjustments.flatMap((first, place) => {
    const second = adjustments[place + 1];
    const alike = second?.station === first.station && second.step === first.step;
    return alike ? [[first.number, second.number] as const] : [];
  });
  return pairs.length > 0 ? [pick(draw, pairs, () => 1)] : [];
}

function sizesOf(draw: Draw, adjustments: readonly WorldAdjustment[]): readonly WorldSize[] {
  const off = uniform(draw, 0.35, 0.9);
  // what is wrong with a scale is wrong for every size; the rest is the size's own
  const shared = new Map(
    adjustments.map(({ number, tolerance }) => [number, 0.6 * off * tolerance * normal(draw)]),
  );
  return ['a', 'b', 'c'].map((id, place) => {
    const books = adjustments.map((one) => {
      const wide = Math.min(30 * one.tolerance, 0.3 * (one.max - one.min));
      return [one.number, onStep(one, (one.min + one.max) / 2 + wide * (draw() - 0.5))] as const;
    });
    const best = adjustments.map((one, at) => {
      const own = 0.8 * off * one.tolerance * normal(draw);
      return [
        one.number,
        Math.min(one.max, Math.max(one.min, books[at]![1] + shared.get(one.number)! + own)),
      ] as const;
    });
    return { id, weight: [3, 2, 1][place]!, book: Object.fromEntries(books), best: Object.fromEntries(best) };
  });
}

function lot(
  draw: Draw,
  set: WorldSet,
  adjustments: readonly WorldAdjustment[],
  spread: number,
  place: number,
): WorldLot {
  // judged: two makers of board, each even within itself; tuning: lots as they come
  const maker = place % 3 === 0 ? 1 : -0.5;
  const shift = (place: number) =>
    set === 'judged' ? maker * (place % 2 === 0 ? 0.9 : -0.9) + uniform(draw, -1.2, 1.2) : normal(draw);
  return {
    id: `lot-${place + 1}`,
    level: Math.exp(set === 'judged' ? uniform(draw, -0.35, 0.35) : 0.2 * normal(draw)),
    shifts: Object.fromEntries(
      adjustments.map(({ number, tolerance }, at) => [number, spread * tolerance * shift(at)]),
    ),
  };
}

function setter(draw: Draw, set: WorldSet, place: number): Setter {
  return {
    name: `setter ${place + 1}`,
    weight: uniform(draw, 0.5, 2),
    eye: uniform(draw, 0.25, 0.55),
    misreads: uniform(draw, 0.1, 0.3),
    errors: set === 'judged' ? pick(draw, ['uniform', 'doubleExponential'] as const, () => 1) : 'normal',
    habit: chance(draw, 0.4) ? uniform(draw, 0.1, 0.5) : 0,
    keepsOwn: uniform(draw, 0, 0.6),
    slips: uniform(draw, 0, 0.04),
    correctsFrom: uniform(draw, 0.7, 1.1),
    corrects: uniform(draw, 0.5, 0.9),
    notices: set === 'judged' ? 'more and more' : 'at once',
    correctionGoes: set === 'judged' ? uniform(draw, 0.6, 1) : 1,
    correctionError: uniform(draw, 0.3, 0.6),
    correctsWrong: uniform(draw, 0.05, 0.2),
    tapsAsBook: pick(draw, [0, 0.2, 0.6], () => 1),
    tapsUntrue: uniform(draw, 0, 0.4),
    saysNothing: uniform(draw, 0, 0.06),
    readsOff: uniform(draw, 0.2, 1),
    readsBack: uniform(draw, 0.6, 1),
    movesInRun: uniform(draw, 0.05, 0.4),
  };
}
