import type { Tape } from '../../../gateway/tape/tape.ts';
import type { Line } from '../../../model/line/line.ts';
import type { Change } from '../../../model/signals/signals.ts';
import type { ReplayTape } from '../../../model/replay/replay.ts';

/** A gateway's own tape as a replay reads it, where it has no signal that the line has not. */
export function replayTape(tape: Tape, line: Line): ReplayTape {
  return {
    begin: (id) => tape.begin(id),
    end: (id) => tape.end(id),
    read: (id, from, to) => tape.read(id, from, to),
    nearest: (id, position, version) => tape.nearest(id, position, version),
    async *aligned(begin, to) {
      let from = Math.max(begin, tape.begin(line.id));
      for await (const changes of tape.read(line.id, from, to)) {
        const next = from + changes.length;
        yield { from, next, changes };
        from = next;
      }
    },
    laterThan: async (from, at) => {
      const found: Change[] = [];
      for await (const changes of tape.read(line.id, from, tape.end(line.id)))
        for (const change of changes)
          if (change.at <= at || line.signals[change.signal]!.role === 'link') found.push(change);
      return found;
    },
  };
}
