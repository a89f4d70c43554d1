import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { divide, seal, unseal } from '../../../gateway/tape/segments.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { encode } from '../../../model/tape/codec.ts';
import { anyChanges } from './anyChanges.ts';
import { everyKind } from './everyKind.ts';
import { readByThePage } from './readerOfThePage.ts';
import { hashOf, inMilliseconds, storedShift } from './shift/shift.ts';

const stored = (name: string) => readFileSync(join(import.meta.dirname, name));

describe('what was written once', { timeout: 300_000 }, () => {
  it('[TP2] segments of every format so far open for ever, whatever they hold', () => {
    for (const name of ['format-1.segment', 'format-2.segment'])
      expect(unseal(stored(name)), name).toStrictEqual(everyKind);
  });

  it('[TP3] the format that is written is the one of the stored file: another one has another number', () => {
    expect(encode(everyKind)).toStrictEqual(new Uint8Array(inflateSync(stored('format-2.segment'))));
  });
});

describe('a reader that was written from the page alone', { timeout: 300_000 }, () => {
  it('[TP3] reads stored segments of every format, and a shift of the bundled line', () => {
    for (const name of ['format-1.segment', 'format-2.segment'])
      expect(readByThePage(stored(name)), name).toStrictEqual(everyKind);
    const { changes } = storedShift();
    for (const some of [changes, inMilliseconds(changes)]) {
      const { sealed } = divide([], some.slice(0, 40_000));
      for (const segment of sealed) expect(readByThePage(seal(segment))).toStrictEqual(segment);
    }
  });

  it('[TP3] reads whatever changes there are', () => {
    fc.assert(
      fc.property(anyChanges, (changes) => {
        expect(readByThePage(seal(changes))).toStrictEqual(changes);
      }),
      { numRuns: 300 },
    );
  });
});

describe('a shift of the bundled line', { timeout: 300_000 }, () => {
  const { changes } = storedShift();

  it('is the one that was stored', () => {
    expect(changes).toHaveLength(275_903);
    expect(hashOf(changes)).toBe('8ec17795987c235b03cbfb291cb792e38576f21d2548351efa7141cf0e97fe5c');
  });

  it('[TP3] nothing is lost, and a change takes no more than 4.6 bytes where stamps have 100 ns', () => {
    expect(bytesAChange(changes)).toBeLessThan(4.6);
  });

  it('[TP3] nothing is lost, and a change takes no more than 2.5 bytes where the PLC stamps in milliseconds', () => {
    const coarse = inMilliseconds(changes);
    expect(hashOf(coarse)).toBe('756e29b4951c96f736a06cef43097abcf15746de968453c5df49439fb0120958');
    expect(bytesAChange(coarse)).toBeLessThan(2.5);
  });
});

/** In sealed segments, each of which is opened again and compared. */
function bytesAChange(changes: readonly Change[]): number {
  const { sealed, rest } = divide([], changes);
  let bytes = 0;
  const opened: Change[] = [];
  for (const segment of [...sealed, rest]) {
    const body = seal(segment);
    bytes += body.length;
    for (const change of unseal(body)) opened.push(change);
  }
  expect(hashOf(opened)).toBe(hashOf(changes));
  return bytes / changes.length;
}
