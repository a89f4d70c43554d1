import {
  byLineTime,
  type Change,
  type Role,
  type Signal,
  type SignalIndex,
  type Value,
} from '../../model/signals/signals.ts';
import { overflowed, severity } from '../../model/status/status.ts';
import {
  epochMs,
  type Instant,
  instantFromMs,
  millis,
  SECOND,
  type Span,
  TICKS_PER_MS,
} from '../../model/units/units.ts';
import type { Message, RawValue } from './connection.ts';
import { type ClockSetting, type LineTime, plausible } from './lineTime.ts';
import { type Known, Memory, type Stamped, type Taken } from './memory.ts';
import type { ClockOffset } from './offset.ts';
import { inOrder, type Sent } from './order.ts';
import { Regimes } from './regimes.ts';
import { understand } from './values.ts';

export interface RecorderParts {
  readonly signals: readonly Signal[];
  readonly linkSignal: SignalIndex;
  readonly clock: ClockSetting;
  readonly time: LineTime;
  readonly offset: ClockOffset;
  readonly known: (signal: SignalIndex) => Known | undefined;
  readonly take: (changes: Change[]) => Promise<void>;
}

/** What is recorded at once: the messages, and among them what was read of every tag after a cut. */
export interface Batch {
  /** In any order: they are taken as the server numbered them. */
  readonly messages: readonly Message[];
  /** They come as they happen: in order, and none twice. */
  readonly live?: boolean;
  readonly reading?: { readonly values: readonly RawValue[]; readonly received: number };
  /** Messages that came while the reading was under way. */
  readonly since?: readonly Message[];
  /** When what is now heard for the first time began to be observed. */
  readonly floor?: Instant;
}

/**
 * Values of these are samples of something that goes on all the time: one that was dropped says nothing that the next
 * does not. A server with short queues drops them at every publish, and what the line does is known all the same.
 */
const sampled: ReadonlySet<Role> = new Set(['speedActual', 'machineAngle', 'condition', 'heartbeat']);

/** A clock that is put back by less is not told from one that is read late: its values follow each other all the same. */
const BACK = (2.5 * SECOND) as Span;

/** How a value came: read; first in its subscription's life, or after it was bad; next after another; or in any order. */
type Coming = 'read' | 'anew' | 'next' | 'any';

/** How a signal's newest value was understood. */
export interface Verdict {
  readonly status: number;
  readonly wrongType: boolean;
}

/** Makes changes of raw values, drops repetitions, sorts by line time and hands them on, one batch after the other. */
export class Recorder {
  readonly verdicts = new Map<SignalIndex, Verdict>();
  private readonly parts: RecorderParts;
  private readonly memory = new Memory();
  /** Signals of which no value may be missing. */
  private readonly events: ReadonlySet<SignalIndex>;
  /** Newest line time taken, of this server's signals; undefined while the tape has none. */
  newest: Instant | undefined;
  /** What the tape says of the link. */
  link: Value | undefined;
  private linkAt: Instant | undefined;
  /** How far line time was ahead of our clock when the link was last said to be heard. Milliseconds. */
  leadTold = 0;
  lastDataAt: number | undefined;
  private readonly regimes = new Regimes();
  private life = 0;
  private seenInLife = new Set<number>();
  private fresh = new Set<SignalIndex>();
  /** What was read last of a signal, until the publish after it has come. */
  private readonly readAhead = new Map<SignalIndex, { readonly at: Instant; readonly stamp: Instant }>();

  constructor(parts: RecorderParts) {
    this.parts = parts;
    this.events = new Set(parts.signals.filter(({ role }) => !sampled.has(role)).map(({ index }) => index));
    const stamped = parts.clock !== 'received';
    for (const { index } of parts.signals) {
      const known = parts.known(index);
      if (!known) continue;
      this.memory.seed(index, known, stamped);
      this.passed(known.at);
    }
    const link = parts.known(parts.linkSignal);
    if (link) this.passed(link.at);
    this.link = link?.value;
    this.linkAt = link?.at;
  }

  /** A moment of our clock on the line's time. */
  lineNow(ms: number): Instant {
    const ahead = this.parts.clock === 'received' ? 0 : (this.parts.offset.ms ?? 0);
    return (instantFromMs(ms + ahead) - this.regimes.ahead) as Instant;
  }

  /** How far line time is ahead of our clock now. Milliseconds. */
  leadMs(ms: number): number {
    return epochMs(this.lineNow(ms)) - ms;
  }

  /** False where stamps are not to be trusted, and line time is the time of receipt. */
  get stamped(): boolean {
    return this.parts.time.trusted;
  }

  /** How far the server's clock, or our own where the time of receipt counts, is ahead of line time. Milliseconds. */
  get aheadMs(): number {
    return millis(this.regimes.ahead);
  }

  /** That clock was set by so much, between two moments of line time, which goes on as if it had not been. */
  clockSet(after: Instant, by: Instant, byMs: number): void {
    this.regimes.begin(after, by, (this.regimes.ahead + byMs * TICKS_PER_MS) as Span);
  }

  /** Line time goes by that clock again as it is: what it was before is too long ago to matter. */
  clockTaken(now: Instant): void {
    this.regimes.begin(now, now, 0 as Span);
  }

  /** Resolves when it is recorded. `overflow`: the server dropped values before one of these. */
  async record(batch: Batch): Promise<{ readonly overflow: boolean }> {
    const { messages, live = false, reading, since = [], floor } = batch;
    const { before, readBy, after } = inOrder(messages, since, reading?.received ?? Number.POSITIVE_INFINITY);
    const kept: Change[] = [];
    const keep = (stamped: Stamped, coming: Coming) => {
      const change = this.placed(stamped, coming, floor);
      if (change) kept.push(change);
    };
    for (const one of before) this.each(one, live, keep);
    for (const raw of reading?.values ?? []) {
      const stamped = this.changeOf(raw, reading!.received, readBy, false);
      const known = this.memory.newest(stamped.change.signal) !== undefined;
      const change = this.placed(stamped, 'read', floor);
      if (!change) continue;
      kept.push(change);
      if (known) this.rememberRead({ ...stamped, change });
    }
    for (const one of after) this.each(one, false, keep);
    if (floor !== undefined) this.fresh.clear();
    await this.hand(kept.sort(byLineTime));
    return { overflow: kept.some(({ signal, status }) => overflowed(status) && this.events.has(signal)) };
  }

  /** True when the server dropped values before one of these, and with them something that happened. */
  overflows(values: readonly RawValue[]): boolean {
    return values.some(
      ({ item, status }) => overflowed(status) && this.events.has(this.parts.signals[item]!.index),
    );
  }

  /**
   * True when one publish brought as many values of a tag as its queue holds: some servers drop more without saying so.
   * `queues`: what the server keeps of each item. A publish may come in several messages.
   */
  mayHaveDropped(messages: readonly Message[], queues: readonly number[]): boolean {
    let counts = new Map<number, number>();
    for (const message of messages) {
      for (const { item } of message.values()) {
        const count = (counts.get(item) ?? 0) + 1;
        counts.set(item, count);
        const full = count >= (queues[item] ?? Number.POSITIVE_INFINITY);
        if (full && this.events.has(this.parts.signals[item]!.index)) return true;
      }
      if (!message.more) counts = new Map();
    }
    return false;
  }

  /**
   * Writes that the server is heard or not: not before what has been taken, unless some of that is `inGap`, and never
   * before what was last said of the link.
   */
  async writeLink(
    value: false | true | 'whole',
    wanted: Instant,
    received: number,
    inGap = false,
  ): Promise<void> {
    const least = inGap ? this.linkAt : this.newest;
    const at = least === undefined ? wanted : later(least, wanted);
    this.link = value;
    this.linkAt = at;
    if (value !== false) this.leadTold = this.leadMs(received);
    await this.hand([
      { signal: this.parts.linkSignal, at, received: instantFromMs(received), status: 0, value },
    ]);
  }

  private each({ message, by }: Sent, live: boolean, keep: (stamped: Stamped, coming: Coming) => void): void {
    if (message.life !== this.life) {
      this.life = message.life;
      this.seenInLife = new Set();
    }
    if (!message.keepAlive) this.lastDataAt = message.received;
    for (const raw of live ? byStamps(message.values()) : message.values()) {
      const first = !this.seenInLife.has(raw.item);
      this.seenInLife.add(raw.item);
      const stamped = this.changeOf(raw, message.received, by, live && !first);
      // a value that is good again may carry the time it had before it was bad
      const { signal } = stamped.change;
      const anew = first || (live && this.memory.isBad(signal));
      // what was read may be ahead of what is told next
      const next = live && !this.memory.newest(signal)?.read;
      keep(stamped, anew ? 'anew' : next ? 'next' : 'any');
    }
    if (!message.more) this.readAhead.clear();
  }

  /**
   * What is read may be ahead of the publish that follows, which tells all the values up to it. Where the time of receipt
   * counts they would come to stand behind it, and be counted twice: by their stamps, which are good for this, they are
   * put before it.
   */
  private rememberRead({ change, stamp }: Stamped): void {
    if (this.parts.clock !== 'received' || stamp === undefined) return;
    this.readAhead.set(change.signal, { at: change.at, stamp });
  }

  private changeOf(raw: RawValue, received: number, by: number, recent: boolean): Stamped {
    const { signals, time } = this.parts;
    const signal = signals[raw.item]!;
    const { value, status, wrongType } = understand(raw.wire, raw.status, signal.type);
    this.verdicts.set(signal.index, { status: raw.status, wrongType });
    const given = time.stampOf(raw, received);
    const counts = time.trusted && given !== undefined;
    const stamp = counts ? this.lineTimeOf(given, signal.index, received, recent) : given;
    const at = counts ? stamp! : this.atReceipt(by);
    return { change: { signal: signal.index, at, received: instantFromMs(received), status, value }, stamp };
  }

  private lineTimeOf(given: Instant, signal: SignalIndex, received: number, recent: boolean): Instant {
    if (!this.regimes.several) return given;
    const now = this.lineNow(received);
    return recent
      ? this.regimes.recent(given, now)
      : this.regimes.any(given, now, (at) => this.memory.hasStamp(signal, at));
  }

  /** Our own clock may be put back; line time made of it is not. */
  private atReceipt(received: number): Instant {
    const at = this.lineNow(received);
    return this.parts.clock === 'received' && this.newest !== undefined && this.newest > at
      ? this.newest
      : at;
  }

  /**
   * Undefined for a repetition.
   * - Never known before: observed from `floor` on, whatever old time it carries; nobody watched that past.
   * - Known, and told anew with another value and an older time than the tape's (a PLC that was reprogrammed, a clock put
   *   back): it holds from now on, since taken with its own time it would lie below what it replaces.
   * - Next after another, and hardly older, or with its very stamp: it came to be so after it, whatever the stamps say.
   * - Otherwise its own time is true, also inside a gap.
   */
  private placed(stamped: Stamped, coming: Coming, floor: Instant | undefined): Change | undefined {
    const { change, stamp } = stamped;
    const read = this.readAhead.get(change.signal);
    const older = read !== undefined && stamp !== undefined && stamp < read.stamp;
    if (this.repeats(stamped, older ? 'any' : coming)) return undefined;
    const known = this.memory.newest(change.signal);
    if (!known) this.fresh.add(change.signal);
    let { at } = change;
    if (read) at = older ? ((read.at - 1) as Instant) : later(at, read.at);
    else if (floor !== undefined && this.fresh.has(change.signal)) at = later(at, floor);
    else if (known && at <= known.at) at = this.afterKnown(stamped, coming, known);
    const placed = at === change.at ? change : { ...change, at };
    this.memory.keep({ change: placed, stamp }, coming === 'read');
    return placed;
  }

  private repeats(stamped: Stamped, coming: Coming): boolean {
    if (coming === 'read' || coming === 'anew') return this.memory.unchanged(stamped);
    return coming === 'next' ? this.memory.isLast(stamped) : this.memory.has(stamped);
  }

  /** Line time of a value that is no newer by its own than what is known. */
  private afterKnown({ change, stamp }: Stamped, coming: Coming, known: Taken): Instant {
    const { at, received, status } = change;
    const follows = (known.at + 1) as Instant;
    const fromNow = later(follows, this.lineNow(epochMs(received)));
    if (coming === 'read' || coming === 'anew') return fromNow;
    const next = coming === 'next' && this.stamped && stamp !== undefined;
    if (!next || (known.at - at >= BACK && stamp !== known.stamp)) return at;
    // a value goes bad with the time at which it was good
    return severity(status) === 'bad' ? fromNow : follows;
  }

  /** Whether a message tells something newer, by its stamps, than what was taken of the same signal. */
  isNews(message: Message): boolean {
    return message.values().some((raw) => {
      const { index } = this.parts.signals[raw.item]!;
      const given = this.parts.time.stampOf(raw, message.received);
      if (given === undefined) return false;
      const stamp = this.stamped ? this.lineTimeOf(given, index, message.received, false) : given;
      const known = this.memory.newest(index)?.stamp;
      return known !== undefined && stamp > known;
    });
  }

  private async hand(changes: Change[]): Promise<void> {
    for (const { at } of changes) this.passed(at);
    if (changes.length > 0) await this.parts.take(changes);
  }

  private passed(at: Instant): void {
    if (this.newest === undefined || at > this.newest) this.newest = at;
  }
}

function later(a: Instant, b: Instant): Instant {
  return a > b ? a : b;
}

/** Values of one tag in one message as their stamps have it, where a server mixes them. */
function byStamps(values: readonly RawValue[]): readonly RawValue[] {
  const newest = new Map<number, number>();
  let mixed = false;
  for (const { item, sourceMs, sourceTicks } of values) {
    // a time that is none tells no order
    if (sourceMs === undefined || !plausible(sourceMs)) return values;
    const at = sourceMs * TICKS_PER_MS + sourceTicks;
    mixed ||= at < (newest.get(item) ?? 0);
    newest.set(item, at);
  }
  const stamp = ({ sourceMs, sourceTicks }: RawValue) => sourceMs! * TICKS_PER_MS + sourceTicks;
  return mixed ? [...values].sort((a, b) => stamp(a) - stamp(b)) : values;
}
