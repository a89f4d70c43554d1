import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FALSE_ONCE_IN } from '../../model/past/held.ts';
import { binomialAtLeast } from '../../model/statistics/binomial.ts';
import { HELD_SEEDS, type HeldRow, heldRows, MADE } from './held.ts';
import { families } from './normal.ts';

const rows = readFileSync(join(import.meta.dirname, 'held.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as HeldRow & { readonly commit: string });

function sumOf(some: readonly HeldRow[]) {
  const sum = (of: (row: HeldRow) => number) => some.reduce((total, row) => total + of(row), 0);
  return { changes: sum((row) => row.changes), fewer: sum((row) => row.fewer), more: sum((row) => row.more) };
}

describe('the proof of whether changes held', () => {
  it('has every family of levels, every seed, both measures and both ways in which a change comes about', () => {
    expect(rows).toHaveLength(Object.keys(families).length * HELD_SEEDS * 2 * MADE.length * 2);
    expect(sumOf(rows.filter(({ left }) => left === 1)).changes).toBe(12_320);
  });

  it.each(MADE)(
    '[HE1] a change that did nothing, made %s, is said to have done something less often than is stated',
    (made) => {
      const nothing = rows.filter((row) => row.left === 1 && row.made === made);
      const { changes, fewer, more } = sumOf(nothing);
      expect(Math.max(fewer, more) / changes).toBeLessThan(1 / FALSE_ONCE_IN);
      // nor does any family of levels alone, or either measure, go beyond it by more than chance
      for (const levels of Object.keys(families))
        for (const measure of ['stops', 'rejects']) {
          const cell = sumOf(nothing.filter((row) => row.levels === levels && row.measure === measure));
          for (const said of [cell.fewer, cell.more])
            expect(
              binomialAtLeast(said, cell.changes, 1 / FALSE_ONCE_IN),
              `${levels} ${measure}`,
            ).toBeGreaterThan(0.01);
        }
    },
  );

  it('[HE1] one that left three in ten is found in a third of all at least, and never said to have brought more', () => {
    for (const measure of ['stops', 'rejects'] as const) {
      const { changes, fewer, more } = sumOf(rows.filter((row) => row.left < 1 && row.measure === measure));
      expect(fewer / changes).toBeGreaterThan(1 / 3);
      expect(more).toBe(0);
    }
  });

  it('one row, taken at random, comes out again, exactly', () => {
    const { commit: _commit, ...row } = rows[Math.floor(Math.random() * rows.length)]!;
    expect(heldRows(row.levels, row.seed)).toContainEqual(row);
  });
});
