import type { ChangeoverKind } from '../fold/state.ts';
import type { Author } from '../entries/entries.ts';
import type { Adjustment } from '../line/line.ts';
import { scaleOf } from '../past/adjustmentsNow.ts';
import { isWalked, readAgain, type Walked, type WalkStop, walkOf } from '../setpoints/sheetSteps.ts';
import { bookNumber, sensorNow, standingNow } from '../setpoints/standing.ts';
import { type EpochMs, epochMs } from '../units/units.ts';
import type { Seen } from './seen.ts';
import {
  type NumberStep,
  type OtherStep,
  ranAtView,
  scaleFacts,
  type SheetStep,
  type SheetView,
  stationOf,
  wayOf,
} from './sheetView.ts';

/**
 * [SH8] What a screen keeps of sheets that nobody has begun yet: their steps with the numbers of each size, so that one can be begun
 * without the gateway.
 */
export interface SheetsAhead {
  readonly line: string;
  /** The moment that the numbers are from. */
  readonly at: EpochMs;
  /** The size that runs. */
  readonly from: { readonly id: string; readonly name: string } | undefined;
  /** The next order's and the one that runs first; of a line with very many, those that follow in its file. */
  readonly sizes: readonly SizeAhead[];
  /** All steps there may be, in walking order. */
  readonly walk: readonly (NumberAhead | OtherAhead)[];
}

export interface SizeAhead {
  readonly id: string;
  readonly name: string;
  readonly numbers: readonly {
    readonly adjustment: string;
    readonly book: number | undefined;
    readonly ranAt: NumberStep['ranAt'];
  }[];
}

export interface NumberAhead
  extends Walked,
    Pick<
      NumberStep,
      | 'kind'
      | 'id'
      | 'name'
      | 'station'
      | 'unit'
      | 'decimals'
      | 'min'
      | 'max'
      | 'wheel'
      | 'approach'
      | 'clamp'
    >,
    Pick<NumberStep, 'was' | 'now' | 'sensor'> {}

export interface OtherAhead extends Walked, Pick<OtherStep, 'kind' | 'id' | 'name' | 'station'> {
  /** Which part each size takes. */
  readonly parts: readonly { readonly size: string; readonly part: string }[];
}

/** So many sizes are kept: a screen's room has a bound. */
const SIZES_MOST = 60;

export function sheetsAhead(seen: Seen): SheetsAhead {
  const { index, state, now } = seen;
  const { line } = index;
  const next = state.orders.find(({ number }) => number === state.orderNext)?.size;
  const first = (id: string) => (id === next ? 0 : id === state.size ? 1 : 2);
  const sizes = line.sizes.toSorted((a, b) => first(a.id) - first(b.id)).slice(0, SIZES_MOST);
  const from = line.sizes.find(({ id }) => id === state.size);
  return {
    line: line.id,
    at: epochMs(now),
    from: from && { id: from.id, name: from.name },
    sizes: sizes.map(({ id, name }) => ({
      id,
      name,
      numbers: line.adjustments.map(({ number }) => ({
        adjustment: number,
        book: bookNumber(line, state, id, number),
        ranAt: ranAtView(state.ranAt.find((one) => one.size === id && one.adjustment === number)),
      })),
    })),
    walk: walkOf(line).map((stop) => stopView(seen, stop)),
  };
}

function stopView(seen: Seen, stop: WalkStop): NumberAhead | OtherAhead {
  const { in: kinds, takes } = stop;
  if (stop.kind === 'number') return { ...numberAhead(seen, stop.adjustment), in: kinds, takes };
  const { id, kind, name, station, parts = new Map<string, string>() } = stop.step;
  return {
    ...{ kind, id, name, in: kinds, takes, station: stationOf(seen, station) },
    parts: [...parts].map(([size, part]) => ({ size, part })),
  };
}

function numberAhead(seen: Seen, adjustment: Adjustment): Omit<NumberAhead, keyof Walked> {
  const { index, state } = seen;
  const { number, name, station } = adjustment;
  const standing = standingNow(index, state, adjustment);
  const stood = standing && { value: standing.value, how: standing.how, at: epochMs(standing.at) };
  return {
    ...{ kind: 'number', id: number, name, station: stationOf(seen, station) },
    ...scaleFacts(adjustment),
    was:
      stood === undefined || stood.how === 'uncertain' ? undefined : { value: stood.value, how: stood.how },
    now: stood,
    sensor: sensorNow(index, state, adjustment).kind,
  };
}

/**
 * [SH8] A sheet as it is begun on a screen while there is no network. Nobody hears sensors then: their numbers are read and entered.
 * Undefined for a size that is not kept.
 */
export function sheetBegunHere(
  ahead: SheetsAhead,
  begun: {
    readonly id: string;
    readonly size: string;
    readonly in: ChangeoverKind;
    readonly at: EpochMs;
    readonly author: Author;
  },
): SheetView | undefined {
  const size = ahead.sizes.find(({ id }) => id === begun.size);
  if (!size) return undefined;
  const { id, in: kind, at, author } = begun;
  const again = readAgain(
    id,
    ahead.walk.flatMap((stop) => (stop.kind === 'number' && stop.sensor !== 'reads' ? [stop.id] : [])),
  );
  const steps = ahead.walk.flatMap((stop): SheetStep[] => {
    if (!isWalked(stop, { kind, size: size.id })) return [];
    if (stop.kind === 'number') return [numberHere(stop, size, again.has(stop.id))];
    const { in: _in, takes: _takes, parts, ...head } = stop;
    const part = parts.find((one) => one.size === size.id)?.part;
    return [{ ...head, isDone: false, part, done: undefined }];
  });
  return {
    ...{ id, kind, begun: at, author, steps, left: steps.length },
    size: { id: size.id, name: size.name },
    from: ahead.from === undefined || ahead.from.id === size.id ? undefined : ahead.from.name,
    ...{ alsoBegun: [], handed: [], atRate: undefined, otherSize: undefined },
  };
}

function numberHere(stop: NumberAhead, size: SizeAhead, isAgain: boolean): NumberStep {
  const { in: _in, takes: _takes, sensor, now, ...head } = stop;
  const { book, ranAt } = size.numbers.find(({ adjustment }) => adjustment === stop.id) ?? {};
  const isRead = sensor === 'reads' || sensor === 'uncertain';
  const from = now?.value;
  return {
    ...head,
    ...{ book, ranAt, done: undefined, sensed: false, isDone: false },
    sensor: isRead ? 'silent' : sensor,
    now: isRead ? undefined : now,
    readBack: isAgain ? { asked: false, done: undefined, differs: false } : undefined,
    way: from === undefined || book === undefined ? undefined : wayOf(from, book, stop.decimals, stop.wheel),
    scale: scaleOf(stop, book, from),
  };
}
