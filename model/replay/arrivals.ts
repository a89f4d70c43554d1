import type { Line } from '../line/line.ts';
import type { Change } from '../signals/signals.ts';
import type { Instant } from '../units/units.ts';

/** Something that came after its own moment, and where it stands on the tape. */
export interface Late {
  readonly position: number;
  readonly change: Change;
}

/** More late changes than this are not held: what is as known now cannot be told then. */
export const LATE_MOST = 500_000;

/** What was received at one go. */
interface Batch {
  readonly received: Instant;
  readonly all: Late[];
  /** The newest that the PLC told in it; undefined where all of it is late, or nothing is of the PLC. */
  newest: Instant | undefined;
}

/**
 * When each change of a stretch of tape came, in line time: what a screen of that moment showed is the fold of all that had
 * come by then. The newest that the PLC told is the present; what comes with it comes then. Until the next of these line time
 * goes on by the gateway's clock, as it did on the screens; but no further than to it, whatever somebody sets that clock to.
 */
export class Arrivals {
  private readonly tellsOfNow: (change: Change) => boolean;
  private readonly isLink: readonly boolean[];
  private readonly oldest: Instant;
  /** Positions at which line time moved on, and to which moment: of equal ones the first is kept. */
  private readonly positions: number[] = [];
  private readonly moments: Instant[] = [];
  private base: { readonly at: Instant; readonly received: Instant } | undefined;
  private batch: Batch | undefined;
  /** Batches since then; how far line time had gone by them is told by the next that the PLC told something new in. */
  private waiting: Batch[] = [];
  private last = Number.NEGATIVE_INFINITY as Instant;
  /** What came after something newer had come before it, oldest first by position. */
  readonly late: Late[] = [];
  /** What was told of links to servers, as it came. */
  readonly links: Late[] = [];
  /** False where there were more of them than are held. */
  whole = true;
  end: number;

  /** `oldest`: what claims to be older than the tape's beginning has no place in it, and is not kept as late. */
  constructor({ signals }: Line, start: number, oldest = 0 as Instant) {
    this.oldest = oldest;
    const isEntry = signals.map(({ role }) => role === 'entry');
    this.isLink = signals.map(({ role }) => role === 'link');
    this.tellsOfNow = ({ signal, value }) => !isEntry[signal] && !(this.isLink[signal] && value === false);
    this.end = start;
  }

  /** What follows on the tape, undefined where it is of no signal of the line; `position` is that of the first. */
  take(changes: readonly (Change | undefined)[], position: number): void {
    for (let place = 0; place < changes.length; place += 1) {
      const change = changes[place];
      if (!change) continue;
      if (this.batch?.received !== change.received) {
        this.close();
        this.batch = { received: change.received, all: [], newest: undefined };
      }
      const batch = this.batch!;
      batch.all.push({ position: position + place, change });
      const newest = batch.newest ?? this.base?.at ?? change.at;
      if (change.at >= newest && this.tellsOfNow(change)) batch.newest = change.at;
      if (this.isLink[change.signal]) this.links.push({ position: position + place, change });
    }
    this.end = position + changes.length;
  }

  /** Nothing follows for the time being. */
  finish(): void {
    this.close();
    this.settle(Number.POSITIVE_INFINITY as Instant);
  }

  /** Line time of the newest that came; undefined before the first. */
  get moment(): Instant | undefined {
    return this.moments.at(-1);
  }

  /** How many changes of the tape had come by a moment. */
  positionAt(moment: Instant): number {
    const place = firstAfter(this.moments, moment);
    return this.positions[place] ?? this.end;
  }

  /** Position after all that lies at a moment or before it, but for what came late: it came then, or with what came next. */
  positionBeyond(moment: Instant): number {
    return this.positions[firstAfter(this.moments, moment) + 1] ?? this.end;
  }

  /** When the change before a position came: the moment from which on a screen showed it. */
  momentOf(position: number): Instant | undefined {
    return this.moments[firstAfter(this.positions, position - 1) - 1];
  }

  /** What came late, at a position or after it, and is not later than a moment. */
  lateAt(moment: Instant, position: number): readonly Change[] {
    return this.late.flatMap((late) =>
      late.position >= position && late.change.at <= moment ? [late.change] : [],
    );
  }

  private close(): void {
    const { batch } = this;
    if (!batch) return;
    this.batch = undefined;
    if (batch.newest === undefined) {
      this.waiting.push(batch);
      return;
    }
    this.settle(batch.newest);
    this.come(batch, batch.newest);
    this.base = { at: batch.newest, received: batch.received };
  }

  private settle(next: Instant): void {
    const { base } = this;
    for (const batch of this.waiting) {
      const newest = batch.all.reduce((most: number, { change }) => Math.max(most, change.at), this.last);
      const moment = base ? base.at + Math.max(0, batch.received - base.received) : newest;
      this.come(batch, Math.min(next, moment) as Instant);
    }
    this.waiting = [];
  }

  private come({ all }: Batch, at: Instant): void {
    for (const late of all)
      if (late.change.at < this.last && late.change.at >= this.oldest) this.keepLate(late);
    const came = Math.max(this.last, at) as Instant;
    if (came === this.last) return;
    this.last = came;
    this.positions.push(all[0]!.position);
    this.moments.push(came);
  }

  private keepLate(late: Late): void {
    if (this.late.length < LATE_MOST) this.late.push(late);
    else this.whole = false;
  }
}

/** Place of the first number in an ascending list that is greater. */
function firstAfter(list: readonly number[], than: number): number {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (list[middle]! > than) high = middle;
    else low = middle + 1;
  }
  return low;
}
