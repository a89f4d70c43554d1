import type { LineIndex } from '../fold/lineIndex.ts';
import type { StopRecord } from '../fold/state.ts';
import type { Elements } from '../kpi/kpi.ts';
import { between, type Instant, MINUTE, minutes, type Span } from '../units/units.ts';
import type { PastAsked } from './past.ts';
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

export interface FiguresPast {
  readonly elements: Elements;
  readonly made: Made;
  /** Share of the time in shifts that was seen; undefined where no shift is in the stretch. */
  readonly coverage: number | undefined;
  /** Stops of the machine itself: all of them, and those longer than a minor stop, which are its failures. */
  readonly ownStops: number;
  /** Cartons of sizes without an ideal rate: they are in no effectiveness, and so in no OEE. */
  readonly withoutRate: number;
}

export interface FiguresAsked extends PastAsked {
  readonly time: TimePast;
  readonly stops: readonly StopRecord[];
  readonly gains: readonly SizeGain[];
  readonly now: Instant;
}

/**
 * [KP1] Time elements of ISO 22400-2 from the classes of time in shifts, in minutes. POT is the time in shifts. Planned down
 * time is what planned pauses took within their allowance. What nobody saw is in no element: PBT is POT less both. Producing
 * is APT, changeovers until production is back are AUST; the machine's own stops, stops by a stop device and time that stood
 * by its counters are ADET; starved, blocked and pauses beyond their allowance are ADOT. PBT = APT + AUST + ADET + ADOT.
 */
export function figuresPast(asked: FiguresAsked): FiguresPast {
  const { index, time, gains } = asked;
  const { classes, inShifts } = time;
  const long = (...spans: readonly Span[]) => spans.reduce((sum, span) => sum + span, 0) / MINUTE;
  const failures = failuresIn(asked);
  const made = gains.map(({ gained }) => madeOf(index, gained)).reduce(addMade, NOTHING);
  const planned = gains.map((gain) => plannedRunTime(index, gain));
  return {
    elements: {
      pbt: long(inShifts) - long(classes.plannedPause, classes.unknown),
      apt: long(classes.producing),
      aust: long(classes.changeover),
      adet: long(classes.stopped, classes.safety, classes.isolated),
      adot: long(classes.starved, classes.blocked, classes.pauseOver),
      plannedRunTime: planned.reduce((sum, one) => sum + one.minutes, 0),
      pq: producedOf(made),
      gq: made.good,
      failures: failures.length,
      restoring: long(...failures.map(({ begin, end }) => between(begin, end!))),
    },
    made,
    coverage: inShifts > 0 ? 1 - classes.unknown / inShifts : undefined,
    ownStops: ownStopsIn(asked).length,
    withoutRate: planned.reduce((sum, one) => sum + one.withoutRate, 0),
  };
}

const NOTHING: Made = { good: 0, rejected: 0, crushed: 0, notLoaded: 0, missed: 0 };

function addMade(a: Made, b: Made): Made {
  return {
    good: a.good + b.good,
    rejected: a.rejected + b.rejected,
    crushed: a.crushed + b.crushed,
    notLoaded: a.notLoaded + b.notLoaded,
    missed: a.missed + b.missed,
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

/** Stops that began in the stretch and whose cause is the machine itself; a re-jam is one with the stop before it. */
function ownStopsIn({ stops, from, to }: FiguresAsked): readonly StopRecord[] {
  const own = stops.filter(
    ({ begin, kind, class: what }) =>
      begin >= from && begin < to && what === 'stopped' && (kind === 'machine' || kind === null),
  );
  return own.filter(({ attempt }) => attempt === 1);
}

/** [KP3] Failures: own stops that ended, were seen to end, and lasted longer than a minor stop. */
function failuresIn(asked: FiguresAsked): readonly StopRecord[] {
  const minor = minutes(asked.index.line.settings.minorStopMinutes);
  return ownStopsIn(asked).filter(
    ({ begin, end, endSeen }) => end !== null && endSeen && between(begin, end) >= minor,
  );
}
