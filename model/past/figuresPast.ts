import type { LineIndex } from '../fold/lineIndex.ts';
import type { PressRecord, StopRecord } from '../fold/state.ts';
import { add, type Elements, NO_ELEMENTS } from '../kpi/kpi.ts';
import { between, type Instant, MINUTE, minutes, type Span } from '../units/units.ts';
import { overlap, type PastAsked } from './past.ts';
import { lengthWithout, outsideShifts, type Stretch } from './stretches.ts';
import type { TimePast } from './timePast.ts';

/** What was counted while one size ran: gains of each tallied signal, in production. */
export interface SizeGain {
  /** Undefined for what was counted before any size was known. */
  readonly size: string | undefined;
  readonly gained: readonly number[];
}

/** Cartons of a stretch. A missed pick and a carton that was not loaded are neither made nor spoiled. */
export interface Made {
  readonly good: number;
  readonly rejected: number;
  readonly crushed: number;
  readonly notLoaded: number;
  readonly missed: number;
}

/** What figures of a stretch are worked out of. All of it adds up over stretches: ratios are made of the sums, last. */
export interface FiguresPast {
  /** Minutes in shifts, and of them planned pauses within their allowance, not seen, and isolated. */
  readonly pot: number;
  readonly plannedDown: number;
  readonly unknown: number;
  readonly isolated: number;
  readonly elements: Elements;
  readonly made: Made;
  /** Cartons of sizes without an ideal rate: they are in no effectiveness, and so in no OEE. */
  readonly withoutRate: number;
  /** Of what was made, what came in time that nobody saw, and between shifts: it is in `made`, and in no element. */
  readonly notSeen: Made;
  readonly outside: Made;
  readonly stops: StopCounts;
  /** What each tallied signal gained. */
  readonly gained: readonly number[];
}

/** Stops by their beginning; minutes by what lies in the stretch, in shifts. */
export interface StopCounts {
  readonly all: number;
  readonly stood: number;
  /** Stops of the machine itself, and of those the minor ones; a re-jam is one with the stop before it. */
  readonly own: number;
  readonly minor: number;
  /** Presses that stopped the line, and stops that a guard made and no press. */
  readonly caused: number;
  readonly byGuard: number;
}

export interface FiguresAsked extends PastAsked {
  readonly time: TimePast;
  readonly stops: readonly StopRecord[];
  readonly presses?: readonly PressRecord[];
  readonly gains: readonly SizeGain[];
  /** Of those what came in shifts, as far as they were seen; all of it where it is not said. */
  readonly paced?: readonly SizeGain[];
  /** And what came in gaps in shifts. */
  readonly notSeen?: readonly number[];
  /** The shifts in the stretch, the oldest first. */
  readonly pieces?: readonly Stretch[];
  readonly now: Instant;
}

/**
 * [KP1] Time elements of ISO 22400-2 from the classes of time in shifts, in minutes. POT is the time in shifts. Planned down
 * time is what planned pauses took within their allowance. What nobody saw is in no element: PBT is POT less both. Producing
 * is APT, changeovers until production is back are AUST; the machine's own stops, stops by a stop device and time that stood
 * by its counters are ADET; starved, blocked and pauses beyond their allowance are ADOT. PBT = APT + AUST + ADET + ADOT.
 */
export function figuresPast(asked: FiguresAsked): FiguresPast {
  const { index, time, gains, paced = gains } = asked;
  const { classes, inShifts } = time;
  const long = (...spans: readonly Span[]) => spans.reduce((sum, span) => sum + span, 0) / MINUTE;
  const failures = failuresIn(asked);
  const made = madeIn(index, gains);
  const seen = madeIn(index, paced);
  const notSeen = madeOf(index, asked.notSeen ?? []);
  const planned = paced.map((gain) => plannedRunTime(index, gain));
  return {
    pot: long(inShifts),
    plannedDown: long(classes.plannedPause),
    unknown: long(classes.unknown),
    isolated: long(classes.isolated),
    elements: {
      pbt: long(inShifts) - long(classes.plannedPause, classes.unknown),
      apt: long(classes.producing),
      aust: long(classes.changeover),
      adet: long(classes.stopped, classes.safety, classes.isolated),
      adot: long(classes.starved, classes.blocked, classes.pauseOver),
      plannedRunTime: planned.reduce((sum, one) => sum + one.minutes, 0),
      pq: producedOf(seen),
      gq: seen.good,
      failures: failures.length,
      restoring: long(...failures.map((stop) => lengthInShifts(asked, stop))),
    },
    made,
    notSeen,
    outside: lessMade(lessMade(made, seen), notSeen),
    withoutRate: planned.reduce((sum, one) => sum + one.withoutRate, 0),
    stops: stopCounts(asked),
    gained: gains.map(({ gained }) => gained).reduce(addGained, []),
  };
}

export const NOTHING_PAST: FiguresPast = {
  pot: 0,
  plannedDown: 0,
  unknown: 0,
  isolated: 0,
  elements: NO_ELEMENTS,
  made: { good: 0, rejected: 0, crushed: 0, notLoaded: 0, missed: 0 },
  notSeen: { good: 0, rejected: 0, crushed: 0, notLoaded: 0, missed: 0 },
  outside: { good: 0, rejected: 0, crushed: 0, notLoaded: 0, missed: 0 },
  withoutRate: 0,
  stops: { all: 0, stood: 0, own: 0, minor: 0, caused: 0, byGuard: 0 },
  gained: [],
};

/** Two stretches together, which must not overlap. */
export function addFigures(a: FiguresPast, b: FiguresPast): FiguresPast {
  return {
    pot: a.pot + b.pot,
    plannedDown: a.plannedDown + b.plannedDown,
    unknown: a.unknown + b.unknown,
    isolated: a.isolated + b.isolated,
    elements: add(a.elements, b.elements),
    made: addMade(a.made, b.made),
    notSeen: addMade(a.notSeen, b.notSeen),
    outside: addMade(a.outside, b.outside),
    withoutRate: a.withoutRate + b.withoutRate,
    stops: {
      all: a.stops.all + b.stops.all,
      stood: a.stops.stood + b.stops.stood,
      own: a.stops.own + b.stops.own,
      minor: a.stops.minor + b.stops.minor,
      caused: a.stops.caused + b.stops.caused,
      byGuard: a.stops.byGuard + b.stops.byGuard,
    },
    gained: addGained(a.gained, b.gained),
  };
}

/** Share of the time in shifts that was seen; undefined where no shift is in the stretch. */
export function coverageOf({ pot, unknown }: Pick<FiguresPast, 'pot' | 'unknown'>): number | undefined {
  return pot > 0 ? 1 - unknown / pot : undefined;
}

/** Longer lists have more counters; what a list has not, it did not count. */
export function addGained(a: readonly number[], b: readonly number[]): readonly number[] {
  const [longer, shorter] = a.length >= b.length ? [a, b] : [b, a];
  return longer.map((gained, place) => gained + (shorter[place] ?? 0));
}

const NOTHING_MADE = NOTHING_PAST.made;

function addMade(a: Made, b: Made): Made {
  return {
    good: a.good + b.good,
    rejected: a.rejected + b.rejected,
    crushed: a.crushed + b.crushed,
    notLoaded: a.notLoaded + b.notLoaded,
    missed: a.missed + b.missed,
  };
}

function madeIn(index: LineIndex, gains: readonly SizeGain[]): Made {
  return gains.map(({ gained }) => madeOf(index, gained)).reduce(addMade, NOTHING_MADE);
}

function lessMade(a: Made, b: Made): Made {
  return {
    good: a.good - b.good,
    rejected: a.rejected - b.rejected,
    crushed: a.crushed - b.crushed,
    notLoaded: a.notLoaded - b.notLoaded,
    missed: a.missed - b.missed,
  };
}

/** [KP2] Produced quantity: good and scrap, each carton classed once. */
export function producedOf({ good, rejected, crushed }: Made): number {
  return good + rejected + crushed;
}

/** [KP2] What was counted, by what became of it. */
export function madeOf(index: LineIndex, gained: readonly number[]): Made {
  const { line, tallied, notLoadedFrom } = index;
  const empty = new Set(line.rejects.filter(({ means }) => means === 'notLoaded').map(({ id }) => id));
  const sums = { good: 0, rejected: 0, crushed: 0, notLoaded: 0, missed: 0 };
  for (const [place, signal] of tallied.entries()) {
    const { role, of } = line.signals[signal]!;
    const count = Math.max(0, gained[place] ?? 0);
    if (role === 'goodCount') sums.good += count;
    if (role === 'crushedCount') sums.crushed += count;
    if (role === 'missedPickCount') sums.missed += count;
    if (role === 'rejectCount') sums[empty.has(of ?? '') ? 'notLoaded' : 'rejected'] += count;
    if (role === 'notLoadedCount' && notLoadedFrom === 'positions') sums.notLoaded += count;
  }
  return sums;
}

/** [KP2] PQ × PRI: minutes that the cartons would have taken at the ideal rate of their size. */
function plannedRunTime(
  index: LineIndex,
  { size, gained }: SizeGain,
): { readonly minutes: number; readonly withoutRate: number } {
  const produced = producedOf(madeOf(index, gained));
  const ideal = index.sizeById.get(size ?? '')?.ideal;
  return ideal === undefined
    ? { minutes: 0, withoutRate: produced }
    : { minutes: produced / ideal, withoutRate: 0 };
}

/** Planned pauses and changeovers are no stops. */
function stopCounts(asked: FiguresAsked): StopCounts {
  const { index, presses = [], from, to } = asked;
  const stops = asked.stops.filter(({ class: what }) => what !== 'pause' && what !== 'changeover');
  const began = stops.filter(({ begin }) => begin >= from && begin < to);
  const own = ownStops(began);
  const minor = minutes(index.line.settings.minorStopMinutes);
  const pressed = new Set(presses.filter(({ role }) => role === 'caused').map(({ stop }) => stop));
  const stood = (asked.pieces ?? [{ from, to }]).reduce((sum, piece) => sum + stoodIn(stops, piece), 0);
  return {
    all: began.length,
    stood: stood / MINUTE,
    own: own.length,
    minor: own.filter((stop) => stop.end !== null && lengthInShifts(asked, stop) < minor).length,
    caused: presses.filter((press) => press.role === 'caused' && press.pressed >= from && press.pressed < to)
      .length,
    byGuard: began.filter(({ id, class: what }) => what === 'safety' && !pressed.has(id)).length,
  };
}

function stoodIn(stops: readonly StopRecord[], piece: Stretch): number {
  return stops.reduce((sum, { begin, end }) => sum + overlap({ from: begin, to: end ?? piece.to }, piece), 0);
}

/** How long a stop that is over lasted, without the time between shifts. */
function lengthInShifts({ index, pieces }: FiguresAsked, { begin, end }: StopRecord): Span {
  const to = end ?? begin;
  if (!pieces || pieces.some((piece) => piece.from <= begin && to <= piece.to)) return between(begin, to);
  const { calendar, zone } = index.line;
  return lengthWithout({ from: begin, to }, outsideShifts(calendar, zone, { from: begin, to }));
}

/** Stops whose cause is the machine itself, or that nobody explained; a re-jam is one with the stop before it. */
function ownStops(stops: readonly StopRecord[]): readonly StopRecord[] {
  return stops.filter(
    ({ kind, class: what, attempt }) =>
      what === 'stopped' && (kind === 'machine' || kind === null) && attempt === 1,
  );
}

/** [KP3] Failures: own stops that began in it, ended, were seen to end, and lasted as long as a minor stop may, or longer. */
function failuresIn(asked: FiguresAsked): readonly StopRecord[] {
  const { index, stops, from, to } = asked;
  const minor = minutes(index.line.settings.minorStopMinutes);
  return ownStops(stops).filter(
    (stop) =>
      stop.begin >= from &&
      stop.begin < to &&
      stop.end !== null &&
      stop.endSeen &&
      lengthInShifts(asked, stop) >= minor,
  );
}
