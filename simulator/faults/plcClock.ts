import { after, epochMs, type Instant, type Span, TICKS_PER_MS } from '../../model/units/units.ts';
import { zoneOffset } from '../calendar/windows.ts';

/** The clock of a PLC that may be put forward or back, or be set to local time. */
export class PlcClock {
  private readonly zone: string;
  private stepped = 0;
  private local = false;
  /** A zone is asked once a minute of its time: its offset changes on whole minutes. */
  private asked = { minute: Number.NaN, offset: 0 };

  constructor(zone: string) {
    this.zone = zone;
  }

  step(by: Span): void {
    this.stepped += by;
  }

  beLocal(): void {
    this.local = true;
  }

  /** What it says at a moment, as a server sends it: local time is written as if it were UTC. */
  at(moment: Instant): Instant {
    const stepped = after(moment, this.stepped as Span);
    return this.local ? after(stepped, this.offsetAt(stepped)) : stepped;
  }

  private offsetAt(moment: Instant): Span {
    const ms = epochMs(moment);
    const minute = Math.floor(ms / 60_000);
    if (minute !== this.asked.minute) this.asked = { minute, offset: zoneOffset(ms, this.zone) };
    return (this.asked.offset * TICKS_PER_MS) as Span;
  }
}
