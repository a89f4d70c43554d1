import type { LineIndex } from '../fold/lineIndex.ts';
import { settingsSaid } from '../fold/settings.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Instant } from '../units/units.ts';

/** From a moment on an adjustment stands so, as far as is known; undefined where nobody knows any more. */
export interface SetAt {
  readonly at: Instant;
  readonly value: number | undefined;
  readonly known: 'sensor' | 'typed' | 'confirmed';
  /** [SP10] What its scale read when somebody looked: the same where it was left so, another where it was moved from there. */
  readonly found?: number;
  /** [SP3] Which datum the number stands under. */
  readonly datum: number;
}

export interface HistoryAsked {
  /** What people said: readings, numbers confirmed as the book's, changes made, datums; the oldest first. */
  readonly entries: readonly RecordBodies['entry'][];
  /** What sensors told of being moved; the oldest first. */
  readonly moves: readonly RecordBodies['move'][];
  /** When what was set before is set anew: another size began, or its sheet. The oldest first. */
  readonly anew: readonly Instant[];
}

/**
 * [SP7] Where each adjustment stood, by number, the oldest first. Of one with a sensor only the sensor counts, wherever it told
 * anything. A number read back stands from when what it corrects was entered: nobody moved it between. [SP10] So does one that
 * somebody found in the same run, from when it was set in that run; where it was moved from there, it stands elsewhere since.
 */
export function setHistories(
  { line }: LineIndex,
  { entries, moves, anew }: HistoryAsked,
): ReadonlyMap<string, readonly SetAt[]> {
  return new Map(
    line.adjustments.map(({ number }) => {
      const datums = entries.flatMap(({ at, entry }) =>
        entry.kind === 'datum' && entry.adjustment === number ? [at] : [],
      );
      const datumAt = (at: Instant) => 1 + datums.filter((began) => began <= at).length;
      const own = moves.filter(({ adjustment }) => adjustment === number);
      const sets = own.length > 0 ? sensed(own, datumAt) : said(entries, number, datumAt, anew);
      const begun = datums.map((at): SetAt => ({ at, value: undefined, known: 'typed', datum: datumAt(at) }));
      // of equal moments the datum goes before what is said under it
      return [number, [...begun, ...sets].sort((a, b) => a.at - b.at)];
    }),
  );
}

function sensed(moves: readonly RecordBodies['move'][], datumAt: (at: Instant) => number): readonly SetAt[] {
  return moves.map(({ end, to }) => ({ at: end, value: to, known: 'sensor', datum: datumAt(end) }));
}

function said(
  entries: readonly RecordBodies['entry'][],
  number: string,
  datumAt: (at: Instant) => number,
  anew: readonly Instant[],
): readonly SetAt[] {
  const sets: SetAt[] = [];
  for (const { at, entry } of entries) {
    if (entry.kind !== 'reading' && entry.kind !== 'asBook' && entry.kind !== 'changed') continue;
    for (const { adjustment, value, how, found } of settingsSaid(entry)) {
      if (adjustment !== number) continue;
      const last = sets.at(-1);
      const datum = datumAt(at);
      const known = how === 'confirmed' ? 'confirmed' : 'typed';
      const isSame = last?.datum === datum;
      if (how === 'readBack' && found === null && isSame) sets[sets.length - 1] = { ...last, value, known };
      else if (found === null) sets.push({ at, value, known, datum });
      else {
        const isOfRun = isSame && !anew.some((moment) => moment > last.at && moment <= at);
        if (isOfRun) {
          const left = found === value ? { found } : {};
          sets[sets.length - 1] = { at: last.at, value: found, known: 'typed', datum, ...left };
        }
        if (!isOfRun || found !== value) sets.push({ at, value, known, datum, found });
      }
    }
  }
  return sets;
}

/** How an adjustment stood at a moment. What people said before `since` was said of another size. */
export function setAt(history: readonly SetAt[], at: Instant, since: Instant): SetAt | undefined {
  const last = history.findLast((set) => set.at <= at);
  if (!last || last.value === undefined) return undefined;
  return last.known === 'sensor' || last.at >= since ? last : undefined;
}
