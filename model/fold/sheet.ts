import type { Author, Entry } from '../entries/entries.ts';
import { isDone, isNamed, readBackId, sheetSteps } from '../setpoints/sheetSteps.ts';
import { standingNow } from '../setpoints/standing.ts';
import type { Instant } from '../units/units.ts';
import type { SheetRecord, StepRecord } from './settingRecords.ts';
import { settingsSaid } from './settings.ts';
import type { ChangeoverKind, ChangeoverRecord } from './state.ts';
import type { Stepping } from './stepping.ts';
import type { SaidNow } from './takeSaid.ts';

/** Sheets that were handed over so often stay as they are. */
const HANDED_MOST = 20;
/** More screens than this do not begin the same sheet. */
const ALSO_MOST = 20;
/** [SH10] Two days in which screens may keep entries have seldom more changeovers. */
const BEFORE_MOST = 12;

type Of<Kind extends Entry['kind']> = Extract<Entry, { readonly kind: Kind }>;

/**
 * [SH2] A person begins one; of the changeover that goes on, where there is one. Where the same is open, of which the screen had not
 * heard, it is that one, under this name as well.
 */
export function beginSheet(stepping: Stepping, entry: Of<'sheetBegun'>, at: Instant): void {
  const { changeover, sheet } = stepping.state;
  if (sheet && sheet.ended === null && sheet.size === entry.size && sheet.kind === entry.in) {
    return alsoNamed(stepping, sheet, entry.id);
  }
  open(stepping, {
    id: entry.id,
    kind: entry.in,
    size: entry.size,
    at,
    author: entry.author,
    from: changeover ? changeover.from : stepping.state.size,
    changeover: changeover?.begin ?? null,
  });
}

/** [SH2] The PLC tells of another size: its sheet is the one that was begun for it, else a new one. */
export function sheetFor(stepping: Stepping, changeover: ChangeoverRecord, at: Instant): void {
  const { state } = stepping;
  if (changeover.to === null || changeover.kind !== 'size') return;
  const { sheet } = state;
  const id = `s${changeover.begin.toString(36)}-${changeover.to}`;
  if (sheet && sheet.ended === null && sheet.size === changeover.to && sheet.kind === 'size') {
    sheet.changeover = changeover.begin;
    // where the screen that began it was heard late, others know it by the name it had until then
    return alsoNamed(stepping, sheet, id);
  }
  const { begin, from, to: size } = changeover;
  return open(stepping, { id, kind: 'size', size, from, at, author: null, changeover: begin });
}

/** [SH4] The line came to its rate. */
export function sheetAtRate(stepping: Stepping, changeover: ChangeoverRecord, at: Instant): void {
  const { sheet } = stepping.state;
  if (!sheet || sheet.ended || sheet.changeover !== changeover.begin) return;
  sheet.atRate = at;
  endIfDone(stepping, sheet, at);
  emit(stepping, sheet);
}

/** A number that was said is a step of the sheet that was open then; so is a part that was named. */
export function stepsSaid(stepping: Stepping, said: SaidNow, at: Instant): void {
  const { sheet } = stepping.state;
  if (!sheet || sheet.ended || at < sheet.begin) return;
  // what a screen kept of another sheet says where things stand, and is no step of this one
  if ('sheet' in said && said.sheet !== undefined && !isNamed(sheet, said.sheet)) return;
  if (said.kind === 'fitted' && said.step !== undefined) {
    const { step, name: words, author, id: entry } = said;
    return put(stepping, sheet, {
      step,
      at,
      author,
      entry,
      well: true,
      words,
      value: null,
      how: null,
      found: null,
    });
  }
  for (const { adjustment, value, how, found } of settingsSaid(said))
    put(stepping, sheet, {
      step: how === 'readBack' ? readBackId(adjustment) : adjustment,
      at,
      author: said.author,
      entry: said.id,
      well: true,
      words: null,
      value,
      how,
      found,
    });
}

export function stepsTakenBack(stepping: Stepping, said: SaidNow): void {
  const { sheet } = stepping.state;
  if (!sheet?.done.some(({ entry }) => entry === said.id)) return;
  sheet.done = sheet.done.filter(({ entry }) => entry !== said.id);
  emit(stepping, sheet);
}

/** [SH3] */
export function stepDone(stepping: Stepping, entry: Of<'stepDone'> | Of<'stepApproved'>, at: Instant): void {
  const sheet = named(stepping, entry.sheet);
  if (!sheet) return;
  const { step, author, id, well, words = null } = entry;
  put(stepping, sheet, { step, at, author, entry: id, well, words, value: null, how: null, found: null });
}

/** [SH5] */
export function handSheet(stepping: Stepping, entry: Of<'sheetHanded'>, at: Instant): void {
  const sheet = named(stepping, entry.sheet);
  if (!sheet || sheet.handed.length >= HANDED_MOST) return;
  sheet.handed.push({ at, author: entry.author, words: entry.words ?? null });
  emit(stepping, sheet);
}

/** [SH4] */
export function endSheet(stepping: Stepping, entry: Of<'sheetEnded'>, at: Instant): void {
  const sheet = named(stepping, entry.sheet);
  if (!sheet) return;
  sheet.ended = { at, how: 'closed', author: entry.author, why: entry.why };
  emit(stepping, sheet);
}

function open(
  stepping: Stepping,
  wish: {
    readonly id: string;
    readonly kind: ChangeoverKind;
    readonly size: string;
    readonly from: string | null;
    readonly at: Instant;
    readonly author: Author | null;
    readonly changeover: Instant | null;
  },
): void {
  const { state, index } = stepping;
  const { at, ...head } = wish;
  const before = state.sheet;
  if (before) {
    const isReplaced = before.ended === null;
    if (isReplaced) {
      before.ended = { at, how: 'replaced', author: null, why: null };
      emit(stepping, before);
    }
    const { id, alsoBegun, kind, size, atRate, ended } = before;
    const by = isReplaced ? { kind: wish.kind, size: wish.size, author: wish.author } : null;
    state.sheetsBefore.push({ id, alsoBegun: [...alsoBegun], kind, size, atRate, ended, by });
    if (state.sheetsBefore.length > BEFORE_MOST) state.sheetsBefore.shift();
  }
  const sheet: SheetRecord = {
    ...head,
    begin: at,
    atRate: null,
    was: index.line.adjustments.flatMap(({ number }) => {
      const standing = standingNow(index, state, { number });
      if (!standing || standing.how === 'uncertain') return [];
      return [{ adjustment: number, value: standing.value, how: standing.how }];
    }),
    alsoBegun: [],
    done: [],
    handed: [],
    ended: null,
  };
  state.sheet = sheet;
  emit(stepping, sheet);
}

/** The newest for each step; one that was kept on a screen may come after a newer one. */
function put(stepping: Stepping, sheet: SheetRecord, record: StepRecord): void {
  const before = sheet.done.find(({ step }) => step === record.step);
  if (before && before.at > record.at) return;
  sheet.done = [...sheet.done.filter((one) => one !== before), record];
  endIfDone(stepping, sheet, record.at);
  emit(stepping, sheet);
}

/** [SH4] All done, and the line at rate where it is a changeover that the PLC tells of. */
function endIfDone({ state, index }: Stepping, sheet: SheetRecord, at: Instant): void {
  if (sheet.changeover !== null && sheet.atRate === null) return;
  if (sheetSteps(index, state, sheet).every(isDone))
    sheet.ended = { at, how: 'done', author: null, why: null };
}

function alsoNamed(stepping: Stepping, sheet: SheetRecord, id: string): void {
  if (sheet.alsoBegun.length < ALSO_MOST) sheet.alsoBegun.push(id);
  emit(stepping, sheet);
}

function named({ state: { sheet } }: Stepping, id: string | undefined): SheetRecord | undefined {
  return sheet && sheet.ended === null && isNamed(sheet, id) ? sheet : undefined;
}

function emit({ state, emit: tell }: Stepping, sheet: SheetRecord): void {
  tell({ kind: 'SheetMoved', at: state.at, sheet });
}
