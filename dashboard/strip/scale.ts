import type { TrendSpan, TrendView } from '../../model/view/trend.ts';

/** Where a strip lies in its drawing, in px: the chart's box, and the sizes that differ between wall, desk and phone. */
export interface StripBox {
  readonly width: number;
  readonly left: number;
  readonly top: number;
  readonly height: number;
  readonly right: number;
  readonly type: number;
  readonly pip: { readonly height: number; readonly type: number };
  /** Least width of a slot. */
  readonly slot: number;
  readonly rail: number;
  readonly rope: number;
}

export const WALL_STRIP: StripBox = {
  width: 1290,
  left: 78,
  right: 16,
  top: 66,
  height: 144,
  type: 22,
  pip: { height: 22, type: 18.9 },
  slot: 3,
  rail: 272,
  rope: 34,
};
export const DESK_STRIP: StripBox = {
  width: 1376,
  left: 52,
  right: 12,
  top: 50,
  height: 150,
  type: 14,
  pip: { height: 18, type: 13 },
  slot: 3,
  rail: 256,
  rope: 26,
};
export const PHONE_STRIP: StripBox = {
  width: 366,
  left: 34,
  right: 2,
  top: 28,
  height: 66,
  type: 14,
  pip: { height: 18, type: 12 },
  slot: 2,
  rail: 130,
  rope: 19,
};

/** Px of a moment. */
export function xOf(at: number, trend: TrendView, box: StripBox): number {
  const span = Math.max(1, trend.to - trend.from);
  const share = Math.min(1, Math.max(0, (at - trend.from) / span));
  return box.left + share * (box.width - box.left - box.right);
}

export function yOf(rate: number, trend: TrendView, box: StripBox): number {
  return box.top + box.height * (1 - Math.min(1, Math.max(0, rate / trend.maxRate)));
}

/** Spans that are slots with the station's number on a pip; the others carry their word. */
export function isStop(span: TrendSpan): boolean {
  return (
    span.kind === 'stopped' || span.kind === 'starved' || span.kind === 'blocked' || span.kind === 'safety'
  );
}

/** `marked` says since when a station is out of its normal. */
export function isMarked(span: TrendSpan, marked: ReadonlyMap<number, number>): boolean {
  const since = span.station === undefined ? undefined : marked.get(span.station);
  return isStop(span) && since !== undefined && span.from >= since;
}

export interface Pip {
  readonly span: TrendSpan;
  /** Middle of the slot, and of the pip that names it. */
  readonly slot: number;
  readonly x: number;
  readonly width: number;
  readonly text: string;
}

/**
 * Pips for as many stops as find room beside each other, the longest first (an open one before all), none further
 * from its slot than its own width.
 */
export function pips(trend: TrendView, box: StripBox): readonly Pip[] {
  const length = (span: TrendSpan) =>
    span.to === undefined ? Number.POSITIVE_INFINITY : span.to - span.from;
  const wanted = trend.spans
    .filter((span) => isStop(span) && span.station !== undefined)
    .sort((a, b) => length(b) - length(a));
  let placed: readonly Pip[] = [];
  for (const span of wanted) {
    const text = String(span.station);
    const width = box.pip.type * (text.length > 1 ? 1.64 : 1.06);
    const slot = (xOf(span.from, trend, box) + xOf(span.to ?? trend.now, trend, box)) / 2;
    const tried = spread([...placed, { span, slot, x: slot, width, text }], box);
    if (tried.every((pip) => Math.abs(pip.x - pip.slot) <= pip.width * 1.1)) placed = tried;
  }
  return placed;
}

/** Pushes overlapping pips apart: first rightwards, then back from the right edge. */
function spread(pipsIn: readonly Pip[], box: StripBox): readonly Pip[] {
  const sorted = [...pipsIn].sort((a, b) => a.slot - b.slot).map((pip) => ({ ...pip, x: pip.slot }));
  for (let pass = 0; pass < 8; pass++) {
    for (let i = 1; i < sorted.length; i++) {
      const [left, right] = [sorted[i - 1], sorted[i]];
      if (left === undefined || right === undefined) continue;
      const overlap = left.x + left.width / 2 + 1 + right.width / 2 - right.x;
      if (overlap > 0) {
        left.x -= overlap / 2;
        right.x += overlap / 2;
      }
    }
    const last = sorted.at(-1);
    if (last) last.x = Math.min(last.x, box.width - last.width / 2);
    const first = sorted[0];
    if (first) first.x = Math.max(first.x, box.left + first.width / 2);
  }
  return sorted;
}

/** Whole hours of the shift on its axis; every second one where the strip is narrow. */
export function hours(trend: TrendView, box: StripBox): readonly number[] {
  const hour = 3_600_000;
  const count = (trend.to - trend.from) / hour;
  const step = Math.max(1, Math.ceil((count * box.type * 3.2) / (box.width - box.left)));
  const all: number[] = [];
  for (let at = Math.ceil(trend.from / hour) * hour; at <= trend.to; at += hour * step) all.push(at);
  return all;
}

/** A stretch after now where words find room: between now and the pauses still to come. */
export function freeAfterNow(trend: TrendView, box: StripBox, width: number): number | undefined {
  const edges = trend.pauses
    .filter((pause) => pause.to > trend.now)
    .map((pause) => [xOf(Math.max(pause.from, trend.now), trend, box), xOf(pause.to, trend, box)] as const)
    .sort((a, b) => a[0] - b[0]);
  let from = xOf(trend.now, trend, box);
  for (const [start, end] of [...edges, [box.width - box.right, box.width - box.right] as const]) {
    if (start - from >= width + 24) return from + 14;
    from = Math.max(from, end);
  }
  return undefined;
}
