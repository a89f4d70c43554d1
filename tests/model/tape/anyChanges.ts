import fc from 'fast-check';
import type { Change, Value } from '../../../model/signals/signals.ts';
import type { Instant } from '../../../model/units/units.ts';

const anyNumber = fc.oneof(
  fc.double(),
  fc.float(),
  fc.integer({ min: -1000, max: 1000 }),
  fc.maxSafeInteger(),
  fc.integer({ min: -100_000, max: 100_000 }).map((steps) => steps / 10),
  fc.integer({ min: -100_000, max: 100_000 }).map((steps) => Math.fround(steps / 100)),
  fc.constantFrom(
    Number.NaN,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    -0,
    0,
    2 ** 53,
    -(2 ** 53),
    5e-324,
  ),
);

/** Any value that can stand on a tape, the awkward ones often. */
export const anyValue: fc.Arbitrary<Value> = fc.oneof(
  { weight: 4, arbitrary: anyNumber },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 1, arbitrary: fc.string({ unit: 'grapheme' }) },
  { weight: 1, arbitrary: fc.constantFrom('tuck jam', 'tuck jam', '', '\ud800', '\u0000é→🍵') },
  { weight: 1, arbitrary: fc.constant(null) },
);

const anyMoment = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.integer({ min: 0, max: 400_000_000 }).map((ticks) => 1_950_000_000_000_000 + ticks),
  },
  {
    weight: 2,
    arbitrary: fc.integer({ min: 0, max: 40_000 }).map((ms) => 1_950_000_000_000_000 + ms * 10_000),
  },
  { weight: 1, arbitrary: fc.maxSafeInteger() },
);

/** One change; its moments lie anywhere and in no order. */
export const anyChange: fc.Arbitrary<Change> = fc.record(
  {
    signal: fc.oneof(fc.integer({ min: 0, max: 8 }), fc.integer({ min: 0, max: 70_000 })),
    at: anyMoment.map((at) => at as Instant),
    received: anyMoment.map((at) => at as Instant),
    status: fc.oneof(fc.constant(0), fc.constantFrom(0x80000000, 0x40900000, 0xffffffff), fc.nat()),
    value: anyValue,
  },
  { noNullPrototype: true },
);

/** Any stretch of a tape, empty or of up to a hundred changes. */
export const anyChanges: fc.Arbitrary<Change[]> = fc.array(anyChange, { maxLength: 100 });
