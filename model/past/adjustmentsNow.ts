import type { LineIndex } from '../fold/lineIndex.ts';
import type { FoldState } from '../fold/state.ts';
import type { Adjustment } from '../line/line.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';

/** A numbered adjustment as it reads now, beside the book's number for the size that runs. */
export interface AdjustmentNow {
  readonly number: string;
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  readonly book: number | undefined;
  /** Reads so now, or read so last; undefined without a sensor, and before its first reading. */
  readonly value: number | undefined;
  /** sensor: read now. uncertain: read, with a doubt of the PLC's own. silent: it was read before, and is not now. none: no sensor. */
  readonly known: 'sensor' | 'uncertain' | 'silent' | 'none';
  /** Since when it reads so; of a silent one, the moment of its last reading. */
  readonly since: EpochMs | undefined;
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
      const book = adjustment.book.get(state.size ?? '');
      const reading = readingOf(index, state, adjustment);
      const reads = reading.known === 'sensor' || reading.known === 'uncertain';
      return {
        number: adjustment.number,
        name: adjustment.name,
        unit: adjustment.unit,
        decimals: adjustment.decimals,
        book,
        ...reading,
        off:
          reads && reading.value !== undefined && book !== undefined
            ? stepsApart(reading.value, book, adjustment.decimals)
            : undefined,
        scale: scaleOf(adjustment, book, reading.value),
      };
    });
}

function readingOf(
  { line, linkAt }: LineIndex,
  state: Readonly<FoldState>,
  { number }: Adjustment,
): Pick<AdjustmentNow, 'value' | 'known' | 'since'> {
  const signal = line.signals.find(({ role, of }) => role === 'adjustment' && of === number);
  if (!signal) return { value: undefined, known: 'none', since: undefined };
  const value = state.values[signal.index];
  const at = state.ats[signal.index] ?? (-1 as Instant);
  const link = state.values[linkAt.get(signal.server) ?? -1];
  // a link that missed nothing since it was lost reads so
  const heard = link === true || link === 'whole';
  const known = heard ? (state.known[signal.index] ?? 0) : 0;
  return {
    value: typeof value === 'number' ? value : undefined,
    known: typeof value !== 'number' || known === 0 ? 'silent' : known === 1 ? 'sensor' : 'uncertain',
    since: at < 0 || typeof value !== 'number' ? undefined : epochMs(at),
  };
}

/** In whole steps of its decimals, as both are read from a scale: 31.4 less 31.5 is −0.1, whatever was sent beyond. */
function stepsApart(value: number, book: number, decimals: number): number {
  const steps = 10 ** decimals;
  return (Math.round(value * steps) - Math.round(book * steps)) / steps;
}

/** Around the book's number, wide enough for what it reads, and no further than the scale goes. */
function scaleOf(
  { min, max }: Adjustment,
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
