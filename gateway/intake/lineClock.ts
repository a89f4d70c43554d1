import { between, type Instant, millis, TICKS_PER_MS } from '../../model/units/units.ts';
import type { ClockReading, ClockWatch } from './clockWatch.ts';
import type { Connection, Message, RawValue } from './connection.ts';
import type { Recorder } from './recorder.ts';

export interface LineClockParts {
  readonly recorder: Recorder;
  readonly clocks: ClockWatch;
  readonly now: () => number;
  readonly say: (what: 'clockSet') => void;
}

/** A clock that was set counts as it is after an outage so many times as long as what it was set by. */
const OUTAGES_LONG = 10;
/** How far line time is ahead of our clock is written this often at most, and where it is off by more. Milliseconds. */
const LEAD_MS = 60_000;
const OFF_MS = 1000;

/** Keeps line time going evenly, whoever sets the clock that it is read from. */
export class LineClock {
  private readonly parts: LineClockParts;
  private leadAt = 0;

  constructor(parts: LineClockParts) {
    this.parts = parts;
  }

  /** Stamps on live values that do not agree with the server's clock: it is read, to see whether somebody set it. */
  async seeLive(message: Message, connection: Connection, after: Instant): Promise<void> {
    const { clocks, recorder } = this.parts;
    if (recorder.stamped && clocks.suspects(message, connection.publishingMs)) {
      const reading = await clocks.readServer(connection).catch(() => undefined);
      // this message may hold values from before the step and from after it: it does not tell how far the clock is off
      if (reading && this.read(reading, after)) return;
    }
    clocks.see(message);
  }

  /** True where the clock was set: `after` a moment of line time, which goes on as it was. */
  read(reading: ClockReading, after: Instant, beside?: readonly RawValue[]): boolean {
    const { clocks, recorder, say } = this.parts;
    const set = clocks.read(reading, beside);
    if (set === 0 || !recorder.stamped) return false;
    // the clock as it is now measured, less what it was set by
    const by = (recorder.lineNow(reading.answered.wall) - set * TICKS_PER_MS) as Instant;
    recorder.clockSet(after, by, set);
    say('clockSet');
    return true;
  }

  /**
   * A clock that was set in an outage was set in a time that nobody saw. One that had been set before counts as it is
   * once the outage was so long that it does not matter.
   */
  afterOutage(
    { clock, values }: { readonly clock: ClockReading; readonly values: readonly RawValue[] },
    after: Instant,
  ): void {
    const { recorder, now } = this.parts;
    this.read(clock, after, values);
    const at = recorder.lineNow(now());
    if (millis(between(after, at)) > OUTAGES_LONG * Math.abs(recorder.aheadMs)) recorder.clockTaken(at);
  }

  /**
   * By how much somebody set our own clock since the last look. Where the time of receipt stands for the values' own, it
   * is line time that must not follow; unless the server's clock says that this computer slept.
   */
  async seeOwn(lastHeard: number, connection: Connection | undefined): Promise<number> {
    const { clocks, recorder, say } = this.parts;
    const before = recorder.stamped ? undefined : recorder.lineNow(lastHeard);
    const by = clocks.ownSet();
    if (by === 0 || before === undefined) return by;
    const reading = connection && (await clocks.readServer(connection).catch(() => undefined));
    if (reading) clocks.read(reading);
    if (reading && clocks.slept) return by;
    recorder.clockSet(before, before, by);
    say('clockSet');
    return by;
  }

  /** A restart knows by the link's last word how far line time is ahead of our clock: it is to be near the truth. */
  async noteLead(received: number): Promise<void> {
    const { recorder } = this.parts;
    const off = Math.abs(recorder.leadMs(received) - recorder.leadTold);
    if (off < OFF_MS || received - this.leadAt < LEAD_MS) return;
    this.leadAt = received;
    await recorder.writeLink(true, recorder.lineNow(received), received);
  }
}
