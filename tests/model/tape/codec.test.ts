import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Change, Value } from '../../../model/signals/signals.ts';
import { decode, encode } from '../../../model/tape/codec.ts';
import { crc32 } from '../../../model/tape/crc32.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import type { Instant } from '../../../model/units/units.ts';
import { anyChanges } from './anyChanges.ts';

function change(signal: number, at: number, value: Value, status = 0, received = at): Change {
  return { signal, at: at as Instant, received: received as Instant, status, value };
}

/** A stretch like a line's: two counters, a reading with decimals, a state of the link, a text. */
function stretch(length: number): Change[] {
  return Array.from({ length }, (_, place) => {
    const at = 1_950_000_000_000_000 + place * 200_000;
    const value = [place % 65_536, Math.fround(61.3 + (place % 7) / 10), place % 2 === 0, 'tuck jam'][
      place % 4
    ]!;
    return change(place % 4, at, value, 0, at + 130_000);
  });
}

describe('the codec', { timeout: 300_000 }, () => {
  it('gives back any changes as they were, minus zero and lone surrogates too', () => {
    fc.assert(
      fc.property(anyChanges, (changes) => {
        expect(decode(encode(changes))).toStrictEqual(changes);
      }),
      { numRuns: 500 },
    );
  });

  it('keeps each kind of value to the last bit', () => {
    const values: Value[] = [
      0, -0, 1, -1, 2 ** 53, -(2 ** 53), 2 ** 53 - 1, 2 ** 60, 0.1, 61.3, Math.fround(61.3), Math.PI,
      Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 5e-324, 1.7976931348623157e308,
      true, false, '', 'Sachet 20', '\ud800', null,
    ]; // biome-ignore format: a table
    for (const order of [values, values.toReversed()]) {
      const changes = order.map((value, place) => change(3, 1_000 + place, value));
      expect(decode(encode(changes))).toStrictEqual(changes);
    }
  });

  it('keeps moments that go backwards, lie before 2020 or beyond what is exact', () => {
    const moments = [5, 3, 3, -7, 2 ** 53 - 1, -(2 ** 53) + 1, 0, -132_537_600_000_000_000, 0.5];
    const changes = moments.map((at, place) => change(0, at, place, 0, moments[moments.length - 1 - place]));
    for (let length = 0; length <= changes.length; length += 1) {
      expect(decode(encode(changes.slice(0, length)))).toStrictEqual(changes.slice(0, length));
    }
  });

  it('gives a part of them, with signals called as the reader has them, and leaves out those it has not', () => {
    fc.assert(
      fc.property(anyChanges, fc.nat(100), fc.nat(100), (changes, from, to) => {
        const blob = encode(changes);
        const end = Math.min(to, changes.length);
        expect(decode(blob, { from, to: end })).toStrictEqual(changes.slice(from, end));
        const places = [3, undefined, 0, 1];
        const known = changes.flatMap((one) => {
          const signal = places[one.signal];
          return signal === undefined ? [] : [{ ...one, signal }];
        });
        expect(decode(blob, { places })).toStrictEqual(known);
      }),
    );
  });

  it('tells runs of one value, of one step and of one moment apart from what interrupts them', () => {
    const rows = Array.from({ length: 900 }, (_, place) =>
      change(
        place % 3,
        1_950_000_000_000_000 + Math.floor(place / 7) * 2_500_000,
        place,
        place % 200 === 9 ? 0x80000000 : 0,
      ),
    );
    for (const value of [null, true, 'lot 7', Number.NaN, 0.1, 2 ** 53]) {
      const changes = rows.map((one, place) => (place % 150 === 77 ? { ...one, value } : one));
      expect(decode(encode(changes))).toStrictEqual(changes);
    }
  });

  it('has the standard check value of CRC-32', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });

  it('gives the same bytes for the same changes, few of them', () => {
    expect(encode(stretch(5000))).toStrictEqual(encode(stretch(5000)));
    expect(encode(stretch(5000)).length / 5000).toBeLessThan(5);
  });

  it('refuses a blob of which any one byte was changed, and says that it is damaged', () => {
    const blob = encode(stretch(40));
    for (let place = 0; place < blob.length; place += 1) {
      const damaged = blob.slice();
      damaged[place]! ^= 1 << (place % 8);
      expect(() => decode(damaged), `byte ${place}`).toThrow(LineError);
      expect(() => decode(damaged), `byte ${place}`).toThrow('damaged');
    }
  });

  it('refuses a blob that was cut short at any length', () => {
    const blob = encode(stretch(40));
    for (let length = 0; length < blob.length; length += 1) {
      expect(() => decode(blob.subarray(0, length)), `length ${length}`).toThrow('damaged');
    }
  });

  it('refuses nonsense with a valid checksum rather than making changes of it', () => {
    fc.assert(
      fc.property(fc.constantFrom(1, 2), fc.uint8Array({ maxLength: 60 }), (format, rest) => {
        const body = Uint8Array.from([0x53, 0x4c, 0x54, format, ...rest]);
        const blob = new Uint8Array(body.length + 4);
        blob.set(body);
        new DataView(blob.buffer).setUint32(body.length, crc32(body), true);
        try {
          expect(Array.isArray(decode(blob))).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(LineError);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('says of a later format that a newer version wrote it', () => {
    const blob = encode(stretch(3));
    blob[3] = 9;
    new DataView(blob.buffer).setUint32(blob.length - 4, crc32(blob.subarray(0, -4)), true);
    expect(() => decode(blob)).toThrow('format 9');
  });
});
