import { epochMs } from '../../model/units/units.ts';
import type { Tape } from '../tape/tape.ts';
import { damageTrouble } from '../tape/unread.ts';
import type { UnreadRow } from './schemas.ts';

/** What of a line's tape is known to be damaged: where, when, and what can be done. */
export function unreadRows(tape: Tape, line: string): UnreadRow[] {
  return tape.damages(line).map((damage) => {
    const { positions, at } = damage;
    const { message: what, why, mend } = damageTrouble(line, damage);
    const time = at ? { from: epochMs(at.from), to: epochMs(at.to) } : null;
    return { ...positions, at: time, trouble: { what, why, mend } };
  });
}
