import type { DatumWhy } from '../entries/sheetEntries.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { SaidHow } from '../fold/settingRecords.ts';
import type { FoldState } from '../fold/state.ts';
import type { Adjustment } from '../line/line.ts';
import { bookNumber, sensorNow, standingNow, stepsApart } from '../setpoints/standing.ts';
import { type EpochMs, epochMs } from '../units/units.ts';

/** A numbered adjustment as it reads now, beside the book's number for the size that runs. */
export interface AdjustmentNow {
  readonly number: string;
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  readonly book: number | undefined;
  /** Reads so now, or read so last; undefined without a sensor, and before its first reading. */
  readonly value: number | undefined;
  /**
   * sensor: read now. uncertain: read, with a doubt of the PLC's own. typed, readBack, confirmed: as people said last. silent: it was
   * read before, and is not now, and nobody said since. none: no sensor, and nobody ever said.
   */
  readonly known: 'sensor' | 'uncertain' | SaidHow | 'silent' | 'none';
  /** Since when it reads so, or when it was said; of a silent one, the moment of its last reading. */
  readonly since: EpochMs | undefined;
  /** People said so for the size before this one, and nobody did since. */
  readonly beforeSize: boolean;
  /** [SP3] Which datum its numbers stand under, where it is not the first. */
  readonly datum: { readonly number: number; readonly since: EpochMs; readonly why: DatumWhy } | undefined;
  /** Reading less book, in whole steps of its decimals; undefined where it does not read now. */
  readonly off: number | undefined;
  readonly scale: AdjustmentScale;
}

/** The part of its scale that is drawn, with a tick at each whole `step`. */
export interface AdjustmentScale {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly { readonly at: number; readonly labelled: boolean }[];
}

/** Steps on either side of the book's number; the fifth is labelled. */
const STEPS = 5;
const NICE = [1, 2, 5, 10, 20, 50, 100] as const;

export function adjustmentsNow(
  index: LineIndex,
  state: Readonly<FoldState>,
  station: string,
): readonly AdjustmentNow[] {
  return index.line.adjustments
    .filter((adjustment) => adjustment.station === station)
    .map((adjustment) => {
      const book = bookNumber(index.line, state, state.size, adjustment.number);
      const reading = readingOf(index, state, adjustment);
      const reads = reading.known !== 'silent' && reading.known !== 'none' && !reading.beforeSize;
      return {
        number: adjustment.number,
        name: adjustment.name,
        unit: adjustment.unit,
        decimals: adjustment.decimals,
        book,
        ...reading,
        datum: datumOf(state, adjustment.number),
        off:
          reads && reading.value !== undefined && book !== undefined
            ? stepsApart(reading.value, book, adjustment.decimals)
            : undefined,
        scale: scaleOf(adjustment, book, reading.value),
      };
    });
}

/** What is known of where an adjustment stands. */
export function readingOf(
  index: LineIndex,
  state: Readonly<FoldState>,
  adjustment: Adjustment,
): Pick<AdjustmentNow, 'value' | 'known' | 'since' | 'beforeSize'> {
  const standing = standingNow(index, state, adjustment);
  if (standing) {
    const { value, how, at, beforeSize } = standing;
    return { value, known: how, since: epochMs(at), beforeSize };
  }
  const sensor = sensorNow(index, state, adjustment);
  if (sensor.kind === 'none' || sensor.kind === 'unheard') {
    const known = sensor.kind === 'none' ? 'none' : 'silent';
    return { value: undefined, known, since: undefined, beforeSize: false };
  }
  return { value: sensor.value, known: 'silent', since: epochMs(sensor.at), beforeSize: false };
}

/** The datum that its numbers stand under; undefined for the first. */
export function datumOf({ datums }: Readonly<FoldState>, number: string): AdjustmentNow['datum'] {
  const last = datums.findLast(({ adjustment }) => adjustment === number);
  return last && { number: last.datum, since: epochMs(last.at), why: last.why };
}

/** Around the book's number, wide enough for what it reads, and no further than the scale goes. */
export function scaleOf(
  { min, max }: Pick<Adjustment, 'min' | 'max'>,
  book: number | undefined,
  value: number | undefined,
): AdjustmentScale {
  const middle = book ?? value ?? (min + max) / 2;
  const wide = Math.abs((value ?? middle) - middle) * 1.2;
  const step = NICE.find((one) => one * STEPS >= wide) ?? 200;
  const from = Math.max(min, Math.floor(middle / step - STEPS) * step);
  const to = Math.min(max, Math.ceil(middle / step + STEPS) * step);
  const ticks: AdjustmentScale['ticks'][number][] = [];
  for (let n = Math.ceil(from / step); n * step <= to; n += 1)
    ticks.push({ at: n * step, labelled: n % STEPS === 0 });
  return { from, to, ticks };
}
