/** A clock that is off by no more was not set: readings take their time. Milliseconds. */
const LEAST_MS = 2000;
/** A clock may be so much faster or slower than ours without having been set: a thousandth. */
const DRIFT = 0.001;
/** Two readings so far apart tell at what pace a clock runs. Milliseconds. */
const PACE_MS = 2000;
/** People and calendars set clocks by whole minutes or seconds: what is this near to one is one. Milliseconds. */
const WHOLE = [
  { unit: 60_000, near: 100 },
  { unit: 1000, near: 5 },
] as const;

interface Reading {
  readonly serverMs: number;
  readonly steadyMs: number;
}

/**
 * Whether a server's clock was set: read again and again, and held against a steady clock, one that nobody can set. A
 * simulated clock may run many times too fast; then it has to be off by more before it was set. Milliseconds throughout.
 */
export class ClockSteps {
  private last: Reading | undefined;
  /** Undefined until two readings told it. */
  private pace: number | undefined;
  private seeded = false;

  /** What an earlier run knew: at `steadyMs`, which may be long past, the server's clock was there. */
  seed(serverMs: number, steadyMs: number): void {
    if (this.last) return;
    this.last = { serverMs, steadyMs };
    this.pace = 1;
    this.seeded = true;
  }

  /**
   * By how much a stamp given just now, or at most `late` ago, disagrees with the clock as it was read last; 0 where it
   * agrees. It may be a value that its own server was late with, or a message that lay about: only a reading can tell.
   */
  wrongBy(serverMs: number, steadyMs: number, late: number): number {
    if (!this.last || this.pace === undefined) return 0;
    const off = this.off(serverMs, steadyMs, this.pace);
    const most = this.tolerance(steadyMs, this.pace);
    return off > most || off < -most - late * this.pace ? off : 0;
  }

  /**
   * A reading. By how much the clock was set since the one before; 0 where it was not. What an earlier run knew was made
   * of stamps: it is held against a reading only where the values read with it `agree` with it. `doubt`: the reading may be off by so much, as it was long under way.
   */
  read(serverMs: number, steadyMs: number, agree = true, doubt = 0): number {
    if (this.seeded && !agree) this.last = undefined;
    this.seeded = false;
    const { last } = this;
    this.pace ??= last && paceOf(last, serverMs, steadyMs);
    if (last && steadyMs <= last.steadyMs) return 0;
    const off = last && this.pace !== undefined ? this.off(serverMs, steadyMs, this.pace) : 0;
    const set = last !== undefined && Math.abs(off) > this.tolerance(steadyMs, this.pace ?? 1) + doubt;
    // a pace is told by readings that are far enough apart
    if (!last || this.pace !== undefined || set) this.last = { serverMs, steadyMs };
    return set ? nearWhole(off) : 0;
  }

  private off(serverMs: number, steadyMs: number, pace: number): number {
    const { last } = this;
    return last ? serverMs - (last.serverMs + (steadyMs - last.steadyMs) * pace) : 0;
  }

  private tolerance(steadyMs: number, pace: number): number {
    const passed = steadyMs - (this.last?.steadyMs ?? steadyMs);
    // a clock at many times our own pace comes in bursts
    return pace === 1 ? LEAST_MS + passed * DRIFT : pace * (5 * LEAST_MS + passed * 0.2);
  }
}

/** Undefined while it cannot be told. */
function paceOf(last: Reading, serverMs: number, steadyMs: number): number | undefined {
  const passed = steadyMs - last.steadyMs;
  if (passed < PACE_MS) return undefined;
  const pace = (serverMs - last.serverMs) / passed;
  if (Math.abs(pace - 1) < 0.1) return 1;
  // what no simulated clock does, a clock did that was set meanwhile
  return pace > 0.05 && pace < 20 ? pace : 1;
}

function nearWhole(ms: number): number {
  for (const { unit, near } of WHOLE) {
    const whole = Math.round(ms / unit) * unit;
    if (Math.abs(ms - whole) <= near) return whole;
  }
  return Math.round(ms);
}
