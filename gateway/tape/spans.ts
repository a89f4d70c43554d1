import type { Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';

/** Line time of what is entered before anything was heard, as the PLC's clock may be set to anything: no moment of the line's. */
export const BEFORE_ALL = 1 as Instant;

/** Least and greatest of some moments. */
export interface Span {
  readonly least: Instant;
  readonly most: Instant;
}

/** When changes happened and when they were received, as they come; without any it is undefined. */
export class Spans {
  private atLeast = Number.POSITIVE_INFINITY;
  private atMost = Number.NEGATIVE_INFINITY;
  private receivedLeast = Number.POSITIVE_INFINITY;
  private receivedMost = Number.NEGATIVE_INFINITY;

  add(changes: readonly Change[]): this {
    for (const { at, received } of changes) {
      if (at < this.atLeast) this.atLeast = at;
      if (at > this.atMost) this.atMost = at;
      if (received < this.receivedLeast) this.receivedLeast = received;
      if (received > this.receivedMost) this.receivedMost = received;
    }
    return this;
  }

  get at(): Span | undefined {
    return spanOf(this.atLeast, this.atMost);
  }

  get received(): Span | undefined {
    return spanOf(this.receivedLeast, this.receivedMost);
  }
}

function spanOf(least: number, most: number): Span | undefined {
  return least <= most ? { least: least as Instant, most: most as Instant } : undefined;
}
