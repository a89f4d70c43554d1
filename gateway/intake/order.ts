import type { Message } from './connection.ts';
import { byNumber } from './sequence.ts';

/** A message, and by when the server had sent it. Milliseconds since 1970, our clock. */
export interface Sent {
  readonly message: Message;
  readonly by: number;
}

export interface InOrder {
  readonly before: readonly Sent[];
  /** By when the reading's values were so. */
  readonly readBy: number;
  readonly after: readonly Sent[];
}

/**
 * Messages in the order in which the server numbered them, before and after a reading of every tag: what came `since` it
 * was asked for may have been numbered before what had come by then. What the server numbered lower it had sent before
 * what it numbered higher, so where the time of receipt stands for a value's own time, that of a message which came after
 * a higher one is the higher one's.
 */
export function inOrder(messages: readonly Message[], since: readonly Message[], readAt: number): InOrder {
  const last = [...messages].sort(asNumbered).at(-1);
  const all = [...messages, ...since].sort(asNumbered);
  const place = last ? all.indexOf(last) + 1 : 0;
  let by = Number.POSITIVE_INFINITY;
  const sent = (message: Message): Sent => {
    by = Math.min(by, message.received);
    return { message, by };
  };
  const after = all.slice(place).reverse().map(sent).reverse();
  by = Math.min(by, readAt);
  const readBy = by;
  const before = all.slice(0, place).reverse().map(sent).reverse();
  return { before, readBy, after };
}

function asNumbered(a: Message, b: Message): number {
  return a.life - b.life || byNumber(a.number, b.number);
}
