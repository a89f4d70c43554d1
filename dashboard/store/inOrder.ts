import type { EntryAnswer } from '../../model/view/protocol.ts';
import type { Sent } from './store.ts';

/** The gateway takes so many entries of a screen at once, and so many a minute; somewhat fewer are sent. */
const BURST = 15;
const PER_MINUTE = 25;

interface Ways {
  /** The oldest that waits; undefined when none does. */
  readonly first: () => Sent | undefined;
  readonly ready: () => boolean;
  /** `undefined`: nothing was answered in time, or the connection ended. */
  readonly offer: (sent: Sent, done: (answer: EntryAnswer | undefined) => void) => void;
  readonly answered: (id: string, answer: EntryAnswer) => void;
  readonly now: () => number;
  readonly later: (act: () => void, wait: number) => void;
}

/**
 * [SH6] Sends what is kept one after another, the oldest first: the next goes when the one before was answered. One without an
 * answer goes again under the same id, which the gateway takes once.
 */
export function sendsInOrder(ways: Ways) {
  let going: symbol | undefined;
  let left = BURST;
  let filled = ways.now();
  const count = () => {
    const at = ways.now();
    left = Math.min(BURST, left + ((at - filled) / 60_000) * PER_MINUTE);
    filled = at;
  };
  const go = () => {
    if (going !== undefined || !ways.ready()) return;
    const sent = ways.first();
    if (!sent) return;
    const own = Symbol(sent.entry.id);
    going = own;
    count();
    if (left < 1) {
      ways.later(() => ends(own), ((1 - left) * 60_000) / PER_MINUTE + 1);
      return;
    }
    left -= 1;
    ways.offer(sent, (answer) => {
      if (answer !== undefined) ways.answered(sent.entry.id, answer);
      ends(own);
    });
  };
  const ends = (own: symbol) => {
    if (going !== own) return;
    going = undefined;
    go();
  };
  return {
    go,
    /** On a new connection: what went on the one before is not answered any more. */
    anew: () => {
      going = undefined;
      go();
    },
    /** Another entry was sent beside them, which the gateway counts too. */
    counted: () => {
      count();
      left -= 1;
    },
  };
}
