import type { LineIndex } from '../fold/lineIndex.ts';
import type { DatumRecord, SaidHow } from '../fold/settingRecords.ts';
import type { FoldState } from '../fold/state.ts';
import type { Adjustment, Line } from '../line/line.ts';
import type { Instant } from '../units/units.ts';

/** [SP1] Where an adjustment stands, and how that is known: read by a sensor, or as people said last. */
export interface Standing {
  readonly value: number;
  readonly how: 'sensor' | 'uncertain' | SaidHow;
  /** [SP10] What its scale read before it was moved here, or left; undefined where nobody said. */
  readonly found?: number;
  /** Since when it reads so, or when it was said. */
  readonly at: Instant;
  /** Nobody said so since the size that runs now began. Never of a sensor. */
  readonly beforeSize: boolean;
}

/** What is known of an adjustment's sensor: it reads now, it did and is silent, it never did, or there is none. */
export type SensorNow =
  | { readonly kind: 'reads'; readonly value: number; readonly at: Instant }
  | { readonly kind: 'uncertain'; readonly value: number; readonly at: Instant }
  | { readonly kind: 'silent'; readonly value: number; readonly at: Instant }
  | { readonly kind: 'unheard' }
  | { readonly kind: 'none' };

export function sensorNow(
  { line, linkAt }: LineIndex,
  state: Readonly<FoldState>,
  { number }: Pick<Adjustment, 'number'>,
): SensorNow {
  const signal = line.signals.find(({ role, of }) => role === 'adjustment' && of === number);
  if (!signal) return { kind: 'none' };
  const value = state.values[signal.index];
  const at = state.ats[signal.index] ?? (-1 as Instant);
  if (typeof value !== 'number' || at < 0) return { kind: 'unheard' };
  const link = state.values[linkAt.get(signal.server) ?? -1];
  // a link that missed nothing since it was lost reads so
  const known = link === true || link === 'whole' ? (state.known[signal.index] ?? 0) : 0;
  return { kind: known === 0 ? 'silent' : known === 1 ? 'reads' : 'uncertain', value, at };
}

/** [SP1] Undefined where no sensor reads it and nobody ever said. A sensor goes before what people said. */
export function standingNow(
  index: LineIndex,
  state: Readonly<FoldState>,
  adjustment: Pick<Adjustment, 'number'>,
): Standing | undefined {
  const sensor = sensorNow(index, state, adjustment);
  if (sensor.kind === 'reads' || sensor.kind === 'uncertain') {
    const how = sensor.kind === 'reads' ? 'sensor' : 'uncertain';
    return { value: sensor.value, how, at: sensor.at, beforeSize: false };
  }
  const said = state.settings.find((one) => one.adjustment === adjustment.number);
  // what a sensor read last is newer than what was said before it fell silent
  if (!said || (sensor.kind === 'silent' && sensor.at > said.at)) return undefined;
  const { value, how, at, found } = said;
  return { value, how, at, beforeSize: at < state.setSince, ...(found === null ? {} : { found }) };
}

/** [SP3] The datum that an adjustment's numbers stand under now; the first is 1. */
export function datumNow(datums: readonly DatumRecord[], adjustment: string): number {
  return datums.findLast((one) => one.adjustment === adjustment)?.datum ?? 1;
}

/** [BK1] The book's number: as a person approved it, else as the line's file says; undefined where neither does. */
export function bookNumber(
  { adjustments }: Pick<Line, 'adjustments'>,
  { book }: Pick<FoldState, 'book'>,
  size: string | null,
  adjustment: string,
): number | undefined {
  if (size === null) return undefined;
  const approved = book.find((one) => one.size === size && one.adjustment === adjustment);
  if (approved && approved.value !== null) return approved.value;
  return adjustments.find(({ number }) => number === adjustment)?.book.get(size);
}

/** In whole steps of its decimals, as both are read from a scale: 31.4 less 31.5 is −0.1, whatever was sent beyond. */
export function stepsApart(value: number, other: number, decimals: number): number {
  const steps = 10 ** decimals;
  return (Math.round(value * steps) - Math.round(other * steps)) / steps;
}

/** To the decimals of its scale. */
export function onScale(value: number, decimals: number): number {
  const steps = 10 ** decimals;
  return Math.round(value * steps) / steps;
}
