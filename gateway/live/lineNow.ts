import type { Line } from '../../model/line/line.ts';
import type { Change } from '../../model/signals/signals.ts';
import { epochMs, type Instant, instantFromMs } from '../../model/units/units.ts';
import type { Tape } from '../tape/tape.ts';

export interface LineNowParts {
  readonly line: Line;
  /** The gateway's clock, milliseconds since 1970. */
  readonly now: () => number;
  /** How many times faster than that clock the line's own time passes. */
  readonly speed: number;
}

/** Where a line resumes, so many changes are looked through for the newest of its PLC's. */
const LOOK_BACK = 5000;

/** Line time now: it goes on from the newest moment heard, by the gateway's own clock; the PLC's may be set otherwise. */
export class LineNow {
  private readonly parts: LineNowParts;
  private heard: { readonly at: Instant; readonly wall: number } | undefined;

  constructor(parts: LineNowParts) {
    this.parts = parts;
  }

  now(): Instant {
    const { now, speed } = this.parts;
    if (!this.heard) return instantFromMs(now());
    const since = Math.max(0, now() - this.heard.wall) * speed;
    return (this.heard.at + Math.round(since * 10_000)) as Instant;
  }

  /** What was heard, by a state that ends at a position of the tape. */
  async resume(heardAt: Instant, tape: Tape, position: number): Promise<void> {
    if (heardAt >= 0) this.heard = { at: heardAt, wall: await this.wallOf(heardAt, tape, position) };
  }

  /** Changes came, and with them the line was heard at a moment. */
  hear(heardAt: Instant, changes: readonly Change[]): void {
    if (heardAt >= 0 && this.tellsOfNow(heardAt, changes))
      this.heard = { at: heardAt, wall: this.parts.now() };
  }

  /**
   * What comes late says nothing of the present: time goes on from what was the newest before it. A link that is made is
   * heard now, even where the PLC's stamps are ahead of the link's own.
   */
  private tellsOfNow(heardAt: Instant, changes: readonly Change[]): boolean {
    const { signals } = this.parts.line;
    if (changes.some(({ signal, value }) => signals[signal]!.role === 'link' && value !== false)) return true;
    const fromPlc = changes.some(({ signal }) => signals[signal]!.server !== '');
    return fromPlc && heardAt !== this.heard?.at;
  }

  /** When a moment was heard, by the gateway's clock: the PLC's may be set to anything. */
  private async wallOf(at: Instant, tape: Tape, position: number): Promise<number> {
    const { line, speed, now } = this.parts;
    if (speed !== 1) return now();
    let wall = epochMs(at) as number;
    for await (const changes of tape.read(line.id, position - LOOK_BACK, position))
      for (const change of changes) if (change.at === at) wall = epochMs(change.received);
    return wall;
  }
}
