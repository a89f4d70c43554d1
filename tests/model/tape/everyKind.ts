import type { Change, Value } from '../../../model/signals/signals.ts';
import type { Instant } from '../../../model/units/units.ts';

const values: readonly Value[] = [
  0, -0, 1, -1, 2 ** 53, -(2 ** 53), 2 ** 53 - 1, 2 ** 60, 0.1, 61.3, Math.fround(61.3), Math.PI,
  Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 5e-324, 1.7976931348623157e308,
  true, false, '', 'Sachet 20', '\ud800', null,
]; // biome-ignore format: a table

/** Each kind of value, in three signals, with moments that go back, and statuses that are not good. It never changes. */
export const everyKind: readonly Change[] = [3, 0, 70_000].flatMap((signal, turn) =>
  values.map((value, place): Change => {
    const at = 1_958_292_000_000_000 + turn * 10_000_000 + place * 3333 - (place % 5 === 0 ? 20_001 : 0);
    const status = place % 7 === 3 ? 0x80000000 + place : 0;
    return { signal, at: at as Instant, received: (at + 1_500_000) as Instant, status, value };
  }),
);
