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

/**
 * When each change of a stretch of tape came, in line time: what a screen of that moment showed is the fold of all that had
 * come by then. The PLC's newest stamp is the present; what comes late, or from people, came as much after the newest one as
 * the gateway's clock says, but not later than the next new one.
 */
export class Arrivals {
  private readonly isEntry: readonly boolean[];
  /** Positions at which line time moved on, and to which moment: of equal ones the first is kept. */
  private readonly positions: number[] = [];
  private readonly moments: Instant[] = [];
  private newest: { readonly at: Instant; readonly received: Instant } | undefined;
  /** What came since the newest one, late or from people: its moment is known with the next new one. */
  private waiting: Late[] = [];
  private last = Number.NEGATIVE_INFINITY as Instant;
  /** What came after its own moment, oldest first by position. */
  readonly late: Late[] = [];
  /** False where there were more of them than are held. */
  whole = true;
  end: number;

  constructor(line: Line, start: number) {
    this.isEntry = line.signals.map(({ role }) => role === 'entry');
    this.end = start;
  }

  /** Changes that follow on the tape; `position` is that of the first of them. */
  take(changes: readonly Change[], position: number): void {
    changes.forEach((change, place) => {
      const isNew = !this.isEntry[change.signal] && (!this.newest || change.at >= this.newest.at);
      if (!isNew) this.waiting.push({ position: position + place, change });
      else {
        this.settle(change.at);
        this.newest = change;
        this.come(position + place, change.at, change);
      }
    });
    this.end = position + changes.length;
  }

  /** Nothing follows for the time being. */
  finish(): void {
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

  /** When the change before a position came: the moment from which on a screen showed it. */
  momentOf(position: number): Instant | undefined {
    return this.moments[firstAfter(this.positions, position - 1) - 1];
  }

  /** What had not come by a moment and is not later than it. */
  lateAt(moment: Instant, position: number): readonly Late[] {
    return this.late.filter((late) => late.position >= position && late.change.at <= moment);
  }

  private settle(next: Instant): void {
    for (const { position, change } of this.waiting) {
      const base = this.newest;
      const after = base ? base.at + Math.max(0, change.received - base.received) : change.at;
      this.come(position, Math.min(next, Math.max(after, change.at)) as Instant, change);
    }
    this.waiting = [];
  }

  private come(position: number, at: Instant, change: Change): void {
    const moment = Math.max(this.last, at) as Instant;
    if (change.at < moment) this.keepLate({ position, change });
    if (moment === this.last) return;
    this.last = moment;
    this.positions.push(position);
    this.moments.push(moment);
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
