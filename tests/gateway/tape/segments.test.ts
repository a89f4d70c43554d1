import fc from 'fast-check';
import { expect, it, vi } from 'vitest';
import { divide, SEGMENT_MOST, SEGMENT_SPAN, seal, unseal } from '../../../gateway/tape/segments.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { begin, change, stretch } from './stretch.ts';

vi.setConfig({ testTimeout: 300_000 });

/** Appends in batches of the given sizes; answers the segments, and the tail that stays. */
function sealedInBatches(
  changes: readonly Change[],
  sizes: readonly number[],
): { sealed: number[]; tail: number } {
  const sealed: number[] = [];
  let tail: readonly Change[] = [];
  let from = 0;
  for (let turn = 0; from < changes.length; turn += 1) {
    const fresh = changes.slice(from, from + sizes[turn % sizes.length]!);
    const division = divide(tail, fresh);
    sealed.push(...division.sealed.map((segment) => segment.length));
    tail = division.sealed.length > 0 ? division.rest : [...tail, ...division.rest];
    from += fresh.length;
  }
  return { sealed, tail: tail.length };
}

it('cuts depend on the changes alone, not on their batches', () => {
  const moments = fc.array(fc.nat({ max: 3 * SEGMENT_SPAN }), { maxLength: 80 });
  const sizes = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(moments, sizes, sizes, (steps, some, others) => {
      let at = begin;
      const changes = steps.map((step, place) => {
        at += step % 5 === 0 ? -step : step; // now and then the gateway's clock is set back
        return change(0, at, place);
      });
      expect(sealedInBatches(changes, some)).toEqual(sealedInBatches(changes, others));
    }),
  );
});

it('a segment ends before the first change received ten minutes after its first', () => {
  const changes = [0, 1, SEGMENT_SPAN - 1, SEGMENT_SPAN, SEGMENT_SPAN + 1].map((at) =>
    change(0, begin + at, at),
  );
  const { sealed, rest } = divide(changes.slice(0, 2), changes.slice(2));
  expect(sealed).toEqual([changes.slice(0, 3)]);
  expect(rest).toEqual(changes.slice(3));
});

it('a segment never holds more changes than the most', () => {
  const { sealed, tail } = sealedInBatches(stretch(0, SEGMENT_MOST + 5, 1), [50_000]);
  expect([sealed, tail]).toEqual([[SEGMENT_MOST], 5]);
});

it('a sealed segment opens to the same changes', () => {
  expect(unseal(seal(stretch(0, 600)))).toStrictEqual(stretch(0, 600));
});
