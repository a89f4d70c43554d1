import type { Run } from '../../model/past/batches.ts';
import type { Instant } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';

/**
 * What each counter had counted by a moment: by the end of the last whole minute before it, or when a size or order began
 * since, which is kept exactly; and at the end of a stretch that goes on until now what it has counted by now.
 */
export function talliesOf(
  records: RecordsRead,
  live: LineRead,
  now: Instant,
): (at: Instant) => readonly number[] {
  const { tally, at: newest } = live.fold().state;
  const line = live.line.id;
  const goesOn = newest <= now;
  const known = new Map<Instant, readonly number[]>();
  const tallyAt = (at: Instant) => {
    const before = (at + 1) as Instant;
    const began = [records.last(line, 'size', before), records.last(line, 'order', before)];
    return [records.last(line, 'minute', before), ...began].reduce<Tallied | undefined>(
      (latest, one) =>
        one?.tally && one.at > (latest?.at ?? -1) ? { at: one.at, tally: one.tally } : latest,
      undefined,
    )?.tally;
  };
  return (at) => {
    if (goesOn && at >= newest) return tally;
    const found = known.get(at) ?? tallyAt(at) ?? [];
    known.set(at, found);
    return found;
  };
}

interface Tallied {
  readonly at: Instant;
  readonly tally: readonly number[];
}

/** Stretches of one size each, up to the end of what is asked. */
export function runsOf(
  records: RecordsRead,
  live: LineRead,
  { to, begun }: { readonly to: Instant; readonly begun: Instant },
): readonly (Run & { readonly size: string })[] {
  const sizes = records.ask({ line: live.line.id, kind: 'size', from: begun, to });
  return sizes.map(({ at, size }, place) => ({ from: at, to: sizes[place + 1]?.at ?? to, size }));
}
