import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shared } from '../../../dashboard/store/shared.ts';

describe('what two views share', () => {
  it('says exactly what the next view says', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.jsonValue(), (before, next) => {
        expect(shared(before, next)).toStrictEqual(next);
      }),
    );
  });

  it('is the view before where nothing changed', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (before) => {
        const again: unknown = structuredClone(before);
        expect(shared(before, again)).toBe(typeof before === 'object' ? before : again);
      }),
    );
  });

  it('keeps each piece that did not change', () => {
    const before = { spans: [{ from: 1 }, { from: 2, to: undefined }], now: 3 };
    const next = shared(before, { spans: [{ from: 1 }, { from: 2, to: 4 }], now: 5 });
    expect(next.spans[0]).toBe(before.spans[0]);
    expect(next.spans[1]).toEqual({ from: 2, to: 4 });
  });
});
