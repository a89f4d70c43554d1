import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLineFile } from '../../../gateway/binding/binding.ts';
import { FileError } from '../../../gateway/binding/faults.ts';
import { parseOrders } from '../../../gateway/binding/orders.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { small } from './smallFile.ts';

const lines = resolve(import.meta.dirname, '../../../simulator/lines');
const bundled = readFileSync(resolve(lines, 'line-3.yaml'), 'utf8');
const orders = readFileSync(resolve(lines, 'orders.csv'), 'utf8');

/** A place in a text, as a share of its length, and what is done there. */
const mangling = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.oneof({ weight: 3, arbitrary: fc.nat(12) }, { weight: 1, arbitrary: fc.nat(600) }),
  put: fc.oneof(
    fc.constantFrom(
      '',
      '\n',
      ' ',
      '\t',
      '{',
      '}',
      '[',
      ']',
      '- ',
      ': ',
      '"',
      "'",
      '#',
      '*a',
      '&a',
      '!!set',
      '<<: ',
      '? ',
      '---\n',
      '|',
      '__proto__: 1',
      'null',
      '.nan',
      '1e999',
      '-1',
      '0',
      'true',
      '\0',
      '\ud800',
      ',',
    ),
    fc.string({ maxLength: 8 }),
    fc.string({ unit: 'binary', maxLength: 4 }),
  ),
});
/** Mostly the small file: the bundled one takes ten times as long. */
const base = fc.oneof(
  { weight: 9, arbitrary: fc.constant(small) },
  { weight: 1, arbitrary: fc.constant(bundled) },
);
const manglings = fc.array(mangling, { minLength: 1, maxLength: 4 });

function mangle(text: string, how: readonly { at: number; cut: number; put: string }[]): string {
  return how.reduce((before, { at, cut, put }) => {
    const place = Math.floor(at * before.length);
    return before.slice(0, place) + put + before.slice(place + cut);
  }, text);
}

/** True when it was read, false when it was refused as it should be. */
function read(work: () => void, text: string): boolean {
  try {
    work();
    return true;
  } catch (error) {
    if (!(error instanceof FileError)) throw error;
    expect(error).toBeInstanceOf(LineError);
    expect(error.faults.length).toBeGreaterThan(0);
    const last = text.split('\n').length;
    for (const { at, what, why, mend } of error.faults) {
      expect(at.line).toBeGreaterThanOrEqual(1);
      expect(at.line).toBeLessThanOrEqual(last);
      expect(at.column).toBeGreaterThanOrEqual(1);
      expect(what !== '' && why !== '' && mend !== '', JSON.stringify({ what, why, mend })).toBe(true);
    }
    return false;
  }
}

/** Others at every run. */
const RUNS = 2000;

describe('mangled files', () => {
  it('two thousand mangled line files are each read or refused in words, and never crash', () => {
    let accepted = 0;
    let refused = 0;
    fc.assert(
      fc.property(base, manglings, (original, how) => {
        const text = mangle(original, how);
        const whole = read(() => {
          const { line, tags } = parseLineFile(text, 'mangled.yaml');
          expect(line.signals.every(({ index }, place) => index === place)).toBe(true);
          expect(new Set(line.signals.map(({ id }) => id)).size).toBe(line.signals.length);
          expect(line.signals.filter(({ index }) => tags.has(index)).length).toBe(tags.size);
          expect(line.settings.rateMax).toBeGreaterThan(0);
        }, text);
        if (whole) accepted += 1;
        else refused += 1;
      }),
      { numRuns: RUNS },
    );
    expect(accepted).toBeGreaterThan(0);
    expect(refused).toBeGreaterThan(RUNS / 4);
  });

  it('neither do as many mangled lists of orders', () => {
    const { line } = parseLineFile(bundled, 'line-3.yaml');
    let accepted = 0;
    fc.assert(
      fc.property(manglings, (how) => {
        const text = mangle(orders, how);
        if (read(() => parseOrders(text, 'orders.csv', line), text)) accepted += 1;
      }),
      { numRuns: RUNS },
    );
    expect(accepted).toBeGreaterThan(0);
    expect(accepted).toBeLessThan(RUNS);
  });
});
