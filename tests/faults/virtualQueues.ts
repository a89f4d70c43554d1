import { after, type Instant, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { ToldValue } from '../../simulator/faults/cells.ts';
import { Underway } from '../../simulator/faults/underway.ts';

/** A value in a queue; `overflow`: it tells that some before it were dropped. */
export interface Queued {
  readonly told: ToldValue;
  overflow: boolean;
}

/** A value that nobody was ever told. `quiet`: nothing in what was told can show that. */
export interface LostValue {
  readonly at: Instant;
  readonly tag: string;
  readonly quiet: boolean;
}

const QUEUE = 100;

/**
 * What a server keeps of each watched tag from one publish to the next. As it is subscribed to it grants a size of queue
 * and a sampling interval; a fault that begins later makes its queues shorter without a word.
 */
export class VirtualQueues {
  private readonly underway: Underway;
  private readonly start: Instant;
  private readonly isWatched: (tag: string) => boolean;
  private queues = new Map<string, Queued[]>();
  /** The last value since the last look at a tag, where the server samples. */
  private seen = new Map<string, ToldValue>();
  private granted = QUEUE;
  private every = 0;
  private lookedAt = 0;
  private readonly told: ToldValue[] = [];
  private readonly delivered = new Set<ToldValue>();
  private readonly quiet = new Set<ToldValue>();
  now: Instant;

  constructor(faults: readonly Fault[], start: Instant, isWatched: (tag: string) => boolean) {
    this.start = start;
    this.now = start;
    this.isWatched = isWatched;
    this.underway = new Underway(faults, start, () => this.now);
  }

  /** What the client is told that the server keeps of each tag. */
  get size(): number {
    return this.granted;
  }

  /** A subscription begins: every tag as it stands is told, and what waited for another one is gone. */
  begin(present: readonly ToldValue[]): void {
    this.granted = Math.min(QUEUE, this.underway.find('queue')?.size ?? QUEUE);
    this.every = this.underway.find('sampled')?.every ?? 0;
    this.clear();
    for (const told of present)
      if (this.isWatched(told.tag)) this.queues.set(told.tag, [{ told, overflow: false }]);
  }

  clear(): void {
    this.queues = new Map();
    this.seen = new Map();
  }

  /** A value that the PLC told; `live`: publishes come through, so that only an overflow bit tells of one that is dropped. */
  take(told: ToldValue, live: boolean): void {
    if (!this.isWatched(told.tag)) return;
    this.told.push(told);
    if (this.every === 0) return this.queue(told, live);
    const before = this.seen.get(told.tag);
    if (before) this.quiet.add(before);
    this.seen.set(told.tag, told);
  }

  /** What the PLC told while there was no server. */
  miss(told: ToldValue): void {
    if (this.isWatched(told.tag)) this.told.push(told);
  }

  /** Looks at every tag when it is time. */
  sample(live: boolean): void {
    if (this.every === 0) return;
    const looks = Math.floor((this.now - this.start) / this.every);
    if (looks === this.lookedAt) return;
    this.lookedAt = looks;
    for (const told of this.seen.values()) this.queue(told, live);
    this.seen.clear();
  }

  /** Takes all that is queued. */
  drain(): readonly Queued[] {
    const rows = [...this.queues.values()].flat();
    this.queues = new Map();
    return rows;
  }

  /** These have come to the client. */
  came(values: readonly ToldValue[]): void {
    for (const told of values) this.delivered.add(told);
  }

  /** Values that the client was never told; of the last seconds nobody can say. */
  lost(): readonly LostValue[] {
    const until = after(this.now, -(30 * 10_000_000) as Span);
    return this.told
      .filter((told) => told.at < until && !this.delivered.has(told))
      .map((told) => ({ at: told.at, tag: told.tag, quiet: this.quiet.has(told) }));
  }

  private queue(told: ToldValue, live: boolean): void {
    const queue = this.queues.get(told.tag) ?? [];
    this.queues.set(told.tag, queue);
    queue.push({ told, overflow: false });
    const fault = this.underway.find('queue');
    const size = Math.min(this.granted, fault?.size ?? QUEUE);
    if (queue.length <= size) return;
    const dropped = queue.splice(0, queue.length - size);
    // a queue of one has no overflow bit (OPC 10000-4, 5.13.1.5)
    const silent = (fault?.silent ?? false) || size === 1;
    if (!silent) queue[0]!.overflow = true;
    else if (live) for (const one of dropped) this.quiet.add(one.told);
  }
}

/** BadTooManyMonitoredItems (OPC 10000-6, Annex A: status codes). */
const TOO_MANY = 0x80db0000;

/** Of so many items, those that a small server will not watch, and the status that it gives for that. */
export function refusedItems(faults: readonly Fault[], items: number): ReadonlyMap<number, number> {
  const most = faults.reduce(
    (least, fault) => (fault.kind === 'limited' && fault.at === 0 ? Math.min(least, fault.items) : least),
    items,
  );
  return new Map(Array.from({ length: items - most }, (_, n) => [most + n, TOO_MANY]));
}
