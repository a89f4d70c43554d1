import type { Signal } from '../../model/signals/signals.ts';
import { type Instant, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import { boundLine } from '../simulator/simulatedLine.ts';
import type { FaultedRun } from './faultedRun.ts';

/** What the judge knows of a run: its faults, and which moments were seen. */
export interface Judged {
  readonly run: FaultedRun;
  readonly faults: readonly Fault[];
  readonly isSeen: (at: Instant | null | undefined) => at is Instant;
  /** Moments may be off by so much. */
  readonly off: number;
}

/** One figure of the ledger: when each of it was made, and whether in production. */
interface Made {
  readonly at: Instant;
  readonly mode: string;
  readonly count: number;
}

/**
 * Every counter of cartons: counted is what was made in production, but for what a counter that began anew lost in a gap;
 * and what was made in another mode while nobody looked may be among it ([CO5]).
 */
export function wrongCounts({ run, faults, isSeen }: Judged): readonly string[] {
  const { index, state } = run.fold;
  const carries = !faults.some(({ kind }) => kind === 'download' || kind === 'reset');
  return index.tallied.flatMap((place, tally) => {
    const signal = index.line.signals[place]!;
    const made = madeOf(run, signal);
    if (!made) return [];
    const sum = (of: (one: Made) => boolean) =>
      made.reduce((total, one) => total + (of(one) ? one.count : 0), 0);
    const truth = sum(({ mode }) => mode === 'produce');
    const counted = state.tally[tally] ?? 0;
    const lost = carries ? 0 : sum(({ mode, at }) => mode === 'produce' && !isSeen(at));
    // near its end nobody can tell a counter that began anew from one that rolled over
    const doubtful = isDoubtful(faults, run, place) ? DOUBTFUL : 0;
    const others = sum(({ mode, at }) => mode !== 'produce' && !isSeen(at));
    const missing = truth - counted;
    return missing < -others - doubtful || missing > lost
      ? [`${signal.role} ${signal.of ?? ''}: ${truth} made, ${counted} counted`]
      : [];
  });
}

/** What a counter may have made in five minutes, in which a reading of it may come once. */
const DOUBTFUL = 500;

function isDoubtful(faults: readonly Fault[], { line }: FaultedRun, signal: number): boolean {
  const { tags } = boundLine();
  const tag = tags.get(line.signals[signal]!.index)?.tag;
  const has = (kind: Fault['kind']) =>
    faults.some((fault) => fault.kind === kind && 'on' in fault && fault.on === tag);
  return has('rollover') && has('reset');
}

function madeOf({ ledger }: FaultedRun, { role, of }: Signal): readonly Made[] | undefined {
  const cartons = (fate: (one: (typeof ledger.cartons)[number]) => boolean) =>
    ledger.cartons.filter(fate).map(({ at, mode }) => ({ at, mode, count: 1 }));
  switch (role) {
    case 'goodCount':
      return cartons(({ fate }) => fate === 'good');
    case 'rejectCount':
      return cartons(({ reason }) => reason === of);
    case 'missedPickCount':
      return ledger.missed.map(({ at, mode }) => ({ at, mode, count: 1 }));
    case 'crushedCount':
      return ledger.crushed
        .filter(({ station }) => station === of)
        .map(({ at, mode, cartons: count }) => ({ at, mode, count }));
    default:
      return undefined;
  }
}

/** Sizes begin when the tag says so; one that comes late begins so much later. Openings of guards happen when they did. */
export function wrongMoments(judged: Judged): readonly string[] {
  return [...wrongSizes(judged), ...wrongOpenings(judged)];
}

function wrongSizes({ run, faults, isSeen, off }: Judged): readonly string[] {
  const lags = faults.flatMap((fault) =>
    fault.kind === 'late' && fault.on === 'Cartoner.Size' ? [fault.lag] : [],
  );
  const hidden = faults.some(
    (fault) => 'on' in fault && fault.on === 'Cartoner.Size' && fault.kind === 'bad',
  );
  if (hidden) return [];
  const told = run.events.flatMap((event) =>
    event.kind === 'SizeBegan' ? [{ at: event.at, size: event.size }] : [],
  );
  const changed = run.ledger.targets.filter(
    ({ size }, place, all) => place > 0 && all[place - 1]!.size !== size,
  );
  return changed
    .filter(({ at }) => isSeen(at) && isSeen((at + Math.max(0, ...lags)) as Instant))
    .filter(
      ({ at, size }) =>
        !told.some(
          (one) => one.size === size && [0, ...lags].some((lag) => Math.abs(one.at - at - lag) <= off),
        ),
    )
    .map(({ at, size }) => `a size not seen: ${at} ${size}`);
}

function wrongOpenings({ run, faults, isSeen, off }: Judged): readonly string[] {
  if (faults.some((fault) => 'on' in fault && fault.on.startsWith('Guard'))) return [];
  const told = run.events.flatMap((event) =>
    event.kind === 'GuardMoved' && event.open ? [{ guard: event.guard, at: event.at }] : [],
  );
  return run.ledger.guards
    .filter(({ opened }) => isSeen(opened))
    .filter(
      ({ guard, opened }) => !told.some((one) => one.guard === guard && Math.abs(one.at - opened) <= off),
    )
    .map(({ guard, opened }) => `an opening not seen: ${guard} ${opened}`);
}

interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** Within so long after it begins and before it ends an outage need not have been noticed, or is over already. */
const EDGE = (3 * SECOND) as Span;
/** A program that tells nothing is not heard after so long. */
const SILENT = (10 * SECOND) as Span;

/** A server that was killed, a program downloaded or standing, a value that decides and was bad: each has to leave a gap. */
export function wrongGaps(
  faults: readonly Fault[],
  gaps: readonly Stretch[],
  timeOf: (fault: Fault) => Stretch,
  until: Instant,
): readonly string[] {
  return faults.filter(hasToLeave).flatMap((fault) => {
    const { from, to } = timeOf(fault);
    const [begin, end] = [from + (fault.kind === 'frozen' ? SILENT : EDGE), Math.min(until, to - EDGE)];
    if (end <= begin) return [];
    const covered = gaps.reduce(
      (sum, gap) => sum + Math.max(0, Math.min(gap.to, end) - Math.max(gap.from, begin)),
      0,
    );
    return covered < end - begin
      ? [`no gap for ${fault.kind} at ${fault.at / SECOND} s: ${covered / SECOND} s`]
      : [];
  });
}

function hasToLeave(fault: Fault): boolean {
  switch (fault.kind) {
    case 'killed':
    case 'download':
      return true;
    case 'frozen':
      return fault.lasts > SILENT + EDGE;
    case 'bad':
      return fault.on === 'Discharge.Good' || fault.on === 'Cartoner.State';
    default:
      return false;
  }
}
