import type { Entry } from '../entries/entries.ts';
import { onScale, datumNow, standingNow } from '../setpoints/standing.ts';
import type { Change, Signal } from '../signals/signals.ts';
import { between, type Instant, seconds } from '../units/units.ts';
import { creeps, handsMoved } from './creep.ts';
import type { MoveRecord, RanAtRecord, SaidHow, SettingRecord } from './settingRecords.ts';
import type { FoldState } from './state.ts';
import type { Stepping } from './stepping.ts';
import type { SaidNow } from './takeSaid.ts';

/** [SP5] Changes of a sensor that follow one another within this are one move: a wheel that is being turned. */
const ONE_MOVE = seconds(20);
/** Datums kept for each adjustment. */
const DATUMS_KEPT = 12;

type Of<Kind extends Entry['kind']> = Extract<Entry, { readonly kind: Kind }>;

/** [SP5] A sensor reads another number than before, on its scale. */
export function sensorReads({ state, index, emit }: Stepping, signal: Signal, change: Change): void {
  const adjustment = index.line.adjustments.find(({ number }) => number === signal.of);
  if (!adjustment || typeof change.value !== 'number') return;
  const to = onScale(change.value, adjustment.decimals);
  const last = state.moves.find((move) => move.adjustment === adjustment.number);
  if (last && last.to === to) return;
  if (last) creeps(state, adjustment, last.to, to, change.at);
  const goesOn = last && last.from !== null && between(last.end, change.at) <= ONE_MOVE;
  const move: MoveRecord = {
    adjustment: adjustment.number,
    begin: goesOn ? last.begin : change.at,
    end: change.at,
    from: goesOn ? last.from : (last?.to ?? null),
    to,
    datum: datumNow(state.datums, adjustment.number),
  };
  state.moves = [...state.moves.filter((one) => one !== last), move];
  emit({ kind: 'SettingMoved', at: change.at, move });
}

/** [SP1] [SP2] What people say of where adjustments stand, of an entry as it counts now. */
export function takeSettings({ state }: Stepping, said: SaidNow, at: Instant): void {
  for (const { adjustment, value, how, found } of settingsSaid(said)) {
    const last = state.settings.find((one) => one.adjustment === adjustment);
    // one that was kept on a screen, or corrected, is no news where another came since
    if (last && last.at > at) continue;
    const { before: _, ...before } = last ?? { before: null };
    const next: SettingRecord = {
      adjustment,
      value,
      how,
      found,
      at,
      entry: said.id,
      author: said.author,
      datum: datumNow(state.datums, adjustment),
      before: last ? (before as Omit<SettingRecord, 'before'>) : null,
    };
    state.settings = [...state.settings.filter((one) => one !== last), next];
    handsMoved(state, adjustment);
  }
}

export function takeSettingsBack({ state }: Stepping, said: SaidNow): void {
  state.settings = state.settings.flatMap((one) => {
    if (one.entry !== said.id) return [one];
    return one.before ? [{ ...one.before, before: null }] : [];
  });
}

/** The numbers that an entry says; a change that was made says one where its text is a number. */
export function settingsSaid(said: SaidNow): readonly {
  readonly adjustment: string;
  readonly value: number;
  readonly how: SaidHow;
  /** [SP10] What its scale read before; null where nobody said. */
  readonly found: number | null;
}[] {
  switch (said.kind) {
    case 'reading': {
      const { adjustment, value, how, found = null } = said;
      return [{ adjustment, value, how, found }];
    }
    case 'asBook':
      return said.settings.map((one) => ({ ...one, how: 'confirmed', found: null }));
    case 'changed': {
      const { changed } = said;
      if (changed.of !== 'adjustment' || changed.to === undefined) return [];
      const value = Number(changed.to.replace(',', '.'));
      return Number.isFinite(value)
        ? [{ adjustment: changed.adjustment, value, how: 'typed', found: null }]
        : [];
    }
    default:
      return [];
  }
}

/** [SP3] What was said of its numbers before says nothing from now on. */
export function beginDatum(state: FoldState, entry: Omit<Of<'datum'>, 'kind'>, at: Instant): void {
  const { adjustment, why, words = null, id, author } = entry;
  const datum = datumNow(state.datums, adjustment) + 1;
  const own = state.datums.filter((one) => one.adjustment === adjustment).slice(-DATUMS_KEPT + 1);
  state.datums = [
    ...state.datums.filter((one) => one.adjustment !== adjustment),
    ...own,
    { adjustment, datum, at, why, words, entry: id, author, offset: null },
  ];
  handsMoved(state, adjustment);
  state.settings = state.settings.filter((one) => one.adjustment !== adjustment);
  state.ranAt = state.ranAt.filter((one) => one.adjustment !== adjustment);
}

/** [SP3] An engineer says how far the numbers of two datums lie apart. */
export function takeOffset(state: FoldState, { adjustment, datum, offset }: Of<'datumOffset'>): void {
  const found = state.datums.find((one) => one.adjustment === adjustment && one.datum === datum);
  if (found) found.offset = offset;
}

/** [BK1] */
export function takeBook(state: FoldState, entry: Of<'book'>, at: Instant): void {
  const { size, adjustment, value, id, author } = entry;
  const others = state.book.filter((one) => one.size !== size || one.adjustment !== adjustment);
  state.book = [...others, { size, adjustment, value, at, entry: id, author }];
}

/** [SP6] A run ends that came to its rate: where everything stood then is what its size ran at last. */
export function runEnds({ state, index }: Stepping): void {
  const { size, lastChangeover } = state;
  if (size === null || state.changeover || !lastChangeover || lastChangeover.atRate === null) return;
  const stood = index.line.adjustments.flatMap(({ number }): readonly RanAtRecord[] => {
    const standing = standingNow(index, state, { number });
    if (!standing || standing.how === 'uncertain') return [];
    return [{ size, adjustment: number, value: standing.value, how: standing.how, at: state.at }];
  });
  const told = new Set(stood.map(({ adjustment }) => adjustment));
  state.ranAt = [...state.ranAt.filter((one) => one.size !== size || !told.has(one.adjustment)), ...stood];
}
