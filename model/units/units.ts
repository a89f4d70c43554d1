declare const unit: unique symbol;
type Unit<Name extends string> = number & { readonly [unit]: Name };

/**
 * A moment, in ticks of 100 ns since 2020-01-01T00:00:00Z. OPC UA source times have this resolution, and
 * integers of this size stay exact until 2048, so sums of time add up to the last tick.
 */
export type Instant = Unit<'Instant'>;
/** A length of time in ticks of 100 ns. */
export type Span = Unit<'Span'>;
/** Whole cartons. */
export type Cartons = Unit<'Cartons'>;
export type CartonsPerMinute = Unit<'CartonsPerMinute'>;
/** A moment as people's programs write it: milliseconds since 1970, for views and interfaces only. */
export type EpochMs = Unit<'EpochMs'>;
/** A length of time in milliseconds, for views and interfaces only. */
export type Millis = Unit<'Millis'>;

/** 2020-01-01T00:00:00Z in milliseconds since 1970. */
export const EPOCH_2020_MS = 1_577_836_800_000;
export const TICKS_PER_MS = 10_000;
export const SECOND = 10_000_000 as Span;
export const MINUTE = 600_000_000 as Span;
export const HOUR = 36_000_000_000 as Span;

/** The moment of a wall-clock reading; `hundredNs` are the ticks within its millisecond, 0 to 9999. */
export function instantFromMs(epochMs: number, hundredNs = 0): Instant {
  return (Math.round((epochMs - EPOCH_2020_MS) * TICKS_PER_MS) + hundredNs) as Instant;
}

/** Milliseconds since 1970, rounded to the nearest whole millisecond: for people, never for order. */
export function epochMs(at: Instant): EpochMs {
  return (EPOCH_2020_MS + Math.round(at / TICKS_PER_MS)) as EpochMs;
}

export function millis(span: Span): Millis {
  return Math.round(span / TICKS_PER_MS) as Millis;
}

export function seconds(count: number): Span {
  return Math.round(count * SECOND) as Span;
}

export function minutes(count: number): Span {
  return Math.round(count * MINUTE) as Span;
}

export function after(at: Instant, span: Span): Instant {
  return (at + span) as Instant;
}

/** How long from the first moment to the second; negative when the second is earlier. */
export function between(from: Instant, to: Instant): Span {
  return (to - from) as Span;
}

/** Mean speed. Undefined over no time: a rate there has no meaning, and is not zero. */
export function rate(made: number, over: Span): CartonsPerMinute | undefined {
  return over > 0 ? (((made * MINUTE) / over) as CartonsPerMinute) : undefined;
}
