import type { LineIndex } from '../fold/lineIndex.ts';
import type { FoldState, StopRecord } from '../fold/state.ts';
import type { LookFirst } from '../notices/notice.ts';
import { adjustmentsNow } from '../past/adjustmentsNow.ts';

/** So many things to look at are told at most: who goes has two hands. */
const LOOKS_MOST = 3;

/**
 * What to look at first at a station, as it reads now: the first fault that came most often among the stops, adjustments off
 * their book, the farthest first, and conditions outside their range. Of conditions the line file says no station, so they are
 * told of any. None of it is told as a cause.
 */
export function lookFirst(
  index: LineIndex,
  state: Readonly<FoldState>,
  station: string,
  stops: readonly StopRecord[],
): readonly LookFirst[] {
  const known = [...offBook(index, state, station), ...faults(index, stops), ...conditions(index, state)];
  return [...known, ...unread(index, state, station)].slice(0, LOOKS_MOST);
}

function offBook(index: LineIndex, state: Readonly<FoldState>, station: string): readonly LookFirst[] {
  return adjustmentsNow(index, state, station)
    .flatMap(({ number, name, unit, decimals, book, value, known, since, off, scale }) =>
      known !== 'silent' &&
      known !== 'none' &&
      value !== undefined &&
      book !== undefined &&
      off !== undefined &&
      off !== 0
        ? [
            {
              far: Math.abs(off) / Math.max(1e-9, scale.to - scale.from),
              look: {
                kind: 'offBook' as const,
                ...{ adjustment: number, name, reads: value, book, unit, decimals, moved: since },
              },
            },
          ]
        : [],
    )
    .sort((a, b) => b.far - a.far)
    .map(({ look }) => look);
}

/** What nobody reads, what was entered longest ago first: only where there is room for it. */
function unread(index: LineIndex, state: Readonly<FoldState>, station: string): readonly LookFirst[] {
  return adjustmentsNow(index, state, station)
    .filter(({ known }) => known !== 'sensor' && known !== 'uncertain')
    .sort((a, b) => (a.since ?? 0) - (b.since ?? 0))
    .map(({ number: adjustment, name, unit, decimals, known, value, since }) => {
      const entered = known === 'none' || known === 'silent' ? {} : { entered: value, at: since };
      return { kind: 'readScale', adjustment, name, unit, decimals, ...entered };
    });
}

function faults({ reasonByNumber }: LineIndex, stops: readonly StopRecord[]): readonly LookFirst[] {
  const times = new Map<string, number>();
  for (const { reason } of stops) {
    const name = reasonByNumber.get(reason)?.name;
    if (name !== undefined) times.set(name, (times.get(name) ?? 0) + 1);
  }
  const [most] = [...times].sort((a, b) => b[1] - a[1]);
  return most ? [{ kind: 'fault', name: most[0], times: most[1], of: stops.length }] : [];
}

function conditions({ line }: LineIndex, state: Readonly<FoldState>): readonly LookFirst[] {
  return line.conditions.flatMap(({ id, name, unit, normal: [low, high] }): readonly LookFirst[] => {
    const signal = line.signals.find(({ role, of }) => role === 'condition' && of === id);
    const reads = signal && state.known[signal.index] === 1 ? state.values[signal.index] : undefined;
    if (typeof reads !== 'number' || (reads >= low && reads <= high)) return [];
    return [{ kind: 'condition', name, reads, low, high, unit }];
  });
}
