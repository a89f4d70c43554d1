import { byLineTime, type Change } from '../signals/signals.ts';
import type { Line } from '../line/line.ts';
import { between, type Instant, minutes } from '../units/units.ts';
import type { LineEvent } from './events.ts';
import { freshState } from './freshState.ts';
import { indexOf, type LineIndex } from './lineIndex.ts';
import type { FoldState } from './state.ts';
import { step } from './step.ts';
import type { Stepping } from './stepping.ts';

/** How far apart, in line time, the fold keeps copies of its state to work late data in from. */
const APART = minutes(10);
/** How many copies it keeps: late data up to about an hour old can be worked in at once. */
const COPIES_KEPT = 8;
/** Changes kept since the oldest copy, whatever their number a minute. */
const LOG_MOST = 500_000;
/** Where more changes than this lie before something late, the state just before it is kept for what comes late next. */
const NEAR_APART = 500;

/** The state as it was after so many changes of the log. */
interface Copy {
  readonly state: string;
  readonly at: Instant;
  readonly signal: number;
  log: number;
}

/** What JSON keeps of a fold, to go on from later. */
export interface SavedFold {
  readonly state: FoldState;
}

/**
 * The state of a line, folded from its changes in the order in which they arrive (SPEC, TI2). A change older than the
 * newest one stepped is worked in where it belongs, from a copy of the state before it. State is changed in place
 * inside this folder; whoever asks from outside only reads it.
 */
export class LineFold {
  readonly index: LineIndex;
  private readonly copies: Copy[] = [];
  /** Just before what was worked in last: late data comes in a row, and each of it goes on from here. */
  private near: Copy | undefined;
  private log: Change[] = [];
  private events: LineEvent[] = [];
  private readonly stepping: { index: LineIndex; state: FoldState; emit: Stepping['emit'] };

  constructor(line: Line, saved?: SavedFold) {
    this.index = indexOf(line);
    this.stepping = {
      index: this.index,
      state: saved ? (JSON.parse(JSON.stringify(saved.state)) as FoldState) : freshState(this.index),
      emit: (event) => {
        this.events.push(event);
      },
    };
    this.copy();
  }

  get state(): Readonly<FoldState> {
    return this.stepping.state;
  }

  /** Line time of the newest change; undefined before the first. */
  get newest(): Instant | undefined {
    return this.stepping.state.at < 0 ? undefined : this.stepping.state.at;
  }

  /** Takes what arrived, in the order in which it arrived, and tells what was seen in it. */
  take(changes: readonly Change[]): readonly LineEvent[] {
    this.events = [];
    for (let place = 0; place < changes.length; place += 1) {
      const change = changes[place]!;
      if (isLate(this.stepping.state, change)) {
        this.workIn(changes.slice(place));
        break;
      }
      this.stepOn(change);
    }
    const events = this.events;
    this.events = [];
    return events;
  }

  /**
   * Takes what arrived from a place on, one change after another, and stops after the first with which something is seen: what
   * is kept of it then is as it was at that very change. Answers how many it took.
   */
  takeUntilSeen(
    changes: readonly Change[],
    from: number,
    to: number,
  ): { readonly taken: number; readonly events: readonly LineEvent[] } {
    this.events = [];
    let place = from;
    while (place < to && this.events.length === 0) {
      const change = changes[place]!;
      place += 1;
      if (isLate(this.stepping.state, change)) this.workIn([change]);
      else this.stepOn(change);
    }
    const events = this.events;
    this.events = [];
    return { taken: place - from, events };
  }

  save(): SavedFold {
    return { state: JSON.parse(JSON.stringify(this.stepping.state)) as FoldState };
  }

  /** The state as text: equal for equal states, whatever the way to them. */
  text(): string {
    return JSON.stringify(this.stepping.state);
  }

  /** A copy that can be stepped or settled apart from this one. */
  apart(): Stepping {
    const state = JSON.parse(JSON.stringify(this.stepping.state)) as FoldState;
    return { index: this.index, state, emit: () => {} };
  }

  private workIn(rest: readonly Change[]): void {
    const first = rest.reduce((a, b) => (byLineTime(b, a) < 0 ? b : a));
    // before its whole moment, where one is kept: what others saw at that moment is told again with it
    const whole = this.newestCopyBefore(first.at);
    const from = whole ?? this.copies.findLast(({ at, signal }) => at === first.at && signal <= first.signal);
    const told = this.events;
    const newest = this.stepping.state.at;
    this.events = [];
    const base = from ?? this.copies[0]!;
    this.copies.length = this.copies.findLastIndex(({ log }) => log <= base.log) + 1;
    if (base !== this.near) this.near = undefined;
    this.stepping.state = JSON.parse(base.state) as FoldState;
    const usable = from ? rest : this.withinReach(rest, base);
    const again = [...this.log.slice(base.log), ...usable].sort(byLineTime);
    this.log.length = base.log;
    let before: number | undefined;
    for (const change of again) {
      if (!whole || change.at >= first.at) before ??= this.justBefore(base);
      this.stepOn(change);
    }
    const seen = this.events;
    this.events = [...told, ...seen.filter((event) => event.at > newest)];
    if (!from) this.events.push({ kind: 'BeyondReach', at: first.at });
    this.events.push({
      kind: 'Amended',
      at: this.stepping.state.at,
      from: whole ? first.at : ((base.at + 1) as Instant),
      again: seen.slice(before),
    });
  }

  private stepOn(change: Change): void {
    this.log.push(change);
    step(this.stepping, change);
    this.keepCopies();
  }

  private newestCopyBefore(at: Instant): Copy | undefined {
    const kept = this.copies.findLast((copy) => copy.at < at);
    const { near } = this;
    return near && near.at < at && kept && near.log >= kept.log ? near : kept;
  }

  /** What is late comes next: a state far from the one that was gone on from is kept. Answers how much was seen until here. */
  private justBefore(base: Copy): number {
    if (this.log.length - base.log >= NEAR_APART) this.near = this.copyNow();
    return this.events.length;
  }

  /** What is too old is left out; but what a person entered is never lost: it counts from as far back as there is. */
  private withinReach(rest: readonly Change[], { at, signal }: { at: Instant; signal: number }): Change[] {
    const { signals } = this.index.line;
    return rest.flatMap((change) => {
      if (!isLate(this.stepping.state, change)) return [change];
      if (signals[change.signal]!.role !== 'entry') return [];
      return [{ ...change, at: signal > change.signal ? ((at + 1) as Instant) : at }];
    });
  }

  private keepCopies(): void {
    const last = this.copies.at(-1)!;
    if (
      between(last.at, this.stepping.state.at) < APART &&
      this.log.length - last.log < LOG_MOST / COPIES_KEPT
    )
      return;
    this.copy();
  }

  private copy(): void {
    this.copies.push(this.copyNow());
    if (this.copies.length <= COPIES_KEPT) return;
    this.copies.shift();
    const dropped = this.copies[0]!.log;
    this.log = this.log.slice(dropped);
    for (const copy of this.copies) copy.log -= dropped;
    if (!this.near) return;
    this.near.log -= dropped;
    if (this.near.log < 0) this.near = undefined;
  }

  private copyNow(): Copy {
    const { at, signal } = this.stepping.state;
    return { state: JSON.stringify(this.stepping.state), at, signal, log: this.log.length };
  }
}

function isLate(state: FoldState, change: Change): boolean {
  return change.at < state.at || (change.at === state.at && change.signal < state.signal);
}
