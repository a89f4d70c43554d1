import { LineFold, type SavedFold } from '../fold/fold.ts';
import type { Line } from '../line/line.ts';
import { byLineTime, type Change } from '../signals/signals.ts';
import type { Instant } from '../units/units.ts';
import { SORTED_MOST } from './foldTape.ts';
import type { TapeRead } from './tapeRead.ts';

interface Wish {
  /** Version of model and definition: a saved state of another one is never used. */
  readonly version: string;
  /** The moment looked at, in line time. */
  readonly at: Instant;
  /** Of what came at this position and later no more than `late` says is looked at; all of the tape where it is left out. */
  readonly until?: number;
  /** What came at `until` or later and is not later than the moment; and of links also what is. */
  readonly late?: readonly Change[];
  /** For tests only. */
  readonly sortedMost?: number;
}

/**
 * A line at a moment that has passed, as known now (SPEC, TI2): the fold, in line time, of all that the tape holds up to it,
 * whenever it came. As shown then it is what `foldTape` makes of the first changes. Undefined when it would take more
 * changes than may be held at once.
 */
export async function foldKnown(tape: TapeRead, line: Line, wish: Wish): Promise<LineFold | undefined> {
  const { version, at, late = [], sortedMost = SORTED_MOST } = wish;
  const isLink = line.signals.map(({ role }) => role === 'link');
  const within = (changes: readonly Change[]) =>
    changes.filter((change) => change.at <= at || isLink[change.signal]);
  let found = within(late);
  let until = wish.until ?? tape.end(line.id);
  for (let limit = until; ; limit = until - 1) {
    const kept = await tape.nearest(line.id, limit, version);
    const from = kept?.position ?? tape.begin(line.id);
    const before: Change[] = [];
    for await (const changes of tape.read(line.id, from, until))
      for (const change of within(changes)) before.push(change);
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
