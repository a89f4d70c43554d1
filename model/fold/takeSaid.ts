import type { Author } from '../entries/entries.ts';
import type { CorrectableBody, CorrectableKind } from '../entries/saidEntries.ts';
import type { Instant } from '../units/units.ts';
import { takeFitted, takeFittedBack } from './fitted.ts';
import { takeSettings, takeSettingsBack } from './settings.ts';
import { stepsSaid, stepsTakenBack } from './sheet.ts';
import type { FoldState, SaidRecord, StopRecord } from './state.ts';
import type { Stepping } from './stepping.ts';
import { retarget, setTarget, unsetTarget } from './target.ts';

const NOTES_KEPT = 50;
const ANSWER_DAYS = 30;
const DAY_TICKS = 864_000_000_000;

/** Something that people said, and by whom it is said now; `id` is that of the entry as it was first made. */
export type SaidNow = CorrectableBody & { readonly id: string; readonly author: Author };

/** [EN1] What something does that people said; of one that was corrected, what is said in its place. */
export function takeSaid(stepping: Stepping, said: SaidNow, at: Instant): void {
  const { state } = stepping;
  switch (said.kind) {
    case 'reason':
      countAnswer(stepping, said, at, 1);
      return explainAgain(stepping, said.stop, at);
    case 'cause':
      return explainAgain(stepping, said.stop, at);
    case 'crew':
      state.crewSaid = { entry: said.id, before: state.crew };
      state.crew = said.people;
      return retarget(stepping, at);
    case 'target':
      setTarget(state, said);
      return retarget(stepping, at);
    case 'handedOver':
      return countHanded(state, said.order);
    case 'note': {
      const { id, author, words, stop = null, about } = said;
      state.notes.push({ id, at, author, words, stop, ...(about === undefined ? {} : { about }) });
      if (state.notes.length > NOTES_KEPT) state.notes.shift();
      return;
    }
    case 'fitted':
    case 'changed':
    case 'reading':
    case 'asBook':
      takeFitted(state, said, at);
      takeSettings(stepping, said, at);
      return stepsSaid(stepping, said, at);
    // records of their own, of which the state holds nothing; of a notice it is `correctClosing` that knows
    case 'tested':
    case 'takenOut':
    case 'noticeClosed':
      return;
  }
}

/**
 * [EN1] Takes back what something did that people said. A crew or target that another one has followed since holds no
 * more anyhow.
 */
export function takeSaidBack(stepping: Stepping, said: SaidNow, at: Instant): void {
  const { state } = stepping;
  switch (said.kind) {
    case 'reason':
      countAnswer(stepping, said, at, -1);
      return explainAgain(stepping, said.stop, at);
    case 'cause':
      return explainAgain(stepping, said.stop, at);
    case 'crew':
      if (state.crewSaid?.entry !== said.id) return;
      state.crew = state.crewSaid.before;
      state.crewSaid = null;
      return retarget(stepping, at);
    case 'target':
      unsetTarget(state, said.id);
      return retarget(stepping, at);
    case 'handedOver':
      return countHanded(state, said.order);
    case 'note':
      state.notes = state.notes.filter(({ id }) => id !== said.id);
      return;
    case 'fitted':
    case 'changed':
    case 'reading':
    case 'asBook':
      takeFittedBack(state, said);
      takeSettingsBack(stepping, said);
      return stepsTakenBack(stepping, said);
    case 'tested':
    case 'takenOut':
    case 'noticeClosed':
      return;
  }
}

/** What is said now, of all that is held, the newest last. */
export function saidNow<Kind extends CorrectableKind>(
  { said }: Pick<FoldState, 'said'>,
  kind: Kind,
): readonly Extract<SaidNow, { kind: Kind }>[] {
  return said.flatMap((record) => {
    const now = nowOf(record);
    return now?.kind === kind ? [now as Extract<SaidNow, { kind: Kind }>] : [];
  });
}

/** What is said now in an entry's place, and by whom; undefined where it was withdrawn. */
export function nowOf({ first, corrections }: SaidRecord): SaidNow | undefined {
  const last = corrections.at(-1);
  if (!last) return first;
  return last.body ? { ...last.body, id: first.id, author: last.author } : undefined;
}

/** The newest answer, and the newest word on its cause, count for a stop. */
function explainAgain(stepping: Stepping, id: string, at: Instant): void {
  const { state } = stepping;
  const stop = state.stops.find((candidate) => candidate.id === id);
  if (!stop) return;
  const answer = saidNow(state, 'reason').findLast((said) => said.stop === id);
  stop.answer = answer ? { reason: answer.reason, words: answer.words ?? null, author: answer.author } : null;
  const cause = saidNow(state, 'cause').findLast((said) => said.stop === id);
  if (cause) stop.cause = { parts: cause.parts, words: cause.words, author: cause.author };
  else delete stop.cause;
  stepping.emit({ kind: 'StopExplained', at, stop });
}

/** How often an answer is given at a station: those come first that are given most. */
function countAnswer(
  { state }: Stepping,
  said: Extract<SaidNow, { kind: 'reason' }>,
  at: Instant,
  by: 1 | -1,
): void {
  const stop: StopRecord | undefined = state.stops.find((candidate) => candidate.id === said.stop);
  if (!stop) return;
  const day = Math.floor(at / DAY_TICKS);
  const station = stop.station ?? '';
  const isSame = (row: FoldState['answers'][number]) => row.station === station && row.answer === said.reason;
  const known =
    state.answers.find((row) => row.day === day && isSame(row)) ??
    (by < 0 ? state.answers.findLast(isSame) : undefined);
  if (known) known.times += by;
  else if (by > 0) state.answers.push({ day, station, answer: said.reason, times: 1 });
  state.answers = state.answers.filter((row) => row.day > day - ANSWER_DAYS && row.times > 0);
}

function countHanded(state: FoldState, number: string): void {
  const order = state.orders.find((candidate) => candidate.number === number);
  if (!order) return;
  order.handedOver = saidNow(state, 'handedOver').findLast((said) => said.order === number)?.cartons ?? null;
}
