import type { KnownSetting, SettledStretch } from '../../../model/setpoints/estimate.ts';
import {
  chance,
  type Draw,
  normal,
  pick,
  stream,
  uniform,
  whole,
} from '../../../simulator/machine/random.ts';
import {
  onStep,
  riskTimes,
  type Setter,
  type World,
  type WorldAdjustment,
  type WorldLot,
  type WorldSize,
} from './world.ts';

/** One run of one size as it was recorded: what stood in each stretch, and what every station counted. */
export interface PlayedRun {
  readonly size: string;
  readonly run: string;
  readonly lot: string;
  readonly stretches: readonly PlayedStretch[];
}

export interface PlayedStretch {
  readonly cartons: number;
  /** What is known of each adjustment, in the world's order. */
  readonly known: readonly (KnownSetting | undefined)[];
  readonly counts: ReadonlyMap<string, { readonly spoiled: number; readonly stops: number }>;
}

interface Standing {
  actual: number;
  known: KnownSetting | undefined;
}

/** All runs up to so many of the world's first size. */
export function play(world: World, runsMost: number): readonly PlayedRun[] {
  const draw = stream(world.seed, `${world.name} runs`);
  const first = world.sizes[0]!.id;
  const runs: PlayedRun[] = [];
  const last = new Map<string, number>();
  let lot = -1;
  let lotLeft = 0;
  let worn = 0;
  for (let done = 0; done < runsMost; ) {
    const size = pick(draw, world.sizes, ({ weight }) => weight);
    if (lotLeft <= 0) {
      lot = (lot + whole(draw, 1, 3)) % world.lots.length;
      lotLeft = whole(draw, world.runsPerLot.from, world.runsPerLot.to);
    }
    lotLeft -= 1;
    worn = worn >= world.wear.replacedEvery ? 0 : worn + 1;
    runs.push(
      playRun(
        { world, draw, size, lot: world.lots[lot]!, last, wear: Math.exp(world.wear.perRun * worn) },
        runs.length,
      ),
    );
    if (size.id === first) done += 1;
  }
  return runs;
}

interface Playing {
  readonly world: World;
  readonly draw: Draw;
  readonly size: WorldSize;
  readonly lot: WorldLot;
  /** Where each adjustment last ended for each size, as recorded: a setter's own notebook. */
  readonly last: Map<string, number>;
  readonly wear: number;
}

function playRun(playing: Playing, number: number): PlayedRun {
  const { world, draw, size, lot, last } = playing;
  const setter = pick(draw, world.setters, ({ weight }) => weight);
  const standing = setUp(playing, setter);
  const { from, to } = world.cartonsPerRun;
  const cartons = Math.round(Math.exp(uniform(draw, Math.log(from), Math.log(to))));
  const effects = new Map(
    world.stations.map(({ id, runSpread, badDay }) => [
      id,
      Math.exp(runSpread * normal(draw)) * (chance(draw, badDay.chance) ? badDay.times : 1),
    ]),
  );
  const stretches: PlayedStretch[] = [];
  const moves = chance(draw, setter.movesInRun);
  const before = moves ? Math.round(cartons * uniform(draw, 0.2, 0.8)) : cartons;
  stretches.push(stretch(playing, standing, effects, before));
  if (moves) {
    moveOne(playing, setter, standing);
    stretches.push(stretch(playing, standing, effects, cartons - before));
  }
  world.adjustments.forEach(({ number }, place) => {
    const { known } = standing[place]!;
    if (known) last.set(`${size.id} ${number}`, known.value);
  });
  return { size: size.id, run: `run-${number + 1}`, lot: lot.id, stretches };
}

function setUp({ world, draw, size, lot, last }: Playing, setter: Setter): Standing[] {
  const standing = world.adjustments.map((facts): Standing => {
    const { number, tolerance } = facts;
    const own = last.get(`${size.id} ${number}`);
    const book = size.book[number]!;
    let target = own !== undefined && chance(draw, setter.keepsOwn) ? own : book;
    if (chance(draw, setter.slips)) target = pick(draw, world.sizes, () => 1).book[number]!;
    const actual = onStep(facts, target + tolerance * (setter.habit + setter.eye * error(draw, setter)));
    return { actual, known: known(draw, setter, facts, { actual, meant: target, book, corrected: false }) };
  });
  for (const [first, second] of world.movedTogether) tie(world, size, standing, first, second);
  for (let rounds = whole(draw, 1, 3); rounds > 0; rounds -= 1)
    world.adjustments.forEach((facts, place) => {
      const right = rightOf(size, lot, facts);
      const off = (standing[place]!.actual - right) / facts.tolerance;
      if (!chance(draw, noticed(setter, Math.abs(off)) * setter.corrects)) return;
      correct({ world, draw, size, lot }, setter, standing, place);
    });
  readBack({ world, draw }, setter, standing);
  return standing;
}

/** Two that no sensor reads are read again at the end, whatever was said of them before. */
function readBack(
  { world, draw }: Pick<Playing, 'world' | 'draw'>,
  setter: Setter,
  standing: Standing[],
): void {
  for (const facts of drawTwo(
    draw,
    world.adjustments.filter(({ sensor }) => !sensor),
  )) {
    if (!chance(draw, setter.readsBack)) continue;
    const one = standing[world.adjustments.indexOf(facts)]!;
    const read = onStep(facts, one.actual + facts.tolerance * setter.misreads * error(draw, setter));
    one.known = { value: read, known: 'typed' };
  }
}

function drawTwo<Item>(draw: Draw, items: readonly Item[]): readonly Item[] {
  if (items.length < 3) return items;
  const first = pick(draw, items, () => 1);
  return [
    first,
    pick(
      draw,
      items.filter((item) => item !== first),
      () => 1,
    ),
  ];
}

function noticed({ notices, correctsFrom }: Setter, off: number): number {
  if (notices === 'at once') return off >= correctsFrom ? 1 : 0;
  return Math.min(1, Math.max(0, off / correctsFrom - 0.5));
}

function rightOf(size: WorldSize, lot: WorldLot, { number }: WorldAdjustment): number {
  return size.best[number]! + (lot.shifts[number] ?? 0);
}

type Correcting = Pick<Playing, 'world' | 'draw' | 'size' | 'lot'>;

function correct(
  { world, draw, size, lot }: Correcting,
  setter: Setter,
  standing: Standing[],
  place: number,
): void {
  const facts = world.adjustments[place]!;
  const { tolerance } = facts;
  if (chance(draw, setter.correctsWrong)) {
    const others = world.adjustments.filter(({ station }) => station === facts.station);
    const wrong = pick(draw, others, () => 1);
    const at = world.adjustments.indexOf(wrong);
    moveTo(
      { world, draw, size },
      setter,
      standing,
      at,
      standing[at]!.actual + wrong.tolerance * 0.8 * normal(draw),
    );
    return;
  }
  const stands = standing[place]!.actual;
  const goes = setter.correctionGoes * (rightOf(size, lot, facts) - stands);
  const meant = stands + goes + tolerance * setter.correctionError * error(draw, setter);
  moveTo({ world, draw, size }, setter, standing, place, meant);
}

function moveTo(
  { world, draw, size }: Omit<Correcting, 'lot'>,
  setter: Setter,
  standing: Standing[],
  place: number,
  to: number,
): void {
  const facts = world.adjustments[place]!;
  const actual = onStep(facts, to);
  const book = size.book[facts.number]!;
  standing[place] = {
    actual,
    known: known(draw, setter, facts, { actual, meant: actual, book, corrected: true }),
  };
  for (const [first, second] of world.movedTogether)
    if (facts.number === first || facts.number === second)
      tie(world, size, standing, facts.number, facts.number === first ? second : first);
}

/** Both of a pair stand as far from the book, and are said so. */
function tie(world: World, size: WorldSize, standing: Standing[], leader: string, follower: string): void {
  const from = world.adjustments.findIndex(({ number }) => number === leader);
  const to = world.adjustments.findIndex(({ number }) => number === follower);
  const facts = world.adjustments[to]!;
  const shift = (value: number) => onStep(facts, size.book[follower]! + value - size.book[leader]!);
  const { actual, known: said } = standing[from]!;
  standing[to] = { actual: shift(actual), known: said && { ...said, value: shift(said.value) } };
}

interface Stood {
  readonly actual: number;
  readonly meant: number;
  readonly book: number;
  readonly corrected: boolean;
}

/** What is recorded of where an adjustment stands: what a sensor reads, one tap, what was meant, or what was read off. */
function known(
  draw: Draw,
  setter: Setter,
  facts: WorldAdjustment,
  { actual, meant, book, corrected }: Stood,
): KnownSetting | undefined {
  if (facts.sensor) return { value: actual, known: 'sensor' };
  if (chance(draw, setter.saysNothing)) return undefined;
  const taps = chance(draw, setter.tapsAsBook);
  if (taps && (!corrected || chance(draw, setter.tapsUntrue))) return { value: book, known: 'confirmed' };
  // some write the number that they set to, others what they read; who corrects by eye reads what came of it
  const read =
    corrected || chance(draw, setter.readsOff)
      ? actual + facts.tolerance * setter.misreads * error(draw, setter)
      : meant;
  return { value: onStep(facts, read), known: 'typed' };
}

/** In a run: mostly toward what is right, now and then only elsewhere. */
function moveOne(playing: Playing, setter: Setter, standing: Standing[]): void {
  const { world, draw, size, lot } = playing;
  const offs = world.adjustments.map(
    (facts, place) => Math.abs(standing[place]!.actual - rightOf(size, lot, facts)) / facts.tolerance,
  );
  const place = pick(draw, [...offs.keys()], (at) => 0.1 + offs[at]! ** 2);
  correct(playing, setter, standing, place);
}

function stretch(
  playing: Playing,
  standing: readonly Standing[],
  effects: ReadonlyMap<string, number>,
  cartons: number,
): PlayedStretch {
  const { world, draw, size, lot, wear } = playing;
  const deviations = new Map(
    world.adjustments.map((facts, place) => [
      facts.number,
      standing[place]!.actual - rightOf(size, lot, facts),
    ]),
  );
  const raw = world.stations.map((station) => {
    const times = riskTimes(world, station.id, deviations);
    const level = (effects.get(station.id)! * lot.level * wear * cartons) / 1000;
    const stopTimes = Math.max(0.1, 1 + station.stopsFollow * (times - 1));
    return {
      rejects: poisson(draw, station.rejectsPerThousand * level * times),
      stops: poisson(draw, station.stopsPerThousand * level * stopTimes),
    };
  });
  const counts = new Map(
    world.stations.map(({ id, charged }, place) => {
      const next = raw[place + 1];
      const leaked = next ? next.rejects * (1 - world.stations[place + 1]!.charged) : 0;
      return [id, { spoiled: raw[place]!.rejects * charged + leaked, stops: raw[place]!.stops }];
    }),
  );
  return { cartons, known: standing.map(({ known }) => known), counts };
}

/** A draw of mean 0 and standard deviation 1. */
function error(draw: Draw, { errors }: Setter): number {
  if (errors === 'normal') return normal(draw);
  if (errors === 'uniform') return Math.sqrt(3) * (2 * draw() - 1);
  const size = -Math.log(1 - draw()) / Math.SQRT2;
  return draw() < 0.5 ? size : -size;
}

/** By Knuth's product, of parts so small that it does not run out of digits. */
export function poisson(draw: Draw, mean: number): number {
  let count = 0;
  for (let left = mean; left > 0; left -= 20) {
    const stop = Math.exp(-Math.min(20, left));
    for (let product = draw(); product > stop; product *= draw()) count += 1;
  }
  return count;
}

/** A station's stretches of a size, as they would be asked for; `acting` are the places of the adjustments. */
export function stretchesOf(
  runs: readonly PlayedRun[],
  station: string,
  acting: readonly number[],
): readonly SettledStretch[] {
  return runs.flatMap(({ run, lot, stretches }) =>
    stretches.map(({ cartons, known, counts }) => ({
      ...{ run, lot, parts: null, cartons, ...counts.get(station)! },
      settings: acting.map((place) => known[place]),
    })),
  );
}
