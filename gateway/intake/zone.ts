import { zoneOffset } from '../../model/calendar/calendar.ts';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** Turns wall-clock readings of one zone, written as if they were UTC, into UTC. Milliseconds since 1970, both ways. */
export class LocalClock {
  private readonly zone: string;
  /** Local minus UTC by minute; a whole day of them is kept at most. */
  private readonly offsets = new Map<number, number>();

  constructor(zone: string) {
    this.zone = zone;
  }

  /**
   * A reading that exists twice, when the clock is put back, is taken as the one nearer to `near` (when it was received);
   * one that does not exist is moved on by the clock's jump.
   */
  toUtc(localMs: number, near: number): number {
    const before = localMs - this.offsetMs(localMs - DAY_MS);
    const after = localMs - this.offsetMs(localMs + DAY_MS);
    const real = [before, after].filter((utc) => utc + this.offsetMs(utc) === localMs);
    const [first = before, second = first] = real;
    return Math.abs(first - near) <= Math.abs(second - near) ? first : second;
  }

  private offsetMs(utcMs: number): number {
    const minute = Math.floor(utcMs / MINUTE_MS);
    let offset = this.offsets.get(minute);
    if (offset === undefined) {
      if (this.offsets.size >= 1440) this.offsets.clear();
      offset = zoneOffset(minute * MINUTE_MS, this.zone);
      this.offsets.set(minute, offset);
    }
    return offset;
  }
}
