import type { RanAtRecord, SheetBefore, SheetRecord, StepRecord } from '../fold/settingRecords.ts';
import { type AdjustmentScale, scaleOf } from '../past/adjustmentsNow.ts';
import { isDone, readsOtherwise, sheetSteps, type SheetStepNow } from '../setpoints/sheetSteps.ts';
import { sensorNow, standingNow, stepsApart } from '../setpoints/standing.ts';
import type { Author } from '../entries/entries.ts';
import type { SaidHow } from '../fold/settingRecords.ts';
import type { ChangeoverKind } from '../fold/state.ts';
import type { Adjustment, Wheel } from '../line/line.ts';
import { type EpochMs, epochMs } from '../units/units.ts';
import type { Seen } from './seen.ts';
import { type SheetOffered, sheetOffered } from './sheetOffered.ts';

/** What a setter's sheet can be begun for, and the one that is open. */
export interface SheetsView {
  readonly sizes: readonly { readonly id: string; readonly name: string }[];
  /** The size of the order that follows; where none is known, none. */
  readonly next: string | undefined;
  /** [SH9] The one that fits, to be begun by a person. */
  readonly offered: SheetOffered | undefined;
  readonly open: SheetView | undefined;
  /** The newest one, while none is open. */
  readonly ended: EndedSheet | undefined;
  /** [SH10] The ones before the newest, newest last. */
  readonly before: readonly EndedSheet[];
}

/** [SH4] How a sheet ended: all was done, a person closed it, or another took its place. */
export interface EndedSheet {
  readonly id: string;
  readonly alsoBegun: readonly string[];
  readonly kind: ChangeoverKind;
  readonly size: { readonly id: string; readonly name: string };
  readonly at: EpochMs;
  readonly how: 'done' | 'closed' | 'replaced';
  /** The one that took its place; without an author where the PLC told of the size. */
  readonly by:
    | {
        readonly kind: ChangeoverKind;
        readonly size: { readonly id: string; readonly name: string };
        readonly author: Author | undefined;
      }
    | undefined;
  readonly author: Author | undefined;
  readonly why: string | undefined;
  readonly atRate: EpochMs | undefined;
}

/** [SH1] A setter's sheet: every step of a changeover, in the order in which a setter walks. */
export interface SheetView {
  readonly id: string;
  readonly kind: ChangeoverKind;
  readonly size: { readonly id: string; readonly name: string };
  readonly from: string | undefined;
  readonly begun: EpochMs;
  /** Other names of it, under which screens know it that had not heard of this one. */
  readonly alsoBegun: readonly string[];
  readonly author: Author | undefined;
  readonly atRate: EpochMs | undefined;
  /** The size that the PLC tells is another one than this sheet is for. */
  readonly otherSize: string | undefined;
  readonly handed: readonly {
    readonly at: EpochMs;
    readonly author: Author;
    readonly words: string | undefined;
  }[];
  readonly steps: readonly SheetStep[];
  readonly left: number;
}

export type SheetStep = NumberStep | OtherStep;

interface StepHead {
  readonly id: string;
  readonly station:
    | { readonly id: string; readonly number: number; readonly name: string; readonly drawing: string }
    | undefined;
  readonly name: string;
  readonly isDone: boolean;
}

export interface OtherStep extends StepHead {
  readonly kind: 'part' | 'check' | 'approval';
  /** Which part this size takes. */
  readonly part: string | undefined;
  readonly done: StepDone | undefined;
}

export interface StepDone {
  readonly at: EpochMs;
  readonly author: Author;
  readonly entry: string;
  readonly well: boolean;
  readonly words: string | undefined;
  readonly value: number | undefined;
  readonly how: SaidHow | undefined;
  /** [SP10] What its scale read before; undefined where nobody said. */
  readonly found: number | undefined;
}

export interface NumberStep extends StepHead {
  readonly kind: 'number';
  readonly unit: string;
  readonly decimals: number;
  readonly min: number;
  readonly max: number;
  readonly book: number | undefined;
  /** Where it stood when the newest run of this size ended that had come to its rate. */
  readonly ranAt:
    | { readonly value: number; readonly how: SaidHow | 'sensor'; readonly at: EpochMs }
    | undefined;
  /** Where it stood when the sheet was begun. */
  readonly was: { readonly value: number; readonly how: SaidHow | 'sensor' } | undefined;
  /** What is known now; a sensor goes before what people said. */
  readonly now:
    | { readonly value: number; readonly how: SaidHow | 'sensor' | 'uncertain'; readonly at: EpochMs }
    | undefined;
  readonly sensor: 'reads' | 'uncertain' | 'silent' | 'unheard' | 'none';
  readonly done: StepDone | undefined;
  /** Its sensor reads the book's number: nothing has to be entered. */
  readonly sensed: boolean;
  /** Read it again, without looking at what was entered: asked once all numbers are in. */
  readonly readBack: ReadBack | undefined;
  /** From where it stands to the book's number. */
  readonly way: Way | undefined;
  readonly wheel: Wheel | undefined;
  readonly approach: 'below' | 'above' | undefined;
  readonly clamp: boolean;
  readonly scale: AdjustmentScale;
}

export interface ReadBack {
  readonly asked: boolean;
  readonly done: StepDone | undefined;
  /** It differs from what was entered, and nobody has said since which holds. */
  readonly differs: boolean;
}

export interface Way {
  readonly from: number;
  readonly to: number;
  /** Signed, on the scale. */
  readonly by: number;
  /** Only where the line's file says how its wheel turns. */
  readonly turn: { readonly clockwise: boolean; readonly turns: number } | undefined;
}

export function sheetsView(seen: Seen): SheetsView {
  const { state, index } = seen;
  const { sheet } = state;
  const next = state.orders.find(({ number }) => number === state.orderNext)?.size;
  return {
    sizes: index.line.sizes.map(({ id, name }) => ({ id, name })),
    next: next === state.size ? undefined : next,
    offered: sheetOffered(seen),
    open: sheet && sheet.ended === null ? sheetView(seen, sheet) : undefined,
    ended: sheet ? endedView(seen, { ...sheet, by: null }) : undefined,
    before: state.sheetsBefore.flatMap((one) => endedView(seen, one) ?? []),
  };
}

/** Undefined for one that is open. */
export function endedView(
  { index }: Pick<Seen, 'index'>,
  { id, alsoBegun, kind, size, atRate, ended, by }: SheetBefore,
): EndedSheet | undefined {
  if (!ended) return undefined;
  const { at, how, author, why } = ended;
  const named = (of: string) => ({ id: of, name: index.sizeById.get(of)?.name ?? of });
  return {
    id,
    alsoBegun,
    kind,
    size: named(size),
    at: epochMs(at),
    how,
    by: by ? { kind: by.kind, size: named(by.size), author: by.author ?? undefined } : undefined,
    author: author ?? undefined,
    why: why ?? undefined,
    atRate: atRate === null ? undefined : epochMs(atRate),
  };
}

function sheetView(seen: Seen, sheet: SheetRecord): SheetView {
  const { index, state } = seen;
  const name = (id: string) => index.sizeById.get(id)?.name ?? id;
  const steps = sheetSteps(index, state, sheet).map((step) => stepView(seen, sheet, step));
  const others = sheet.changeover !== null && state.size !== null && state.size !== sheet.size;
  return {
    id: sheet.id,
    kind: sheet.kind,
    size: { id: sheet.size, name: name(sheet.size) },
    from: sheet.from === null || sheet.from === sheet.size ? undefined : name(sheet.from),
    begun: epochMs(sheet.begin),
    alsoBegun: sheet.alsoBegun,
    author: sheet.author ?? undefined,
    atRate: sheet.atRate === null ? undefined : epochMs(sheet.atRate),
    otherSize: others ? name(state.size!) : undefined,
    handed: sheet.handed.map(({ at, author, words }) => ({
      at: epochMs(at),
      author,
      words: words ?? undefined,
    })),
    steps,
    left: steps.filter((step) => !step.isDone).length,
  };
}

function stepView(seen: Seen, sheet: SheetRecord, step: SheetStepNow): SheetStep {
  const { name, station } = step.kind === 'number' ? step.adjustment : step.step;
  const head = { id: step.id, name, station: stationOf(seen, station), isDone: isDone(step) };
  if (step.kind !== 'number') return { ...head, kind: step.kind, part: step.part, done: doneView(step.done) };
  return { ...head, ...numberView(seen, sheet, step) };
}

/** Where a step is done; undefined for the line as a whole. */
export function stationOf({ index }: Pick<Seen, 'index'>, id: string | undefined): StepHead['station'] {
  const station = index.line.stations.find((one) => one.id === id);
  if (!station) return undefined;
  const { number, name, drawing } = station;
  return { id: station.id, number, name, drawing };
}

function numberView(
  { index, state }: Seen,
  sheet: SheetRecord,
  step: Extract<SheetStepNow, { readonly kind: 'number' }>,
): Omit<NumberStep, keyof StepHead> {
  const { adjustment, book, readBack } = step;
  const { number, decimals, wheel } = adjustment;
  const ranAt = state.ranAt.find((one) => one.size === sheet.size && one.adjustment === number);
  const was = sheet.was.find((one) => one.adjustment === number);
  const standing = standingNow(index, state, adjustment);
  const from = standing?.value ?? was?.value;
  return {
    kind: 'number',
    ...scaleFacts(adjustment),
    book,
    ranAt: ranAtView(ranAt),
    was: was && { value: was.value, how: was.how },
    now: standing && { value: standing.value, how: standing.how, at: epochMs(standing.at) },
    sensor: sensorNow(index, state, adjustment).kind,
    done: doneView(step.done),
    sensed: step.sensed,
    readBack: readBack && {
      asked: readBack.asked,
      done: doneView(readBack.done),
      differs: readsOtherwise({ ...step, decimals }),
    },
    way: from === undefined || book === undefined ? undefined : wayOf(from, book, decimals, wheel),
    scale: scaleOf(adjustment, book, from),
  };
}

export function ranAtView(ranAt: RanAtRecord | undefined): NumberStep['ranAt'] {
  return ranAt && { value: ranAt.value, how: ranAt.how, at: epochMs(ranAt.at) };
}

/** What an adjustment and its scale are, whatever stands there. */
export function scaleFacts({ unit, decimals, min, max, wheel, approach, clamp = false }: Adjustment) {
  return { unit, decimals, min, max, wheel, approach, clamp };
}

/** From one number of a scale to another. */
export function wayOf(from: number, to: number, decimals: number, wheel: Wheel | undefined): Way {
  const by = stepsApart(to, from, decimals);
  if (!wheel || by === 0) return { from, to, by, turn: undefined };
  // to a quarter of a turn: a hand does no better
  const turns = Math.round((4 * Math.abs(by)) / wheel.perTurn) / 4;
  return { from, to, by, turn: { clockwise: by > 0 === (wheel.clockwise === 'up'), turns } };
}

function doneView(done: StepRecord | undefined): StepDone | undefined {
  if (!done) return undefined;
  const { at, author, entry, well, words, value, how, found } = done;
  return {
    at: epochMs(at),
    author,
    entry,
    well,
    words: words ?? undefined,
    value: value ?? undefined,
    how: how ?? undefined,
    found: found ?? undefined,
  };
}
