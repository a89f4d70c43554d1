/** So long before something it is looked at, so that what led to it is seen. */
export const BEFORE_MS = 60_000;
/** Widths of a replay's window, in minutes; and the one that it has unless another is chosen. */
export const WIDE = [2, 5, 10, 30, 60] as const;
export const WIDE_USUAL = 30;
const MINUTE_MS = 60_000;

/** Something of a line's past that can be looked at, by the milliseconds since 1970 at which it began. */
export interface Shown {
  readonly line: string;
  readonly at: number;
  /** When it was over; undefined where it lasts, or takes no time. */
  readonly until?: number | undefined;
  readonly station?: string | undefined;
}

/**
 * [RP20] Where a replay of it opens: a minute before, with a window in which it is seen whole if any is as wide. `of` is the thing
 * itself, by which the shift is found: what came in a shift's first minute is looked at from that shift's beginning.
 */
export function replayAddress({ line, at, until = at, station }: Shown): string {
  const wide = fitting(Math.max(0, until - at));
  const fields: readonly (readonly [string, string | number | undefined])[] = [
    ['line', line],
    ['at', at - BEFORE_MS],
    ['of', at],
    ['wide', wide === WIDE_USUAL ? undefined : wide],
    ['station', station],
  ];
  const said = fields.flatMap(([name, value]) =>
    value === undefined ? [] : [`${name}=${encodeURIComponent(value)}`],
  );
  return `/replay?${said.join('&')}`;
}

/** A window stands so that at least a quarter of it lies after the moment looked at. */
function fitting(lasted: number): number {
  const found = WIDE.slice(1).find((minutes) => (minutes * MINUTE_MS) / 4 >= BEFORE_MS + lasted);
  return found ?? WIDE.at(-1)!;
}
