import type { Entry } from '../entries/entries.ts';
import { type CorrectableEntry, isSaidBy } from '../entries/saidEntries.ts';
import { correctClosing } from './noticeEnd.ts';
import type { FoldState } from './state.ts';
import type { Stepping } from './stepping.ts';
import { nowOf, type SaidNow, takeSaid, takeSaidBack } from './takeSaid.ts';
import type { Instant } from '../units/units.ts';

/** So much of what people said can be corrected: the newest of it. The rest stands in the records as it was said. */
const SAID_KEPT = 200;
/** So often one entry can be corrected. */
export const CORRECTIONS_MOST = 20;

export function keepSaid(state: FoldState, first: CorrectableEntry, at: Instant): void {
  state.said.push({ at, first, corrections: [] });
  if (state.said.length > SAID_KEPT) state.said.shift();
}

/**
 * [EN1] What was said before is said otherwise, or not at all. On the tape it stands at the moment of what it corrects
 * where what the line did since depends on that (`correctionAt`), so that the fold in line time works it in there.
 */
export function correct(stepping: Stepping, entry: Extract<Entry, { kind: 'correction' }>): void {
  const { state } = stepping;
  const said = state.said.find((one) => isSaidBy(one, entry.of));
  if (!said || said.first.kind !== entry.was || said.corrections.length >= CORRECTIONS_MOST) return;
  const before = nowOf(said);
  const { id, at, author, body = null, why = null } = entry;
  said.corrections.push({ id, at, author, body, why });
  const now = nowOf(said);
  if (!before || !isOvertaken(state, before)) {
    if (before) takeSaidBack(stepping, before, said.at);
    if (now) takeSaid(stepping, now, said.at);
  }
  if (said.first.kind === 'noticeClosed') correctClosing(stepping, said);
  if (said.first.kind === 'note') state.notes.sort((a, b) => a.at - b.at);
  stepping.emit({ kind: 'EntryCorrected', at: state.at, said });
}

/** Another crew or target holds by now; where that came later than what is corrected, it goes on to. */
function isOvertaken({ crewSaid, targets }: FoldState, said: SaidNow): boolean {
  if (said.kind === 'crew') return crewSaid?.entry !== said.id;
  return said.kind === 'target' && !targets.some(({ entry }) => entry === said.id);
}

/** [EN1] Where a correction stands in line time: a crew and a target count from the moment that they were entered for. */
export function correctionAt(
  { said }: Pick<FoldState, 'said'>,
  entry: Extract<Entry, { kind: 'correction' }>,
): Instant | undefined {
  const counts = entry.was === 'crew' || entry.was === 'target';
  return counts ? said.find((one) => isSaidBy(one, entry.of))?.at : undefined;
}
