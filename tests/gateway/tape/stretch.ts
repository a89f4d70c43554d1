import type { Change, Signal, Value } from '../../../model/signals/signals.ts';
import type { Instant } from '../../../model/units/units.ts';

/** Signals with these ids, in this order. */
export function signals(...ids: string[]): Signal[] {
  return ids.map((id, index) => ({
    index,
    id,
    role: 'condition',
    machine: 'cartoner',
    server: 'plc',
    type: 'number',
  }));
}

/** 2026-03-16T05:00:00Z. */
export const begin = 1_958_292_000_000_000;

export function change(signal: number, at: number, value: Value): Change {
  return { signal, at: at as Instant, received: (at + 1_500_000) as Instant, status: 0, value };
}

/** Changes `from` to `to` of an endless stream of three signals, one each `everyMs` of line time. */
export function stretch(from: number, to: number, everyMs = 1000): Change[] {
  const values = (place: number): Value => [place, place % 7 === 0, `lot ${place % 11}`][place % 3]!;
  return Array.from({ length: to - from }, (_, offset) => {
    const place = from + offset;
    // each tenth comes a little late: order of arrival is not order of time
    const late = place % 10 === 0 ? 35_000 : 0;
    return change(place % 3, begin + place * everyMs * 10_000 - late, values(place));
  });
}

/** Everything between two positions as one list. */
export async function gathered(chunks: AsyncIterable<readonly Change[]>): Promise<Change[]> {
  const all: Change[] = [];
  for await (const chunk of chunks) all.push(...chunk);
  return all;
}
