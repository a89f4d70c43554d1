import type { ChangeoverKind, FoldState, OrderRecord } from '../fold/state.ts';
import { isWalked, walkOf } from '../setpoints/sheetSteps.ts';
import { after, between, type EpochMs, epochMs, type Instant, minutes } from '../units/units.ts';
import type { Seen } from './seen.ts';

/** [SH9] A sheet that fits what the line does, for a person to begin: it never begins by itself. */
export interface SheetOffered {
  readonly kind: ChangeoverKind;
  readonly size: { readonly id: string; readonly name: string };
  /**
   * nextSize, nextBlend: the order that follows has another. blend: the order that runs has another than the one before it. stood: the
   * line stands, or stood, for long. shift: it stood when the shift began. first: no size ran before.
   */
  readonly why: 'nextSize' | 'nextBlend' | 'blend' | 'stood' | 'shift' | 'first';
  /** Since when it is so. */
  readonly since: EpochMs;
}

/** A stand of this length is followed by a start-up (common practice, no source). */
const LONG = minutes(120);
/** One that goes on from the shift before needs no more than this. */
const OVER_SHIFT = minutes(15);
/** Production is back for so long, and it is a start-up no more. */
const STARTED = minutes(30);

interface Occasion extends Pick<SheetOffered, 'kind' | 'why'> {
  readonly size: string | null;
  readonly since: Instant;
}

/** [SH9] Undefined where none fits, where one is open, and where one was begun for the same before. */
export function sheetOffered(seen: Seen): SheetOffered | undefined {
  const { index, state } = seen;
  const { sheet } = state;
  if (sheet && sheet.ended === null) return undefined;
  const occasion = ofChangeover(state) ?? ofStart(seen);
  const size = index.line.sizes.find(({ id }) => id === occasion?.size);
  if (!occasion || !size) return undefined;
  const { kind, why, since } = occasion;
  if (sheet && (sheet.begin >= since || sheet.changeover === since)) return undefined;
  // a kind for which the line's file asks nothing needs no sheet
  if (!walkOf(index.line).some((stop) => isWalked(stop, { kind, size: size.id }))) return undefined;
  return { kind, why, size: { id: size.id, name: size.name }, since: epochMs(since) };
}

/** What the orders tell of the changeover that goes on; where they tell nothing, nobody knows its kind yet. */
function ofChangeover(state: Readonly<FoldState>): Occasion | undefined {
  const { changeover, size } = state;
  if (!changeover) return undefined;
  const { begin: since, kind, fromBlend } = changeover;
  if (kind === 'size') return undefined;
  if (kind === 'startUp') return { kind, why: 'first', size, since };
  const order = (number: string | null): OrderRecord | undefined =>
    state.orders.find((one) => one.number === number);
  const runs = order(state.order);
  const next = order(state.orderNext);
  if (runs && fromBlend !== null && runs.blend !== fromBlend && runs.size === size)
    return { kind: 'artwork', why: 'blend', size, since };
  if (!next) return undefined;
  if (next.size !== size) return { kind: 'size', why: 'nextSize', size: next.size, since };
  return next.blend === (runs?.blend ?? fromBlend)
    ? undefined
    : { kind: 'artwork', why: 'nextBlend', size, since };
}

/** The line stands for long, or since the shift before; or it did until a short while ago. */
function ofStart({ state, now }: Seen): Occasion | undefined {
  const { size, lastGood, shift, changeover, producing, stops } = state;
  if (changeover || lastGood < 0) return undefined;
  const stood = producing
    ? stops.flatMap(({ begin, end }) => (end !== null && after(end, STARTED) > now ? [{ begin, end }] : []))
    : [{ begin: lastGood, end: now }];
  const from = shift.shift?.from;
  for (const { begin, end } of stood) {
    const lasted = between(begin, end);
    const start = { kind: 'startUp', size, since: begin } as const;
    if (lasted >= LONG) return { ...start, why: 'stood' };
    if (from !== undefined && begin < from && end >= from && lasted >= OVER_SHIFT)
      return { ...start, why: 'shift' };
  }
  return undefined;
}
