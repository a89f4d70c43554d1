import { MEASURED } from '../normal/measured.ts';
import type { NoticeFacts } from './notice.ts';
import type { Recipient, RecipientSettings } from './recipients.ts';
import type { NoticeRules } from './settings.ts';

/** False notices about rejects of all stations together come once in so many shifts, as was measured. */
export function rejectsFalseOnce(stations: number): number {
  return 1 / (1 / MEASURED.run.onceIn + 1 / MEASURED.drift.onceIn) / stations;
}

/** What a budget leaves for repeated stops, and whether it has room for rejects at all: they may take half of it at most. */
export interface Budget {
  readonly rejects: boolean;
  /** A false notice about stops of all watched stations together comes once in so many shifts at most. */
  readonly stopsOnceInShifts: number;
}

/** [NB1] At most one false call in so many shifts, divided over what is watched: rejects first, as theirs cannot be chosen. */
export function budgetOf(falseOnceInShifts: number, watched: number, rejectsOn: boolean): Budget {
  const share = rejectsOn && watched > 0 ? 1 / rejectsFalseOnce(watched) : 0;
  const rejects = share > 0 && share <= 0.5 / falseOnceInShifts;
  return { rejects, stopsOnceInShifts: 1 / (1 / falseOnceInShifts - (rejects ? share : 0)) };
}

/** The loosest budget of all who are told, and of the line's own setting: what is weaker than that is not raised at all. */
export function loosest(rules: NoticeRules, { recipients }: RecipientSettings, stations: number): Budget {
  const all = [
    budgetOf(rules.stops.falseOnceInShifts, stations, rules.rejects.on),
    ...recipients.map((recipient) => ofAll(budgetFor(recipient, rules, stations), recipient, stations)),
  ];
  return {
    rejects: all.some(({ rejects }) => rejects),
    stopsOnceInShifts: Math.min(...all.map(({ stopsOnceInShifts }) => stopsOnceInShifts)),
  };
}

/** Whether what a notice says is strong enough for the budget of somebody who is told; what is no judgement always is. */
export function isStrongEnough(
  facts: NoticeFacts,
  recipient: Recipient,
  rules: NoticeRules,
  stations: number,
): boolean {
  const budget = ofAll(budgetFor(recipient, rules, stations), recipient, stations);
  if (facts.kind === 'stops') return facts.onceInShifts >= budget.stopsOnceInShifts;
  return facts.kind === 'rejects' ? budget.rejects : true;
}

function budgetFor(
  { falseOnceInShifts, stations: own }: Recipient,
  rules: NoticeRules,
  stations: number,
): Budget {
  const wanted = falseOnceInShifts ?? rules.stops.falseOnceInShifts;
  return budgetOf(wanted, own?.length ?? stations, rules.rejects.on);
}

/** As if of all stations of the line: who watches fewer may have each of them called more often. */
function ofAll(budget: Budget, { stations: own }: Recipient, stations: number): Budget {
  const watched = own?.length ?? stations;
  return { ...budget, stopsOnceInShifts: (budget.stopsOnceInShifts * watched) / stations };
}
