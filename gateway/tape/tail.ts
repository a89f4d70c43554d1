import type { Change } from '../../model/signals/signals.ts';
import { seal } from './segments.ts';
import { Spans } from './spans.ts';
import type { StoredPiece } from './tape.ts';

/** Changes after the last segment, by the tape's own signal numbers: held in memory, and on disk batch by batch. */
export class Tail {
  readonly changes: Change[] = [];
  readonly start: number;
  private bytes = 0;
  private readonly spans = new Spans();

  constructor(start: number) {
    this.start = start;
  }

  get end(): number {
    return this.start + this.changes.length;
  }

  /** `bytes`: what they take on disk. */
  add(changes: readonly Change[], bytes: number): void {
    for (const change of changes) this.changes.push(change);
    this.spans.add(changes);
    this.bytes += bytes;
  }

  /** Undefined where it is empty. */
  piece(): StoredPiece | undefined {
    const { start, changes, bytes, spans } = this;
    const { length: count } = changes;
    if (count === 0) return undefined;
    return { start, count, sealed: false, at: spans.at, received: spans.received, bytes };
  }

  sealed(): Buffer {
    return seal(this.changes);
  }
}
