import { createHash } from 'node:crypto';
import type { Change, Value } from '../../model/signals/signals.ts';

/** Changes told to the hash at one go. */
const AT_ONCE = 2000;

/**
 * What a line's tape holds, as one number: SHA-256 over its changes in order of arrival, each a line of text: the signal's
 * id, line time and time of receipt in ticks, status, and the value as JSON has it, with tabs between; a piece that cannot be read is a line that says how many changes it had. How it is stored,
 * cut and numbered does not count, and neither does where it begins: so it is the same on another machine.
 */
export class ContentHash {
  private readonly hash = createHash('sha256');
  private readonly signals: readonly string[];
  changes = 0;

  /** `signals`: ids by the numbers that the changes bear. */
  constructor(signals: readonly string[]) {
    this.signals = signals;
  }

  add(changes: readonly Change[]): void {
    for (let place = 0; place < changes.length; place += AT_ONCE) {
      let text = '';
      for (const { signal, at, received, status, value } of changes.slice(place, place + AT_ONCE))
        text += `${this.signals[signal]}\t${at}\t${received}\t${status}\t${valueText(value)}\n`;
      this.hash.update(text);
    }
    this.changes += changes.length;
  }

  /** So many changes are on the disk and cannot be read. */
  addUnread(count: number): void {
    this.hash.update(`unread\t${count}\n`);
    this.changes += count;
  }

  /** In hexadecimal; nothing can be added after. */
  end(): string {
    return this.hash.digest('hex');
  }
}

/** Numbers that JSON has no word for are written as JavaScript does, so that any two values differ. */
function valueText(value: Value): string {
  if (typeof value !== 'number') return JSON.stringify(value);
  return Object.is(value, -0) ? '-0' : String(value);
}
