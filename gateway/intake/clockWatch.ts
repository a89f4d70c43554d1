import type { Connection, Message, RawValue } from './connection.ts';
import { ClockSteps } from './clockSteps.ts';
import type { LineTime } from './lineTime.ts';
import { AGREE_MS, type ClockOffset } from './offset.ts';

/** A server's clock as it was read: what it said, in UTC, and when it was asked and had answered by our own clocks. */
export interface ClockReading {
  readonly serverMs: number;
  readonly asked: Now;
  readonly answered: Now;
}

/** Our clock, milliseconds since 1970, and one that runs evenly and that nobody sets. Milliseconds. */
export interface Now {
  readonly wall: number;
  readonly steady: number;
}

export interface ClockWatchParts {
  readonly offset: ClockOffset;
  readonly time: LineTime;
  readonly now: () => Now;
}

/** What a reading has just disproved is not suspected again for so long, nor what is off by nearly as much. Milliseconds. */
const DISPROVED_MS = 1000;
const ALIKE_MS = 1000;
/** So many suspicions are looked into in that time at most: each costs the server a reading. */
const LOOKS_MOST = 4;
/** So far apart our two clocks may be read. Milliseconds. */
const OWN_MS = 1000;

/**
 * Watches two clocks that somebody may set: the server's, by reading it and by the stamps on live values, and our own, by
 * the steady one. By how much one was set is told in milliseconds; 0 where it was not.
 */
export class ClockWatch {
  private readonly parts: ClockWatchParts;
  private readonly steps = new ClockSteps();
  private own: Now;
  /** By how much our own clock was set since the server's was read. */
  private ownSince = 0;
  /** The last reading told that this computer had slept before it, and nobody had set a clock. */
  slept = false;
  /** Suspicions that were looked into, the oldest first. */
  private looks: readonly { readonly at: number; readonly off: number }[] = [];

  constructor(parts: ClockWatchParts) {
    this.parts = parts;
    this.own = parts.now();
  }

  /** What an earlier run knew: at line time `thenMs`, its newest, line time was `aheadMs` ahead of our clock. */
  seed(thenMs: number, aheadMs: number): void {
    const { wall, steady } = this.parts.now();
    this.steps.seed(thenMs, steady - Math.max(0, wall + aheadMs - thenMs));
  }

  /** By how much our own clock was set since it was asked last. */
  ownSet(): number {
    const now = this.parts.now();
    const by = now.wall - this.own.wall - (now.steady - this.own.steady);
    this.own = now;
    if (Math.abs(by) < OWN_MS) return 0;
    this.parts.offset.ownSet(by);
    this.ownSince += by;
    return by;
  }

  /** Reads the server's clock. Throws where it cannot be asked. */
  async readServer(connection: Connection): Promise<ClockReading> {
    const asked = this.parts.now();
    const server = await connection.serverClock();
    const answered = this.parts.now();
    return { serverMs: this.parts.time.utcMs(server, answered.wall), asked, answered };
  }

  /** The server's clock was read; `beside` are values that were read with it. */
  read({ serverMs, asked, answered }: ClockReading, beside?: readonly RawValue[]): number {
    const newest = beside && newestOf(beside);
    const agree =
      beside === undefined ||
      (newest !== undefined && Math.abs(this.parts.time.utcMs(newest, answered.wall) - serverMs) <= AGREE_MS);
    const doubt = (answered.steady - asked.steady) / 2;
    const moved = this.steps.read(serverMs, asked.steady + doubt, agree, doubt);
    // where both clocks moved alike it is the steady one that stood: this computer slept
    const slept = this.ownSince !== 0 && Math.abs(moved - this.ownSince) <= AGREE_MS;
    const set = slept ? 0 : moved;
    this.slept = slept;
    this.ownSince = 0;
    if (set !== 0) this.parts.offset.forget();
    this.parts.offset.clockRead(serverMs, asked.wall, answered.wall);
    return set;
  }

  /**
   * True where the stamps on live values do not agree with the server's clock as it was read last: it is to be read. A
   * module that always stamps wrongly is looked into now and then, and does not hide a clock that is set meanwhile.
   */
  suspects(message: Message, late: number): boolean {
    const { steady } = this.parts.now();
    this.looks = this.looks.filter(({ at }) => steady - at < DISPROVED_MS);
    if (this.looks.length >= LOOKS_MOST) return false;
    // one publish may hold values from before a step and from after it
    for (const { serverMs } of message.values()) {
      const off = serverMs === undefined ? 0 : this.offBy(serverMs, message.received, steady, late);
      if (off === 0 || this.looks.some((look) => Math.abs(look.off - off) < ALIKE_MS)) continue;
      this.looks = [...this.looks, { at: steady, off }];
      return true;
    }
    return false;
  }

  private offBy(serverMs: number, received: number, steady: number, late: number): number {
    const { time, offset } = this.parts;
    return this.steps.wrongBy(time.utcMs(serverMs, received) - offset.apart, steady, late);
  }

  /** The server's clock as its stamps on live values show it. */
  see(message: Message): void {
    const newest = newestOf(message.values());
    if (newest === undefined) return;
    this.parts.offset.stamped(this.parts.time.utcMs(newest, message.received), message.received);
  }
}

function newestOf(values: readonly RawValue[]): number | undefined {
  let newest: number | undefined;
  for (const { serverMs } of values) {
    if (serverMs !== undefined && (newest === undefined || serverMs > newest)) newest = serverMs;
  }
  return newest;
}
