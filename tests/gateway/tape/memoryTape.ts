import { seal } from '../../../gateway/tape/segments.ts';
import { Spans } from '../../../gateway/tape/spans.ts';
import type { Checkpoint, Tape } from '../../../gateway/tape/tape.ts';
import type { Change, Signal } from '../../../model/signals/signals.ts';

interface Stored {
  readonly id: string;
  readonly change: Change;
}

/** What stays when a tape in memory is closed, so that it can be opened again. */
export class Memory {
  readonly changes = new Map<string, Stored[]>();
  readonly checkpoints = new Map<string, Checkpoint[]>();
  /** Of a history that is being brought in. */
  readonly checkpointsBefore = new Map<string, Checkpoint[]>();
  /** The tape's own number of each signal, by line and id. */
  readonly numbers = new Map<string, Map<string, number>>();
  /** Changes that were brought in before the others. */
  readonly before = new Map<string, number>();
}

/** The smallest engine there can be: the contract says what a tape is, not how SQLite does it. */
export function openMemoryTape(memory: Memory, lines: ReadonlyMap<string, readonly Signal[]>): Tape {
  const followers = new Set<{ line: string; told: number; tell: (position: number) => void }>();
  const stored = (line: string) => {
    const list = memory.changes.get(line) ?? [];
    memory.changes.set(line, list);
    return list;
  };
  const numbersOf = (line: string) => {
    const numbers = memory.numbers.get(line) ?? new Map<string, number>();
    memory.numbers.set(line, numbers);
    for (const { id } of lines.get(line)!) if (!numbers.has(id)) numbers.set(id, numbers.size);
    return numbers;
  };
  /** All of it is one open piece. */
  const bytesOf = (line: string) => {
    const numbers = numbersOf(line);
    return seal(stored(line).map(({ id, change }) => ({ ...change, signal: numbers.get(id)! })));
  };
  const endOf = (line: string) => stored(line).length - (memory.before.get(line) ?? 0);
  const tellAll = () =>
    queueMicrotask(() => {
      for (const follower of [...followers]) {
        const end = endOf(follower.line);
        if (follower.told >= end || !followers.has(follower)) continue;
        follower.told = end;
        follower.tell(end);
      }
    });
  const append = async (line: string, changes: readonly Change[]) => {
    const ids = lines.get(line)!;
    for (const change of changes) stored(line).push({ id: ids[change.signal]!.id, change });
    tellAll();
    return endOf(line);
  };
  return {
    append,
    async *read(line, from, to) {
      for await (const { changes } of this.placed(line, from, to)) if (changes.length > 0) yield changes;
    },
    async *placed(line, from, to) {
      const places = new Map(lines.get(line)!.map(({ id, index }) => [id, index]));
      const begin = 0 - (memory.before.get(line) ?? 0);
      const until = Math.min(to, stored(line).length + begin);
      for (let start = Math.max(begin, from); start < until; start += 100) {
        const next = Math.min(until, start + 100);
        const kept = stored(line)
          .slice(start - begin, next - begin)
          .map(({ id, change }, place) => ({ id, change, position: start + place }))
          .filter(({ id }) => places.has(id));
        const changes = kept.map(({ id, change }) => ({ ...change, signal: places.get(id)! }));
        yield { changes, from: start, next, positions: kept.map(({ position }) => position) };
      }
    },
    begin: (line) => 0 - (memory.before.get(line) ?? 0),
    end: (line) => endOf(line),
    pieces(line, from, to) {
      const start = 0 - (memory.before.get(line) ?? 0);
      const { length: count } = stored(line);
      if (count === 0 || from >= to || from >= start + count || to <= start) return [];
      const { at, received } = new Spans().add(stored(line).map(({ change }) => change));
      return [{ start, count, sealed: false, at, received, bytes: bytesOf(line).length }];
    },
    pieceBytes: (line, start) =>
      stored(line).length > 0 && start === 0 - (memory.before.get(line) ?? 0) ? bytesOf(line) : undefined,
    numbersOf(line) {
      const numbers = numbersOf(line);
      return new Map(lines.get(line)!.map(({ id, index }) => [numbers.get(id)!, index]));
    },
    follow(line, after, tell) {
      const follower = { line, told: after, tell };
      followers.add(follower);
      tellAll();
      return () => followers.delete(follower);
    },
    async keep(line, checkpoint) {
      const others = (memory.checkpoints.get(line) ?? []).filter(
        ({ position, version, passing }) =>
          !(passing && position <= checkpoint.position) &&
          (position !== checkpoint.position || version !== checkpoint.version),
      );
      memory.checkpoints.set(line, [...others, checkpoint]);
    },
    async keepBefore(line, checkpoint) {
      memory.checkpointsBefore.set(line, [...(memory.checkpointsBefore.get(line) ?? []), checkpoint]);
    },
    async keepOnly(line, version) {
      const kept = memory.checkpoints.get(line) ?? [];
      memory.checkpoints.set(
        line,
        kept.filter((one) => one.version === version),
      );
    },
    damages: () => [],
    standInBytes: () => undefined,
    nearest(line, position, version) {
      const fitting = (memory.checkpoints.get(line) ?? [])
        .filter((kept) => kept.version === version && kept.position <= position)
        .sort((a, b) => b.position - a.position);
      return fitting[0] && { position: fitting[0].position, body: fitting[0].body };
    },
    checkpoints: (line, version, from, to) =>
      (memory.checkpoints.get(line) ?? [])
        .filter((kept) => kept.version === version && kept.position >= from && kept.position < to)
        .map(({ position }) => position)
        .sort((a, b) => a - b),
    dropBefore() {
      throw new Error('a tape in memory keeps all');
    },
    async importSealed(line, chunks) {
      for await (const changes of chunks) await append(line, changes);
      return endOf(line);
    },
    async importBefore(line, chunks, check = async () => {}) {
      const ids = lines.get(line)!;
      const before: Stored[] = [];
      memory.checkpointsBefore.delete(line);
      for await (const changes of chunks)
        for (const change of changes) before.push({ id: ids[change.signal]!.id, change });
      await check({ number: -1, count: before.length });
      memory.changes.set(line, [...before, ...stored(line)]);
      const begin = -before.length - (memory.before.get(line) ?? 0);
      memory.before.set(line, -begin);
      const kept = memory.checkpointsBefore.get(line) ?? [];
      memory.checkpoints.set(
        line,
        kept.map((one) => ({ ...one, position: one.position + begin })),
      );
      return begin;
    },
    async close() {
      followers.clear();
    },
  };
}
