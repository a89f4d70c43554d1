import type { Change, SignalIndex } from '../../model/signals/signals.ts';
import { opened, seal, unseal } from './segments.ts';

/**
 * What each signal told last, by the tape's own numbers: what a reading of every tag would have given. It stands at the end of
 * each segment, so that after one that is damaged everything is known again. What people entered is not among it.
 */
export class LastValues {
  private readonly entries: ReadonlySet<SignalIndex>;
  private readonly bySignal: Map<SignalIndex, Change>;

  /** `entries`: the signals that people write. */
  constructor(entries: ReadonlySet<SignalIndex>, changes: Iterable<Change> = []) {
    this.entries = entries;
    this.bySignal = new Map([...changes].map((change) => [change.signal, change]));
  }

  /** What was stored; nothing where it is damaged. */
  static stored(bytes: Uint8Array | undefined): readonly Change[] {
    return (bytes && opened(bytes, unseal)) ?? [];
  }

  /** These, and changes after them; by line time: what came late is not the last. */
  with(changes: readonly Change[]): LastValues {
    const after = new LastValues(this.entries, this.bySignal.values());
    for (const change of changes) {
      if (this.entries.has(change.signal)) continue;
      const before = after.bySignal.get(change.signal);
      if (!before || change.at >= before.at) after.bySignal.set(change.signal, change);
    }
    return after;
  }

  /** As they are stored; when they were received is not. */
  sealed(): Buffer {
    const changes = [...this.bySignal.values()].sort((a, b) => a.signal - b.signal);
    return seal(changes.map((change) => ({ ...change, received: change.at })));
  }
}
