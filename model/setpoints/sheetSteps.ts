import type { LineIndex } from '../fold/lineIndex.ts';
import type { SheetRecord, StepRecord } from '../fold/settingRecords.ts';
import type { ChangeoverKind, FoldState } from '../fold/state.ts';
import type { Adjustment, ChangeoverStep } from '../line/line.ts';
import { bookNumber, sensorNow, stepsApart } from './standing.ts';

/** [SH1] One step of a sheet, in the order in which a setter walks. */
export type SheetStepNow =
  | {
      readonly kind: 'number';
      readonly id: string;
      readonly adjustment: Adjustment;
      readonly book: number | undefined;
      readonly done: StepRecord | undefined;
      /** Done without a word: its sensor reads the book's number, to a mark of its scale. */
      readonly sensed: boolean;
      /** [SH4] To be read again without looking at what was entered; and that, once it was. */
      readonly readBack: { readonly asked: boolean; readonly done: StepRecord | undefined } | undefined;
    }
  | {
      readonly kind: 'part' | 'check' | 'approval';
      readonly id: string;
      readonly step: ChangeoverStep;
      /** Which part this size takes. */
      readonly part: string | undefined;
      readonly done: StepRecord | undefined;
    };

/** So many numbers of a sheet are read back. */
const READ_BACKS = 2;

/** Station by station: its parts first, then its numbers, then its checks and approvals; what belongs to no station is last. */
export function sheetSteps(
  index: LineIndex,
  state: Readonly<FoldState>,
  sheet: SheetRecord,
): readonly SheetStepNow[] {
  const numbers = numberSteps(index, state, sheet);
  return walkOf(index.line).flatMap((stop) => {
    if (!isWalked(stop, sheet)) return [];
    return stop.kind === 'other'
      ? [otherStep(sheet, stop.step)]
      : (numbers.get(stop.adjustment.number) ?? []);
  });
}

/** A place where a setter's walk along the line stops: in changeovers of some kinds, to some sizes. */
export type WalkStop = Walked &
  (
    | { readonly kind: 'number'; readonly adjustment: Adjustment }
    | { readonly kind: 'other'; readonly step: ChangeoverStep }
  );

export interface Walked {
  readonly in: readonly ChangeoverKind[];
  /** The sizes; undefined where it is any. */
  readonly takes: readonly string[] | undefined;
}

/** Another artwork moves no number. */
const NUMBERS: Walked = { in: ['size', 'startUp'], takes: undefined };

/** [SH1] All places, in walking order. */
export function walkOf({ stations, adjustments, changeoverSteps }: LineIndex['line']): readonly WalkStop[] {
  const at = (station: string | undefined, kinds: readonly ChangeoverStep['kind'][]) =>
    changeoverSteps
      .filter((step) => step.station === station && kinds.includes(step.kind))
      .map(
        (step): WalkStop => ({
          kind: 'other',
          step,
          in: step.in,
          takes: step.parts && [...step.parts.keys()],
        }),
      );
  return [
    ...stations.flatMap(({ id }) => [
      ...at(id, ['part']),
      ...adjustments
        .filter(({ station }) => station === id)
        .map((adjustment): WalkStop => ({ kind: 'number', adjustment, ...NUMBERS })),
      ...at(id, ['check', 'approval']),
    ]),
    ...at(undefined, ['part', 'check', 'approval']),
  ];
}

export function isWalked(
  { in: kinds, takes }: Walked,
  { kind, size }: Pick<SheetRecord, 'kind' | 'size'>,
): boolean {
  return kinds.includes(kind) && (takes === undefined || takes.includes(size));
}

/** Whether nothing of a step is left to do. */
export function isDone(step: SheetStepNow): boolean {
  if (step.kind !== 'number') return step.done?.well === true;
  return isNumberDone({ ...step, decimals: step.adjustment.decimals });
}

/** What is known of a number in a sheet, on the tape or on a screen. */
export interface NumberKnown {
  readonly decimals: number;
  readonly done: NumberSaid | undefined;
  readonly sensed: boolean;
  readonly readBack: { readonly asked: boolean; readonly done: NumberSaid | undefined } | undefined;
}

interface NumberSaid {
  readonly at: number;
  readonly value?: number | null | undefined;
}

export function isNumberDone(number: NumberKnown): boolean {
  const { done, sensed, readBack } = number;
  if (done === undefined && !sensed) return false;
  return !readBack?.asked || (readBack.done !== undefined && !readsOtherwise(number));
}

/** [SH4] It was read back otherwise than it was entered, and nobody has entered since which of the two holds. */
export function readsOtherwise({ decimals, done, readBack }: NumberKnown): boolean {
  const again = readBack?.done;
  if (!done || !again || again.at < done.at) return false;
  return stepsApart(again.value ?? 0, done.value ?? 0, decimals) !== 0;
}

function otherStep(sheet: SheetRecord, step: ChangeoverStep): SheetStepNow {
  const { id, kind, parts } = step;
  return { kind, id, step, part: parts?.get(sheet.size), done: doneOf(sheet, id) };
}

function numberSteps(
  index: LineIndex,
  state: Readonly<FoldState>,
  sheet: SheetRecord,
): ReadonlyMap<string, SheetStepNow> {
  const { adjustments } = index.line;
  const steps = adjustments.map((adjustment) => {
    const book = bookNumber(index.line, state, sheet.size, adjustment.number);
    const sensor = sensorNow(index, state, adjustment);
    const sensed =
      sensor.kind === 'reads' &&
      book !== undefined &&
      Math.abs(stepsApart(sensor.value, book, adjustment.decimals)) <= 10 ** -adjustment.decimals + 1e-9;
    return { adjustment, book, sensed, sensor, done: doneOf(sheet, adjustment.number) };
  });
  const all = steps.every(({ done, sensed }) => done !== undefined || sensed);
  // a sensor reads itself: what is read by eye alone is read again
  const byEye = steps
    .filter(({ sensor }) => sensor.kind !== 'reads')
    .map(({ adjustment }) => adjustment.number);
  const again = readAgain(sheet.id, byEye);
  return new Map(
    steps.map(({ adjustment, book, sensed, done }) => [
      adjustment.number,
      {
        kind: 'number',
        id: adjustment.number,
        adjustment,
        book,
        done,
        sensed: sensed && done === undefined,
        readBack: again.has(adjustment.number)
          ? { asked: all, done: doneOf(sheet, readBackId(adjustment.number)) }
          : undefined,
      },
    ]),
  );
}

/** Whether an entry that names a sheet means this one; one that names none means whichever is open. */
export function isNamed(
  sheet: { readonly id: string; readonly alsoBegun: readonly string[] },
  id: string | undefined,
): boolean {
  return id === undefined || sheet.id === id || sheet.alsoBegun.includes(id);
}

export function readBackId(adjustment: string): string {
  return `again ${adjustment}`;
}

function doneOf(sheet: SheetRecord, id: string): StepRecord | undefined {
  return sheet.done.find(({ step }) => step === id);
}

/**
 * [SH4] Which numbers of those read by eye are read back. Nobody can know beforehand, and every screen and every replay chooses the
 * same: by a hash of the sheet's name.
 */
export function readAgain(sheet: string, byEye: readonly string[]): ReadonlySet<string> {
  const order = byEye
    .map((number) => ({ number, by: hash(`${sheet} ${number}`) }))
    .sort((a, b) => a.by - b.by || a.number.localeCompare(b.number));
  return new Set(order.slice(0, READ_BACKS).map(({ number }) => number));
}

/** FNV-1a, 32 bits (Fowler, Noll, Vo; draft-eastlake-fnv), with a last mixing so that near names lie apart. */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (let place = 0; place < text.length; place += 1)
    value = Math.imul(value ^ text.charCodeAt(place), 0x01000193);
  value = Math.imul(value ^ (value >>> 16), 0x45d9f3b);
  return (value ^ (value >>> 16)) >>> 0;
}
