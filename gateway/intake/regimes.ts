import { SECOND, type Instant, type Span } from '../../model/units/units.ts';

/** How exactly it is known when a clock was set, and by how much. */
const SLACK = (2 * SECOND) as Span;
/** Times that a clock was set which are remembered. */
const KEPT = 8;

/** A server's stamps are ahead of line time by so much, since a moment within a stretch of it. */
interface Regime {
  readonly after: Instant;
  readonly by: Instant;
  readonly ahead: Span;
}

const EVER = Number.NEGATIVE_INFINITY as Instant;

/**
 * Line time of a server whose clock is put back or forward while it is being heard: it goes on as if nobody had touched
 * the clock. A stamp may be from before or after; which it is, is told by what both would make of it.
 */
export class Regimes {
  /** Newest first. */
  private list: readonly Regime[] = [{ after: EVER, by: EVER, ahead: 0 as Span }];

  /** How far the server's clock is ahead of line time now. */
  get ahead(): Span {
    return this.list[0]!.ahead;
  }

  /** False while nobody has set the clock: then one line time is possible for each stamp. */
  get several(): boolean {
    return this.list.length > 1;
  }

  /** The clock was set, after one moment of line time and by another; it is ahead by `ahead` from then on. */
  begin(after: Instant, by: Instant, ahead: Span): void {
    if (ahead !== this.ahead) this.list = [{ after, by, ahead }, ...this.list].slice(0, KEPT);
  }

  /** Line time of a stamp that was given a moment ago. */
  recent(stamp: Instant, now: Instant): Instant {
    const far = (at: Instant) => Math.abs(at - now);
    return this.candidates(stamp).reduce((a, b) => (far(b) < far(a) ? b : a));
  }

  /**
   * Line time of a stamp of any age: one that is `known` already, else one that its own regime could have given by now,
   * the newest regime first.
   */
  any(stamp: Instant, now: Instant, known: (at: Instant) => boolean): Instant {
    const all = this.candidates(stamp);
    if (all.length === 1) return all[0]!;
    const fits = (at: Instant, place: number) => {
      const until = this.list[place - 1]?.by ?? now;
      return at >= this.list[place]!.after - SLACK && at <= until + SLACK;
    };
    return all.find(known) ?? all.find(fits) ?? all[0]!;
  }

  private candidates(stamp: Instant): readonly Instant[] {
    return this.list.map(({ ahead }) => (stamp - ahead) as Instant);
  }
}
