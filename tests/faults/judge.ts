import { after, between, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { FaultedRun } from './faultedRun.ts';

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
 * Every figure equals the ledger or lies in a declared gap, and gaps are no longer than what made them: good cartons,
 * stops and presses. `start`: where the faults' times count from.
 */
export function judge(run: FaultedRun, faults: readonly Fault[], start: Instant): Judgement {
  const gaps = unknownOf(run);
  // a program that stands still stamps what happened meanwhile with the moment at which it goes on
  const frozen = faults.flatMap((fault) => (fault.kind === 'frozen' ? [timeOf(fault, start)] : []));
  const hidden = [...gaps, ...frozen];
  const isSeen = (at: Instant | null | undefined): at is Instant =>
    at !== null && at !== undefined && hidden.every(({ from, to }) => at < from || at > to);
  const wrong: string[] = [];
  const closed = run.ledger.cartons.filter(({ fate }) => fate === 'good');
  const goods = closed.filter(({ mode }) => mode === 'produce');
  const counted = goodOf(run);
  const inGaps = goods.filter(({ at }) => !isSeen(at)).length;
  // [CO5] nobody saw in which mode these were made
  const othersInGaps = closed.filter(({ mode, at }) => mode !== 'produce' && !isSeen(at)).length;
  const carries = !faults.some(({ kind }) => kind === 'download' || kind === 'reset');
  const missing = goods.length - counted;
  if (missing < -othersInGaps || missing > (carries ? 0 : inGaps))
    wrong.push(`good: ${goods.length} made, ${counted} counted`);

  const unknown = gaps.reduce((sum, { from, to }) => sum + between(from, to), 0);
  // locked out, the PLC is dark: that is a cause of its own
  const darks = run.ledger.darks.map(({ from, to = run.to }) => ({ from, to }));
  const allowed =
    faults.reduce((sum, fault) => sum + allowedFor(fault), 0) +
    darks.reduce((sum, { from, to }) => sum + between(from, to) + SLACK, 0);
  if (unknown > allowed) wrong.push(`unknown: ${unknown / SECOND} s, allowed ${allowed / SECOND} s`);
  const causes = [...darks, ...faults.map((fault) => timeOf(fault, start))];
  for (const gap of gaps)
    if (!causes.some((cause) => explains(cause, gap))) wrong.push(`a gap without a fault: ${gap.from}`);

  const text = (begin: Instant, end: Instant, number: number) => `${begin}-${end} ${number}`;
  const known = run.ledger.stops.flatMap(({ begin, end, number }) =>
    isSeen(begin) && isSeen(end) ? [text(begin, end, number)] : [],
  );
  const told = run.events.flatMap((event) =>
    event.kind === 'StopEnded' && event.stop.endSeen && isSeen(event.stop.begin) && isSeen(event.stop.end)
      ? [{ ...event.stop, end: event.stop.end }]
      : [],
  );
  const seen = told.map(({ begin, end, reason }) => text(begin, end, reason));
  for (const stop of known) if (!seen.includes(stop)) wrong.push(`a stop not seen: ${stop}`);
  for (const { begin, end, reason } of told) {
    const stop = text(begin, end, reason);
    if (!known.includes(stop)) wrong.push(`a stop that was none: ${stop}`);
  }

  const pulses = faults.flatMap((fault) => (fault.kind === 'pulse' ? [after(start, fault.at)] : []));
  // locked out, nobody watched either: a press then is found by its twin alone
  const isWatched = (at: Instant | null | undefined): at is Instant =>
    isSeen(at) && isolatedOf(run).every(({ from, to }) => at < from || at > to);
  const pressed = [...run.ledger.presses.map((press) => press.pressed), ...pulses].filter(isWatched);
  const pressesSeen = run.events.flatMap((event) =>
    event.kind === 'Pressed' && event.press.known === 'edge' && isWatched(event.press.pressed)
      ? [event.press.pressed]
      : [],
  );
  for (const at of pressed) if (!pressesSeen.includes(at)) wrong.push(`a press not seen: ${at}`);
  for (const at of pressesSeen) if (!pressed.includes(at)) wrong.push(`a press that was none: ${at}`);
  return {
    good: goods.length,
    counted,
    unknownSeconds: Math.round(unknown / SECOND),
    allowedSeconds: Math.round(allowed / SECOND),
    stops: known.length,
    presses: pressed.length,
    wrong,
  };
}

function goodOf({ events, fold }: FaultedRun): number {
  const ended = events.flatMap((event) => (event.kind === 'ShiftEnded' ? [event.record.account.good] : []));
  return ended.reduce((sum, good) => sum + good, fold.state.shift.account.good);
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
