import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { boundLine, changesOf, runFor } from '../simulator/simulatedLine.ts';
import { shiftsOf, type WeekRow } from './week.ts';

const rows = readFileSync(join(import.meta.dirname, 'week.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((text) => JSON.parse(text) as WeekRow & { readonly commit: string });

describe('proof rows', () => {
  it('all weeks stand: three variants, two seeds, 21 shifts each, every one equal to its ledger', () => {
    expect(rows).toHaveLength(126);
    expect(rows.filter(({ equal }) => !equal)).toEqual([]);
  });

  it('a row taken at random comes out again, exactly', () => {
    const early = rows.filter(({ shift }) => shift <= 3);
    const { commit: _commit, ...row } = early[Math.floor(Math.random() * early.length)]!;
    expect([...shiftsOf(row.variant, row.seed, row.shift)].at(-1)).toEqual(row);
  });

  it('[TI3] a simulated shift, cut anywhere and resumed from what was saved, gives the same state', () => {
    const bound = boundLine();
    const changes = changesOf(bound, runFor(5, { seed: 21 }).told);
    const whole = new LineFold(bound.line);
    whole.take(changes);
    fc.assert(
      fc.property(fc.array(fc.nat(changes.length), { minLength: 1, maxLength: 4 }), (cuts) => {
        const edges = [0, ...[...cuts].sort((a, b) => a - b), changes.length];
        let fold = new LineFold(bound.line);
        for (let n = 1; n < edges.length; n += 1) {
          fold.take(changes.slice(edges[n - 1], edges[n]));
          fold = new LineFold(bound.line, fold.save());
        }
        expect(fold.text()).toBe(whole.text());
      }),
      { numRuns: 6 },
    );
  });
});
