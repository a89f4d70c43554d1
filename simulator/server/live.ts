import { after, type Instant, instantFromMs, type Span, TICKS_PER_MS } from '../../model/units/units.ts';
import type { LedgerEntry } from '../ledger/entries.ts';
import { type Machine, nextAt, runUntil, takeEntries } from '../machine/machine.ts';
import type { PlcFact } from '../machine/plc.ts';

/** Wall clock and timer, so that a test may bring its own. */
export interface Clock {
  /** Milliseconds since 1970, fractions allowed. */
  now(): number;
  sleep(ms: number, stopped: AbortSignal): Promise<void>;
}

/** Machine time against wall time: `at` when the wall clock said `wall`, then `speed` times as fast. */
export interface Pace {
  readonly at: Instant;
  readonly wall: number;
  readonly speed: number;
}

/** Machine time at a reading of the wall clock. */
export function machineTime(pace: Pace, wall: number): Instant {
  return after(pace.at, Math.round((wall - pace.wall) * pace.speed * TICKS_PER_MS) as Span);
}

export interface Listener {
  /** What the machine's PLC told before `until`. */
  tell(facts: readonly PlcFact[], until: Instant): Promise<void>;
  note(entries: readonly LedgerEntry[]): Promise<void>;
  /** When it is to be told the time at the latest, though the machine does nothing. */
  due?(): Instant | undefined;
}

const longestSleep = 250;

/** Runs the machine by the clock until it is stopped: each scan is told as soon as its moment has come. */
export async function runLive(
  machine: Machine,
  pace: Pace,
  clock: Clock,
  listener: Listener,
  stopped: AbortSignal,
): Promise<void> {
  while (!stopped.aborted) {
    const until = machineTime(pace, clock.now());
    await listener.tell(runUntil(machine, until), until);
    await listener.note(takeEntries(machine));
    const next = Math.min(nextAt(machine), listener.due?.() ?? Number.POSITIVE_INFINITY);
    const ahead = (next - machineTime(pace, clock.now())) / TICKS_PER_MS / pace.speed;
    await clock.sleep(Math.min(longestSleep, Math.max(1, ahead)), stopped);
  }
}

/** The computer's own clock. */
export const systemClock: Clock = {
  now: () => performance.timeOrigin + performance.now(),
  sleep: (ms, stopped) =>
    new Promise((resolve) => {
      const done = () => {
        clearTimeout(timer);
        stopped.removeEventListener('abort', done);
        resolve();
      };
      const timer = setTimeout(done, ms);
      stopped.addEventListener('abort', done);
    }),
};

/** The present moment on the wall clock, as machine time counts. */
export function wallInstant(clock: Clock): Instant {
  return instantFromMs(clock.now());
}
