import type { OutboxClock } from '../../../gateway/notices/outboxBounds.ts';
import { AT } from './parcels.ts';

/** Time that goes on only when it is told to. */
export class TestClock implements OutboxClock {
  wall = AT;
  private steadyMs = 0;
  private readonly timers = new Set<{ readonly at: number; readonly act: () => void }>();

  now = () => this.wall;
  steady = () => this.steadyMs;
  chance = () => 1;
  later = (ms: number, act: () => void) => {
    const timer = { at: this.steadyMs + ms, act };
    this.timers.add(timer);
    return () => void this.timers.delete(timer);
  };

  /** Lets time go on, timer by timer, and whatever follows from each before the next. */
  async pass(ms: number): Promise<void> {
    const end = this.steadyMs + ms;
    for (;;) {
      await quiet();
      const [next] = [...this.timers].filter(({ at }) => at <= end).sort((a, b) => a.at - b.at);
      if (next === undefined) break;
      this.timers.delete(next);
      this.moveTo(Math.max(this.steadyMs, next.at));
      next.act();
    }
    this.moveTo(end);
  }

  private moveTo(at: number): void {
    this.wall += at - this.steadyMs;
    this.steadyMs = at;
  }
}

/** Until nothing is left to be done without time going on. */
async function quiet(): Promise<void> {
  for (let round = 0; round < 5; round += 1) await new Promise((resolve) => setImmediate(resolve));
}
