import type { LineEvent } from '../../model/fold/events.ts';
import type { GapSpan } from '../../model/fold/state.ts';
import type { Role, Signal } from '../../model/signals/signals.ts';
import { after, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import { boundLine } from '../simulator/simulatedLine.ts';
import type { FaultedRun } from './faultedRun.ts';

export interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** A clock that is set by less than this cannot be told from one that was read slowly. */
const TOLD = 2 * SECOND;
/** Values with one stamp follow each other by a tick. */
const AT_ONCE = 10;
/** A fault so near a gap may have happened in it. */
const ABOUT = 10 * SECOND;
/** What a server dropped without a word may hide what happened within so long of it. */
const QUIET = SECOND;

export const tags = {
  state: 'Cartoner.State',
  mode: 'Cartoner.Mode',
  firstOut: 'Cartoner.FirstOut',
  size: 'Cartoner.Size',
  order: 'Cartoner.Order',
  good: 'Discharge.Good',
  cycles: 'Cartoner.Cycles',
  heartbeat: 'Cartoner.Heartbeat',
} as const;

/** Events as they are known at the end: what late data amended stands as it was told last. */
export function knownEvents(events: readonly LineEvent[]): readonly LineEvent[] {
  let known: LineEvent[] = [];
  for (const event of events) {
    if (event.kind !== 'Amended') known.push(event);
    else known = [...known.filter(({ at }) => at < event.from), ...event.again];
  }
  return known;
}

/** What of a run through faults was to be seen, of each tag, and how exactly. */
export class Seen {
  readonly run: FaultedRun;
  readonly faults: readonly Fault[];
  readonly start: Instant;
  readonly events: readonly LineEvent[];
  /** Declared gaps: of which nothing is known, and in which the line stood, by its counters. */
  readonly unknown: readonly Stretch[];
  readonly isolated: readonly Stretch[];
  /** Moments at which it is not certain which of state, mode and first-out word came first. */
  private readonly blurred: readonly Instant[];
  private readonly hidden: readonly Stretch[];
  private readonly hiddenOf = new Map<string, readonly Stretch[]>();
  private readonly usual: number;
  private readonly names: ReadonlyMap<number, string>;
  /** Tags that a small server will not watch. */
  private readonly refused: ReadonlySet<string>;

  constructor(run: FaultedRun, faults: readonly Fault[], start: Instant) {
    this.run = run;
    this.faults = faults;
    this.start = start;
    this.events = knownEvents(run.events);
    const gaps = gapsOf(run, this.events);
    const { gap } = run.fold.state;
    const open = gap ? [{ from: gap.from, to: run.to }] : [];
    this.unknown = [...gaps.filter(({ kind }) => kind === 'unknown'), ...open];
    this.isolated = gaps.filter(({ kind }) => kind === 'isolated');
    // a program that stands still stamps what happened meanwhile with the moment at which it goes on
    const frozen = faults.flatMap((fault) => (fault.kind === 'frozen' ? [this.timeOf(fault)] : []));
    this.hidden = [...this.unknown, ...frozen];
    this.usual = faults.reduce(
      (sum, fault) => sum + (fault.kind === 'stepped' && Math.abs(fault.by) < TOLD ? Math.abs(fault.by) : 0),
      AT_ONCE,
    );
    this.names = new Map([...boundLine().tags].map(([signal, { tag }]) => [signal, tag]));
    this.blurred = blurredIn(run, this.modulesOff);
    const all = [...this.names.values()];
    this.refused = new Set(
      faults.flatMap((fault) => (fault.kind === 'limited' ? all.slice(fault.items) : [])),
    );
  }

  timeOf(fault: Fault): Stretch {
    const from = after(this.start, fault.at);
    return { from, to: after(from, ('lasts' in fault ? fault.lasts : 0) as Span) };
  }

  tagOf({ index }: Signal): string {
    return this.names.get(index) ?? '';
  }

  signals(...roles: readonly Role[]): readonly Signal[] {
    return this.run.line.signals.filter(({ role }) => roles.includes(role));
  }

  /** Moments that these tags told may be off by so much: a clock set by little, a module with its own. */
  off(...of: readonly string[]): number {
    return of.reduce((sum, tag) => sum + this.skewOf(tag), this.usual);
  }

  /** Whatever tag told them. */
  get offMost(): number {
    return this.faults.reduce(
      (most, fault) => (fault.kind === 'skewed' ? Math.max(most, this.off(fault.on)) : most),
      this.usual,
    );
  }

  isSeen(at: Instant | null | undefined, ...of: readonly string[]): at is Instant {
    return at !== null && at !== undefined && this.isAllSeen(at, at, ...of);
  }

  /** All of a stretch was, so far as these tags tell it. */
  isAllSeen(from: Instant, to: Instant, ...of: readonly string[]): boolean {
    const off = this.off(...of);
    const isOut = (gap: Stretch) => to < gap.from - off || from > gap.to + off;
    return (
      this.hidden.every(isOut) && of.every((tag) => this.isWatched(tag) && this.hiddenIn(tag).every(isOut))
    );
  }

  /**
   * In a stretch, or just beside it, two of state, mode and first-out word changed so near each other that a module's own
   * clock may have their order reversed.
   */
  isBlurred(from: Instant, to: Instant): boolean {
    const off = 2 * this.modulesOff + this.usual;
    return this.blurred.some((at) => at >= from - off && at <= to + off);
  }

  /** So far apart may the clocks be by which state, mode and first-out word are stamped. */
  private get modulesOff(): number {
    return [tags.state, tags.mode, tags.firstOut].reduce((sum, tag) => sum + this.skewOf(tag), 0);
  }

  /** A counter may have begun anew, or been set, about then. */
  isAnew({ from, to }: Stretch, tag: string): boolean {
    return this.faults.some((fault) => {
      const all = fault.kind === 'download' || fault.kind === 'reset';
      const own = (fault.kind === 'set' || fault.kind === 'corrected') && fault.on === tag;
      const time = this.timeOf(fault);
      return (all || own) && time.from <= to + ABOUT && time.to >= from - ABOUT;
    });
  }

  /** In a stretch, a server dropped a value of one of these tags without a word. */
  isHushed(from: Instant, to: Instant, ...of: readonly string[]): boolean {
    return (this.run.lost ?? []).some(
      ({ at, tag, quiet }) => quiet && at >= from && at <= to && of.includes(tag),
    );
  }

  /** A server that watches only so many tags says of the others that it does not. */
  isWatched(tag: string): boolean {
    return !this.refused.has(tag);
  }

  /** When a tag told what became so at a moment: some are told late. */
  toldAt(tag: string, at: Instant): Instant {
    const lags = this.faults.flatMap((fault) =>
      fault.kind === 'late' && fault.on === tag && after(this.start, fault.at) <= at ? [fault.lag] : [],
    );
    return after(at, lags.at(-1) ?? (0 as Span));
  }

  private skewOf(tag: string): number {
    return this.faults.reduce(
      (most, fault) =>
        fault.kind === 'skewed' && fault.on === tag ? Math.max(most, Math.abs(fault.by)) : most,
      0,
    );
  }

  private hiddenIn(tag: string): readonly Stretch[] {
    const known = this.hiddenOf.get(tag);
    if (known) return known;
    const bad = this.faults.flatMap((fault) =>
      fault.kind === 'bad' && fault.on === tag ? [this.timeOf(fault)] : [],
    );
    const quiet = (this.run.lost ?? []).flatMap((lost) =>
      lost.quiet && lost.tag === tag
        ? [{ from: (lost.at - QUIET) as Instant, to: (lost.at + QUIET) as Instant }]
        : [],
    );
    const hidden = [...bad, ...quiet];
    this.hiddenOf.set(tag, hidden);
    return hidden;
  }
}

const EXECUTE = 6;

function blurredIn({ facts = [] }: FaultedRun, off: number): readonly Instant[] {
  if (off === 0) return [];
  const states = facts.filter(({ tag }) => tag === tags.state);
  const turns = states.filter(
    ({ value }, place) => value === EXECUTE || states[place - 1]?.value === EXECUTE,
  );
  const others = facts.filter(({ tag }) => tag === tags.mode || tag === tags.firstOut);
  return turns.flatMap(({ at }) =>
    others.some((one) => one.at !== at && Math.abs(one.at - at) <= off) ? [at] : [],
  );
}

function gapsOf({ fold }: FaultedRun, events: readonly LineEvent[]): readonly GapSpan[] {
  const records = events.flatMap((event) => (event.kind === 'ShiftEnded' ? [event.record] : []));
  return [...records, fold.state.shift].flatMap(({ gaps }) => gaps);
}
