import { LineFold, type SavedFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { byLineTime, type Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import type { Tape } from '../tape/tape.ts';
import { SORTED_MOST } from './foldTape.ts';

interface Wish {
  /** Version of model and definition: a saved state of another one is never used. */
  readonly version: string;
  /** The moment looked at, in line time. */
  readonly at: Instant;
  /** For tests only. */
  readonly sortedMost?: number;
}

/**
 * A line at a moment that has passed, as known now (SPEC, TI2): the fold, in line time, of all that the tape holds up to it,
 * whenever it came. As shown then it is what `foldTape` makes of the first changes. Undefined when it would take more
 * changes than may be held at once.
 */
export async function foldKnown(tape: Tape, line: Line, wish: Wish): Promise<LineFold | undefined> {
  const { version, at, sortedMost = SORTED_MOST } = wish;
  const isLink = line.signals.map(({ role }) => role === 'link');
  let found: Change[] = [];
  let until = tape.end(line.id);
  for (let kept = tape.nearest(line.id, until, version); ; kept = tape.nearest(line.id, until - 1, version)) {
    const from = kept?.position ?? 0;
    const before: Change[] = [];
    for await (const changes of tape.read(line.id, from, until))
      for (const change of changes) if (change.at <= at || isLink[change.signal]) before.push(change);
    found = before.concat(found);
    if (found.length > sortedMost) return undefined;
    const saved = kept && (JSON.parse(kept.body) as SavedFold);
    if (saved && !serves(saved, found, at)) {
      until = from;
      continue;
    }
    const fold = new LineFold(line, saved);
    fold.take(inHindsight(found.sort(byLineTime), isLink, at));
    return fold;
  }
}

/** A saved state goes before all of these, and knows neither of a later moment nor of a gap that may have been none. */
function serves({ state }: SavedFold, found: readonly Change[], at: Instant): boolean {
  if (state.at > at || state.gap !== null) return false;
  return found.every(
    (change) => change.at > state.at || (change.at === state.at && change.signal >= state.signal),
  );
}

/** Up to a moment; a link that was lost then, and turned out to have missed nothing, was no gap. */
function inHindsight(sorted: readonly Change[], isLink: readonly boolean[], at: Instant): Change[] {
  const next = new Map<number, Change>();
  return sorted
    .toReversed()
    .filter((change) => {
      const after = next.get(change.signal);
      if (isLink[change.signal]) next.set(change.signal, change);
      const wasNone = change.value === false && after?.value === 'whole' && after.at > at;
      return change.at <= at && !wasNone;
    })
    .reverse();
}
