/** What the watchdog looks at; moments by `performance.now()`. */
export interface Seen {
  readonly live: boolean;
  readonly now: number;
  /** Newest message of the subscription, keep-alives included. */
  readonly lastMessage: number;
  /** Newest answer of the server to any request. */
  readonly lastAnswer: number;
  /** The subscription's keep-alive time and lifetime as revised by the server. Milliseconds. */
  readonly keepAliveMs: number;
  readonly lifetimeMs: number;
}

/** Two looks further apart than this mean that our own process stood still: silence then says nothing. Milliseconds. */
const STALLED_MS = 2000;
/** Grace beyond two keep-alives, for a busy computer. Milliseconds. */
const GRACE_MS = 1000;

/**
 * Judges a connection from outside, whatever the client believes of itself.
 * - `silent`: neither data nor keep-alive for longer than two keep-alives: the link is lost, and has to be told.
 * - `wedged`: the server answers again, but for too long no data came back with it (a client that asks Republish in a
 *   loop, or that no longer publishes), or the subscription has outlived its life, so that there is nothing left to save:
 *   the client is to be replaced.
 * Both faults of the library that are known to lead here, an empty Republish answer taken for a message and a keep-alive's
 * number taken for a received one, are mended in client.ts; the watchdog is for those that are not known.
 */
export class Watchdog {
  private readonly wedgedMs: number;
  private looked = 0;
  private excused = 0;
  private apartSince: number | undefined;
  private answeringSince: number | undefined;

  constructor(wedgedMs: number) {
    this.wedgedMs = wedgedMs;
  }

  /** The link was lost again, or another client is there: what was seen so far does not count. */
  restart(): void {
    this.apartSince = undefined;
    this.answeringSince = undefined;
  }

  look(seen: Seen): 'fine' | 'silent' | 'wedged' {
    const { now } = seen;
    if (now - this.looked > STALLED_MS) this.excused = now;
    this.looked = now;
    if (seen.live) {
      this.restart();
      const silence = now - Math.max(seen.lastMessage, this.excused);
      return silence > 2 * seen.keepAliveMs + GRACE_MS ? 'silent' : 'fine';
    }
    this.apartSince ??= now;
    if (seen.lastAnswer > this.apartSince) this.answeringSince ??= now;
    const answered =
      this.answeringSince === undefined ? 0 : now - Math.max(this.answeringSince, this.excused);
    const wedged = answered > Math.max(this.wedgedMs, 3 * seen.keepAliveMs);
    return wedged || now - this.apartSince > seen.lifetimeMs + this.wedgedMs ? 'wedged' : 'fine';
  }
}
