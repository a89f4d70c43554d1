import { COUNTED } from '../counters/counters.ts';
import type { Signal } from '../signals/signals.ts';
import { ms, type Seen } from './seen.ts';
import type { CounterMarked } from './matter.ts';

const MARKS = ['reset', 'set', 'implausible', 'correction'] as const;

/** [CO3] [CO4] Counters that began again, jumped or went back this shift: one matter for each of these, by its newest. */
export function countersView({ state, index }: Seen): CounterMarked[] {
  const from = state.shift.shift?.from ?? state.shift.from;
  const marks = state.counterMarks.filter(({ at }) => at >= from);
  return MARKS.flatMap((mark) => {
    const same = marks.filter((one) => one.mark === mark);
    const newest = same.at(-1);
    if (!newest) return [];
    const signal = index.line.signals[newest.signal]!;
    const counts = COUNTED.find((role) => role === signal.role)!;
    const of = ownerOf(index.line, signal);
    return [{ kind: 'counterReset', mark, counts, of, at: ms(newest.at), times: same.length }];
  });
}

/** Name of what a counter belongs to; undefined where it counts for the whole line. */
function ownerOf({ stations, rejects, devices, loading }: Seen['index']['line'], { of }: Signal) {
  return [...rejects, ...loading.positions, ...stations, ...devices].find(({ id }) => id === of)?.name;
}
