import type { WaitingRow } from './outboxStore.ts';

/**
 * What keeps letters from each other. urgent, first: going out for the first time. again: tried before, and failed; so that it
 * holds up nothing that came after it.
 */
export type LaneKind = 'urgent' | 'first' | 'again';

/** One that is on its way just now. */
export interface OnItsWay {
  readonly way: string;
  readonly person: string;
  readonly kind: LaneKind;
}

export interface Choice {
  readonly begin: readonly WaitingRow[];
  /** How long until the next one is due; undefined where nothing waits for time. Milliseconds. */
  readonly next: number | undefined;
}

export function kindOf({ urgent, hasFailed }: Pick<WaitingRow, 'urgent' | 'hasFailed'>): LaneKind {
  if (hasFailed) return 'again';
  return urgent ? 'urgent' : 'first';
}

/**
 * Which letters begin now, urgent ones before others and older ones before newer. For each person and way one of each kind goes
 * at a time, which keeps them in order; and so many of each kind by one way. `waitOf`: how long one has to wait still.
 */
export function chooseDue(
  waiting: readonly WaitingRow[],
  onTheirWay: readonly OnItsWay[],
  { atOnce, waitOf }: { readonly atOnce: number; readonly waitOf: (row: WaitingRow) => number },
): Choice {
  const busy = new Map<string, number>();
  const take = (one: OnItsWay) => {
    for (const key of [laneOf(one), poolOf(one)]) busy.set(key, (busy.get(key) ?? 0) + 1);
  };
  for (const one of onTheirWay) take(one);
  const begin: WaitingRow[] = [];
  let next: number | undefined;
  for (const row of waiting) {
    const one = { way: row.way, person: row.person, kind: kindOf(row) };
    if (busy.has(laneOf(one)) || (busy.get(poolOf(one)) ?? 0) >= atOnce) continue;
    const wait = waitOf(row);
    if (wait > 0) next = Math.min(next ?? wait, wait);
    else {
      take(one);
      begin.push(row);
    }
  }
  return { begin, next };
}

function laneOf({ way, person, kind }: OnItsWay): string {
  return JSON.stringify([way, kind, person]);
}

function poolOf({ way, kind }: OnItsWay): string {
  return JSON.stringify([way, kind]);
}
