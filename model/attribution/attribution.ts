import { isElsewhere, noteOffsets, OFFSETS, type Offsets } from './offsets.ts';
import { PARTS, wholeParts } from './parts.ts';
import { freshPasses, type Passes, pocketsEmptied } from './passes.ts';
import type { AttributionIndex, Suspects } from './suspects.ts';
import {
  BY_HAND,
  HOLDS,
  likelier,
  type Sight,
  shownBy,
  sightAt,
  TRAIT_FACTORS,
  TRAITS,
  traitsAt,
  usual,
  wasNearHands,
} from './weighing.ts';

/** What the estimate has seen and learned: plain data, bounded, changed in place by the files of this folder only. */
export interface AttributionRecord {
  passes: Passes;
  /** By reason, as the index has them. */
  learned: LearnedReason[];
  /** Of each station: stops of its own doing, those of long ago for less. */
  stops: number[];
  /** By trait: rejects laid to a station of which it held, and how many would have been if it meant nothing. */
  traits: { seen: number; expected: number }[];
  /** Of each station: where its near misses lay to the cartons that were rejected. */
  offsets: Offsets[];
  /** Parts of each suspect of each reason since the line was first heard; nobody's last. */
  parts: number[];
}

interface LearnedReason {
  /** Rejects laid to each suspect, those of long ago for less; nobody's last. */
  laid: number[];
  /** Of each suspect that did it: how its own sensor lay to the carton's cycle. */
  own: [number, number, number][];
  /** The same of the sensors after it, which may see what it did. */
  after: [number, number, number];
}

/** The prior weighs as so many rejects of which it is known who did it. */
const PRIOR_WEIGHS = 8;
/** What was learned of a reason follows about its last so many rejects, of stops the line's last so many. */
const REJECTS_REMEMBERED = 150;
const STOPS_REMEMBERED = 60;
/** How much a station stops for what it spoils nobody knows: all stops together say no more than half of the line file. */
const STOPS_WEIGH_MOST = 4;
const SIGHTS_REMEMBERED = 400;
/** What a trait is taken to mean weighs as so many rejects. */
const TRAIT_WEIGHS = 4;
const TRAITS_TOGETHER_MOST = 10;
const TRAIT_REMEMBERED = 200;
/** A sensor is taken to see more than half of what its station does, and one after it next to nothing of it. */
const OWN_PRIOR: readonly [number, number, number] = [3, 0.5, 1.5];
const AFTER_PRIOR: readonly [number, number, number] = [0.3, 0.3, 5.4];
/** After a change of size every station is set anew. */
const KEPT_OVER_A_SIZE = 0.5;

export function freshAttribution(index: AttributionIndex): AttributionRecord {
  return {
    passes: freshPasses(index),
    learned: index.suspects.map(({ prior, stations }) => ({
      laid: prior.map(() => 0),
      own: stations.map(() => [...OWN_PRIOR]),
      after: [...AFTER_PRIOR],
    })),
    stops: index.pockets.map(() => 0),
    traits: TRAITS.map(() => ({ seen: 0, expected: 0 })),
    offsets: index.pockets.map(() => new Array<number>(OFFSETS).fill(0)),
    parts: new Array<number>(index.parts).fill(0),
  };
}

/**
 * [AT1] Lays rejects of one reason to its suspects. `hears`: it is one carton, checked in the cycle that is counted now, and
 * these stations' sensors can be read; undefined where nobody knows its cycle, and only what the stations usually do speaks.
 */
export function layRejects(
  index: AttributionIndex,
  record: AttributionRecord,
  reason: string,
  { rejects, hears }: { readonly rejects: number; readonly hears: readonly boolean[] | undefined },
): void {
  const place = index.placeOf.get(reason);
  if (place === undefined) return;
  const suspects = index.suspects[place]!;
  const parts = wholeParts(weightsOf(index, record, place, hears), rejects * PARTS);
  for (let n = 0; n < parts.length; n += 1) record.parts[suspects.first + n]! += parts[n]!;
}

function weightsOf(
  index: AttributionIndex,
  record: AttributionRecord,
  place: number,
  hears: readonly boolean[] | undefined,
): readonly number[] {
  const suspects = index.suspects[place]!;
  // where no sensor tells of the cartons, what else is seen says no more than the line's file, as was measured
  if (suspects.sensed === 0) return suspects.prior;
  const history = usualShares(record, suspects, place);
  return hears ? layOne(index, record, place, history, hears) : unseen(history, suspects.prior);
}

/** [AT2] How likely each suspect is before anything is seen of the carton: the line file, and what was learned; nobody last. */
function usualShares({ learned, stops }: AttributionRecord, { stations, prior }: Suspects, place: number) {
  const { laid } = learned[place]!;
  const stopped = stations.reduce((sum, station) => sum + stops[station]!, 0);
  const each = stopped > STOPS_WEIGH_MOST ? STOPS_WEIGH_MOST / stopped : 1;
  const weights = prior.map(
    (share, n) => share * PRIOR_WEIGHS + laid[n]! + (n < stations.length ? each * stops[stations[n]!]! : 0),
  );
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

/** [AT4] Of a carton whose cycle nobody knows more is nobody's. */
function unseen(history: readonly number[], prior: readonly number[]): number[] {
  const last = history.length - 1;
  const nobody = Math.max(history[last]!, Math.min(0.5, 2 * prior[last]!));
  const rest = 1 - history[last]!;
  return history.map((share, n) => (n === last ? nobody : (share * (1 - nobody)) / rest));
}

/** [AT3] One carton, by what was seen in its own cycle; what that says is learned. */
function layOne(
  index: AttributionIndex,
  record: AttributionRecord,
  place: number,
  history: readonly number[],
  hears: readonly boolean[],
): number[] {
  const { passes } = record;
  const suspects = index.suspects[place]!;
  const cases = suspects.stations.map((station) => {
    const seen = passes.stations[station]!;
    const pass = passes.cycles - index.pockets[station]!;
    const heard = hears[station] ? sightAt(passes, seen, pass) : undefined;
    const offsets = record.offsets[station]!;
    if (heard !== undefined) noteOffsets(offsets, seen, pass);
    const sight = isElsewhere(offsets) ? undefined : heard;
    return { sight, usual: usual(passes, seen), traits: traitsAt(passes, seen, pass) };
  });
  const byHand = wasNearHands(passes, index.pocketsMost);
  const weights = history.map((share, n) => {
    const own = cases[n];
    if (!own) return byHand ? share * traitFactor(record, BY_HAND) : share;
    return share * sighted(record, place, cases, n) * factorOf(record, own.traits);
  });
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const shares = weights.map((weight) => weight / sum);
  if (byHand) record.traits[BY_HAND]!.seen += shares.at(-1)!;
  learn(record, suspects, place, shares, cases);
  return shares;
}

interface Case {
  readonly sight: Sight;
  /** How often its sensor tells of a near miss whatever becomes of the carton. */
  readonly usual: number;
  readonly traits: readonly boolean[];
}

/** How much likelier what the sensors show is if this suspect did it than if none of them did. */
function sighted({ learned }: AttributionRecord, place: number, cases: readonly Case[], n: number): number {
  const { own, after } = learned[place]!;
  let ratio = 1;
  for (let other = n; other < cases.length; other += 1) {
    const { sight, usual: by } = cases[other]!;
    if (sight !== undefined) ratio *= likelier(other === n ? own[n]! : after, sight, by);
  }
  return ratio;
}

function factorOf(record: AttributionRecord, holds: readonly boolean[]): number {
  let factor = 1;
  for (let n = 0; n < holds.length; n += 1) if (holds[n]) factor *= traitFactor(record, n);
  return Math.min(TRAITS_TOGETHER_MOST, factor);
}

/** How many times as much is spoiled while a trait holds. */
function traitFactor({ traits }: AttributionRecord, trait: number): number {
  const { seen, expected } = traits[trait]!;
  return (seen + TRAIT_FACTORS[trait]! * TRAIT_WEIGHS) / (expected + TRAIT_WEIGHS);
}

function learn(
  record: AttributionRecord,
  { sensed }: Suspects,
  place: number,
  shares: readonly number[],
  cases: readonly Case[],
): void {
  const { laid, own, after } = record.learned[place]!;
  // what has no sensor only says again what was thought before
  for (let n = 0; n < laid.length; n += 1)
    laid[n] = laid[n]! * (1 - sensed / REJECTS_REMEMBERED) + sensed * shares[n]!;
  cases.forEach(({ traits }, n) => {
    tell(own[n]!, cases[n]!, shares[n]!, OWN_PRIOR);
    for (let later = n + 1; later < cases.length; later += 1)
      tell(after, cases[later]!, shares[n]!, AFTER_PRIOR);
    traits.forEach((holds, trait) => {
      if (holds) record.traits[trait]!.seen += shares[n]!;
    });
  });
}

/** One more sight, where there is one; of many, those beyond the prior count half. */
function tell(counts: number[], { sight, usual: by }: Case, share: number, prior: readonly number[]): void {
  if (sight === undefined) return;
  const shown = shownBy(counts, sight, by);
  for (let n = 0; n < counts.length; n += 1) counts[n]! += share * shown[n]!;
  if (counts[0]! + counts[1]! + counts[2]! < SIGHTS_REMEMBERED) return;
  for (let n = 0; n < counts.length; n += 1) counts[n] = prior[n]! + (counts[n]! - prior[n]!) / 2;
}

/** [AT2] A stop of a station's own doing says that it acts up, as one reject laid to it does. */
export function stoppedAt(record: AttributionRecord, index: AttributionIndex, station: number): void {
  // where a changeover takes over from it, it begins once more
  if (record.passes.stations[station]!.troubledAt === record.passes.cycles) return;
  for (let n = 0; n < record.stops.length; n += 1) record.stops[n]! *= 1 - 1 / STOPS_REMEMBERED;
  record.stops[station]! += 1;
  troubledAt(record, index, station);
}

/** Pockets of a station were emptied by hand: those that it has passed, and the next one has not reached. */
export function emptiedAt(record: AttributionRecord, index: AttributionIndex, station: number): void {
  const far = index.pockets[station]!;
  const near = Math.min(far, (index.pockets[station + 1] ?? -1) + 1);
  pocketsEmptied(record.passes, far, near);
  expect(record, 'byHand', nobodysRate(record, index) * (far - near + 1 + HOLDS.beside));
  troubledAt(record, index, station);
}

/** A stop began at a station, or its pockets were emptied by hand. */
function troubledAt(record: AttributionRecord, index: AttributionIndex, station: number): void {
  const seen = record.passes.stations[station]!;
  const { cycles } = record.passes;
  if (seen.troubledAt >= 0 && cycles - seen.troubledAt < HOLDS.troubled) return;
  seen.troubledAt = cycles;
  expect(record, 'troubled', rateAt(record, index, station) * HOLDS.troubled);
}

/** An adjustment of a station moved while the line produced. */
export function adjustedAt(record: AttributionRecord, index: AttributionIndex, station: number): void {
  const seen = record.passes.stations[station]!;
  const { cycles } = record.passes;
  const since = seen.movedAt < 0 ? HOLDS.moved : Math.min(HOLDS.moved, cycles - seen.movedAt);
  seen.movedAt = cycles;
  expect(record, 'moved', rateAt(record, index, station) * since);
}

/** Whatever stood in a station when the machine stopped. */
export function stoodNow(record: AttributionRecord, index: AttributionIndex): void {
  expect(record, 'stood', rateOfAll(record, index) * HOLDS.stood);
}

/** Cartons passed stations by hand or at a trial, and come to the check in production. */
export function producesAgain(record: AttributionRecord, index: AttributionIndex): void {
  const last = record.passes.handled.at(-1);
  if (!last || last[1] !== record.passes.cycles) return;
  const cycles = last[1] - last[0] + 1;
  let expected = 0;
  index.pockets.forEach((pockets, station) => {
    expected += rateAt(record, index, station) * Math.min(cycles, pockets);
  });
  expect(record, 'handled', expected);
  if (record.passes.joggedAt > record.passes.cycles - cycles)
    expect(record, 'byHand', nobodysRate(record, index) * index.pocketsMost);
}

/** Another size: every station is set anew, so that what was learned of them counts for less. */
export function sizeChanges({ learned, stops }: AttributionRecord): void {
  for (const { laid } of learned) scale(laid, KEPT_OVER_A_SIZE);
  scale(stops, KEPT_OVER_A_SIZE);
}

function scale(numbers: number[], by: number): void {
  for (let n = 0; n < numbers.length; n += 1) numbers[n]! *= by;
}

function expect(record: AttributionRecord, trait: (typeof TRAITS)[number], rejects: number): void {
  const known = record.traits[TRAITS.indexOf(trait)]!;
  known.expected += rejects;
  if (known.expected < TRAIT_REMEMBERED) return;
  known.expected /= 2;
  known.seen /= 2;
}

/** Rejects laid to a station in one cycle, over all time. */
function rateAt({ parts, passes }: AttributionRecord, { suspects }: AttributionIndex, station: number) {
  let laid = 0;
  for (const { stations, first } of suspects) {
    const place = stations.indexOf(station);
    if (place >= 0) laid += parts[first + place]!;
  }
  return laid / PARTS / Math.max(1, passes.cycles);
}

function nobodysRate({ parts, passes }: AttributionRecord, { suspects }: AttributionIndex): number {
  const laid = suspects.reduce((sum, { first, prior }) => sum + parts[first + prior.length - 1]!, 0);
  return laid / PARTS / Math.max(1, passes.cycles);
}

function rateOfAll(record: AttributionRecord, index: AttributionIndex): number {
  return index.pockets.reduce((sum, _, station) => sum + rateAt(record, index, station), 0);
}
