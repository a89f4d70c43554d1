import type { Entry } from '../../model/entries/entries.ts';
import { correctionAt } from '../../model/fold/said.ts';
import type { FoldState } from '../../model/fold/state.ts';
import { between, type Instant, instantFromMs, seconds } from '../../model/units/units.ts';
import { BEFORE_ALL } from '../tape/spans.ts';

/** What took no longer to come than this was made just now. */
const KEPT_LEAST = seconds(2);

/** [SH6] Whether a screen kept it before it could send it. */
export function wasKept(entry: Entry, received: Instant): boolean {
  return between(instantFromMs(entry.at), received) > KEPT_LEAST;
}

/**
 * Where an entry stands in line time: now; one that was kept on a screen, where it was made; a correction, where what it
 * corrects does.
 */
export function entryMoment(
  entry: Entry,
  state: Readonly<FoldState>,
  { now, received, speed }: { readonly now: Instant; readonly received: Instant; readonly speed: number },
): Instant {
  const { at: newest, heardAt } = state;
  if (heardAt < 0) return (entry.kind === 'correction' && correctionAt(state, entry)) || BEFORE_ALL;
  if (entry.kind === 'correction') {
    const corrected = correctionAt(state, entry);
    if (corrected !== undefined) return corrected;
  }
  const last = Math.max(now, newest);
  if (!wasKept(entry, received)) return last as Instant;
  return Math.max(
    BEFORE_ALL,
    last - Math.round(between(instantFromMs(entry.at), received) * speed),
  ) as Instant;
}
