import type { ClockReading } from './clockWatch.ts';
import type { Happening, Message } from './connection.ts';

/** What waits to be worked off, in the order in which it happened; a tick is our own timer's. */
export type Waiting =
  | Happening
  | { readonly kind: 'clock'; readonly reading: ClockReading }
  | { readonly kind: 'tick' }
  | { readonly kind: 'stop' };

/**
 * The one queue between a connection, which tells at any time, and the loop that works off one thing after another. It
 * is bounded from outside: whoever fills it looks at `size` and stops asking for more.
 */
export class Inbox {
  private waiting: Waiting[] = [];
  private values = 0;
  private wake: (() => void) | undefined;

  /** Values that wait. */
  get size(): number {
    return this.values;
  }

  push(one: Waiting): void {
    if (one.kind === 'tick' && this.waiting.length > 0) return;
    this.waiting.push(one);
    if (one.kind === 'message') this.values += one.size;
    this.wake?.();
  }

  async next(): Promise<Waiting> {
    while (this.waiting.length === 0) {
      await new Promise<void>((resolve) => {
        this.wake = resolve;
      });
    }
    this.wake = undefined;
    const one = this.waiting.shift()!;
    if (one.kind === 'message') this.values -= one.size;
    return one;
  }

  /** The messages that wait before anything else does. */
  messages(): Message[] {
    const end = this.waiting.findIndex(({ kind }) => kind !== 'message');
    const taken = this.waiting.splice(0, end < 0 ? this.waiting.length : end) as Message[];
    this.values -= taken.reduce((sum, message) => sum + message.size, 0);
    return taken;
  }

  /** True when the link was lost after what has been worked off. */
  get broken(): boolean {
    return this.waiting.some(({ kind }) => kind === 'lost' || kind === 'dead');
  }
}
