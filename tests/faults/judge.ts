import { after, between, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { FaultedRun } from './faultedRun.ts';
import { type Judged, wrongCounts, wrongGaps, wrongMoments } from './judgeFigures.ts';

interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** What a run through faults was found to be: figures, and every way in which it is not as it has to be. */
export interface Judgement {
  readonly good: number;
  readonly counted: number;
  readonly unknownSeconds: number;
  readonly allowedSeconds: number;
  readonly stops: number;
  readonly presses: number;
  readonly wrong: readonly string[];
}

/** A declared gap may be so much longer than the outage that made it. */
const SLACK = (10 * SECOND) as Span;

/**
 * Every figure equals the ledger or lies in a declared gap, and each gap is no longer than what made it: cartons by what
 * became of them, stops, presses, sizes and openings of guards; and what has to leave a gap left one. `start`: where the faults' times count from.
 */
export function judge(run: FaultedRun, faults: readonly Fault[], start: Instant): Judgement {
  const gaps = unknownOf(run);
  // a program that stands still stamps what happened meanwhile with the moment at which it goes on
  const frozen = faults.flatMap((fault) => (fault.kind === 'frozen' ? [timeOf(fault, start)] : []));
  const hidden = [...gaps, ...frozen];
  const off = offBy(faults);
  const isSeen = (at: Instant | null | undefined): at is Instant =>
    at !== null && at !== undefined && hidden.every(({ from, to }) => at < from - off || at > to + off);
  const wrong: string[] = [];
  const goods = run.ledger.cartons.filter(({ fate, mode }) => fate === 'good' && mode === 'produce');
  const counted = goodOf(run);
  const judged = { run, faults, isSeen, off };
  wrong.push(...wrongCounts(judged), ...wrongMoments(judged));
  if (counted !== run.fold.state.tally[goodPlace(run)]) wrong.push(`shifts: ${counted} good in all of them`);

  const unknown = gaps.reduce((sum, { from, to }) => sum + between(from, to), 0);
  // locked out, the PLC is dark: that is a cause of its own
  const darks = run.ledger.darks.map(({ from, to = run.to }) => ({ from, to }));
  const allowed =
    faults.reduce((sum, fault) => sum + allowedFor(fault), 0) +
    darks.reduce((sum, { from, to }) => sum + between(from, to) + SLACK, 0);
  if (unknown > allowed) wrong.push(`unknown: ${unknown / SECOND} s, allowed ${allowed / SECOND} s`);
  const causes = [
    ...darks.map((dark) => ({ ...dark, allows: between(dark.from, dark.to) + SLACK })),
    ...faults.map((fault) => ({ ...timeOf(fault, start), allows: allowedFor(fault) })),
  ];
  for (const gap of gaps) {
    const own = causes.filter((cause) => explains(cause, gap));
    const most = own.reduce((sum, { allows }) => sum + allows, 0);
    if (own.length === 0) wrong.push(`a gap without a fault: ${gap.from}`);
    else if (between(gap.from, gap.to) > most)
      wrong.push(`a gap of ${between(gap.from, gap.to) / SECOND} s, its faults allow ${most / SECOND} s`);
  }
  wrong.push(...wrongGaps(faults, [...gaps, ...isolatedOf(run)], (fault) => timeOf(fault, start), run.to));

  wrong.push(...wrongStops(run, judged), ...wrongPresses(run, judged, start));
  return {
    good: goods.length,
    counted,
    unknownSeconds: Math.round(unknown / SECOND),
    allowedSeconds: Math.round(allowed / SECOND),
    stops: stopsMade(run, judged).length,
    presses: pressesMade(run, judged, start).length,
    wrong,
  };
}

interface Seen extends Judged {
  /** Line time is off by no more: clocks were set by less than what is told from a slow reading. */
  readonly off: number;
}

function stopsMade(run: FaultedRun, { isSeen }: Seen) {
  return run.ledger.stops.flatMap(({ begin, end, number }) =>
    isSeen(begin) && isSeen(end) ? [{ begin, end, number }] : [],
  );
}

function wrongStops(run: FaultedRun, seen: Seen): readonly string[] {
  const { isSeen, off } = seen;
  const known = stopsMade(run, seen);
  const told = run.events.flatMap((event) => {
    if (event.kind !== 'StopEnded') return [];
    const { begin, end, endSeen, reason } = event.stop;
    return endSeen && isSeen(begin) && isSeen(end) ? [{ begin, end, number: reason }] : [];
  });
  const text = ({ begin, end, number }: (typeof known)[number]) => `${begin}-${end} ${number}`;
  const isOf = (a: (typeof known)[number], b: (typeof known)[number]) =>
    a.number === b.number && Math.abs(a.begin - b.begin) <= off && Math.abs(a.end - b.end) <= off;
  return [
    ...known.filter((a) => !told.some((b) => isOf(a, b))).map((stop) => `a stop not seen: ${text(stop)}`),
    ...told
      .filter((a) => !known.some((b) => isOf(a, b)))
      .map((stop) => `a stop that was none: ${text(stop)}`),
  ];
}

/** Locked out, nobody watched either: a press then is found by its twin alone. */
function watched(run: FaultedRun, { isSeen }: Seen) {
  const isolated = isolatedOf(run);
  return (at: Instant | null | undefined): at is Instant =>
    isSeen(at) && isolated.every(({ from, to }) => at < from || at > to);
}

function pressesMade(run: FaultedRun, seen: Seen, start: Instant): readonly Instant[] {
  const pulses = seen.faults.flatMap((fault) => (fault.kind === 'pulse' ? [after(start, fault.at)] : []));
  return [...run.ledger.presses.map(({ pressed }) => pressed), ...pulses].filter(watched(run, seen));
}

function wrongPresses(run: FaultedRun, seen: Seen, start: Instant): readonly string[] {
  const isWatched = watched(run, seen);
  const pressed = pressesMade(run, seen, start);
  const told = run.events.flatMap((event) =>
    event.kind === 'Pressed' && event.press.known === 'edge' && isWatched(event.press.pressed)
      ? [event.press.pressed]
      : [],
  );
  const among = (list: readonly Instant[], at: Instant) => list.some((one) => Math.abs(one - at) <= seen.off);
  return [
    ...pressed.filter((at) => !among(told, at)).map((at) => `a press not seen: ${at}`),
    ...told.filter((at) => !among(pressed, at)).map((at) => `a press that was none: ${at}`),
  ];
}

function goodOf({ events, fold }: FaultedRun): number {
  const ended = events.flatMap((event) => (event.kind === 'ShiftEnded' ? [event.record.account.good] : []));
  return ended.reduce((sum, good) => sum + good, fold.state.shift.account.good);
}

function goodPlace({ fold: { index } }: FaultedRun): number {
  return index.tallied.findIndex((signal) => index.line.signals[signal]!.role === 'goodCount');
}

function unknownOf(run: FaultedRun): readonly Stretch[] {
  const past = gapsOf(run, 'unknown');
  const { gap } = run.fold.state;
  return gap ? [...past, { from: gap.from, to: run.to }] : past;
}

function isolatedOf(run: FaultedRun): readonly Stretch[] {
  return gapsOf(run, 'isolated');
}

function gapsOf({ events, fold }: FaultedRun, kind: 'unknown' | 'isolated'): readonly Stretch[] {
  const records = events.flatMap((event) => (event.kind === 'ShiftEnded' ? [event.record] : []));
  return [...records, fold.state.shift].flatMap(({ gaps }) => gaps.filter((gap) => gap.kind === kind));
}

/** A clock that is set by less than this cannot be told from one that was read slowly. */
const TOLD = 2 * SECOND;

/** Values with one stamp follow each other by a tick. */
const AT_ONCE = 10;

function offBy(faults: readonly Fault[]): number {
  return faults.reduce(
    (sum, fault) => sum + (fault.kind === 'stepped' && Math.abs(fault.by) < TOLD ? Math.abs(fault.by) : 0),
    AT_ONCE,
  );
}

function allowedFor(fault: Fault): number {
  switch (fault.kind) {
    case 'cut':
    case 'dark':
    case 'killed':
    case 'download':
    case 'frozen':
    case 'bad':
      return fault.lasts + SLACK;
    default:
      // a queue that is too small makes a gap of somebody else's outage longer, and not of itself
      return SLACK;
  }
}

function timeOf(fault: Fault, start: Instant): Stretch {
  const from = after(start, fault.at);
  return { from, to: after(from, ('lasts' in fault ? fault.lasts : 0) as Span) };
}

function explains(cause: Stretch, gap: Stretch): boolean {
  return gap.from <= cause.to + SLACK && gap.to >= cause.from - SLACK;
}
