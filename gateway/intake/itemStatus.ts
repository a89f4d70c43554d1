import type { Signal, SignalIndex } from '../../model/signals/signals.ts';
import { severity } from '../../model/status/status.ts';
import type { Words } from '../../model/words/words.ts';
import type { ItemState } from './connection.ts';
import type { Verdict } from './recorder.ts';

/** How one tag fares. `waiting`: nothing has been heard of it yet. */
export interface ItemStatus {
  readonly kind: 'good' | 'waiting' | 'missing' | 'unreadable' | 'wrongType';
  /** OPC UA status code of the monitored item or of its newest value. */
  readonly code: number;
  /** In words, where a person has something to mend. */
  readonly trouble: string | null;
}

/** Status codes of a node that is not there: unknown or invalid node id, no such attribute. */
const missingCodes: ReadonlySet<number> = new Set([0x80340000, 0x80330000, 0x80350000]);

/** True for the status code of a node that the server does not have. */
export function isMissing(code: number): boolean {
  return missingCodes.has(code >>> 0);
}

export function itemStatuses(
  signals: readonly { readonly signal: Signal; readonly tag: string }[],
  items: readonly ItemState[],
  verdicts: ReadonlyMap<SignalIndex, Verdict>,
  words: Words['gateway']['intake'],
): Map<SignalIndex, ItemStatus> {
  return new Map(
    signals.map(({ signal, tag }, place) => {
      const verdict = verdicts.get(signal.index);
      const item = items[place]?.status ?? 0;
      const code = severity(item) === 'bad' ? item : (verdict?.status ?? item);
      return [signal.index, { code, ...judged(code, verdict, { tag, type: signal.type }, words) }];
    }),
  );
}

function judged(
  code: number,
  verdict: Verdict | undefined,
  { tag, type }: { readonly tag: string; readonly type: Signal['type'] },
  words: Words['gateway']['intake'],
): Pick<ItemStatus, 'kind' | 'trouble'> {
  if (isMissing(code)) return { kind: 'missing', trouble: words.itemMissing(tag) };
  if (severity(code) === 'bad') return { kind: 'unreadable', trouble: words.itemUnreadable(tag, hex(code)) };
  if (verdict?.wrongType) return { kind: 'wrongType', trouble: words.itemWrongType(tag, type) };
  return { kind: verdict ? 'good' : 'waiting', trouble: null };
}

function hex(code: number): string {
  return `0x${(code >>> 0).toString(16).padStart(8, '0')}`;
}
