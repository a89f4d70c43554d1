import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DIAGNOSIS_MEASURED } from '../../../model/diagnosis/measured.ts';
import { binomialAtLeast, binomialAtMost } from '../../../model/statistics/binomial.ts';
import { type DiagnosisRow, diagnosisRow, JUDGED_SEEDS } from '../diagnosis.ts';
import { MACHINES } from './machine.ts';
import {
  AFTER_READING,
  binTable,
  dontKnowTable,
  everythingSaid,
  FIRST_SIGHT,
  firstSaid,
  kindTable,
  measuredOf,
  sharesTable,
} from './summary.ts';

const rows = readFileSync(join(import.meta.dirname, '../diagnosis.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as DiagnosisRow & { readonly commit: string });
const usual = rows.filter(({ manner }) => manner === 'usual');
const on = (machine: DiagnosisRow['machine'], manner: DiagnosisRow['manner'] = 'usual') =>
  rows.filter((row) => row.machine === machine && row.manner === manner);
// columns as wide as the formatter makes them
const readme = readFileSync(join(import.meta.dirname, '../../../model/diagnosis/README.md'), 'utf8').replace(
  / {2,}/g,
  ' ',
);

describe('the proof of the diagnosis', () => {
  it('all troubles stand, of both machines and both manners of worlds, and the chances of each add up to 1', () => {
    expect(rows).toHaveLength(MACHINES.length * (JUDGED_SEEDS.usual + JUDGED_SEEDS.strange));
    expect(rows.filter(({ equal }) => !equal)).toEqual([]);
  });

  it('some of them, taken at random, come out again, exactly', () => {
    for (let nth = 0; nth < 8; nth += 1) {
      const { commit: _commit, ...row } = rows[Math.floor(Math.random() * rows.length)]!;
      expect(diagnosisRow(row.machine, row.manner, row.seed)).toEqual(row);
    }
  });

  it('[DG7] the model tells how good it was, as the rows have it', () => {
    expect(DIAGNOSIS_MEASURED).toEqual({
      line3: measuredOf(on('line3')),
      large: measuredOf(on('large')),
      line3Strange: measuredOf(on('line3', 'strange')),
      largeStrange: measuredOf(on('large', 'strange')),
    });
  });

  it('[DG7] on the bundled line the truth is said first in seven of ten troubles and is among the first three in nine, at first sight', () => {
    const { first, within3, firstRead, within3Read } = DIAGNOSIS_MEASURED.line3;
    expect(first).toBeGreaterThanOrEqual(70);
    expect(within3).toBeGreaterThanOrEqual(90);
    expect(firstRead).toBeGreaterThan(first);
    expect(within3Read).toBeGreaterThanOrEqual(within3);
  });

  it('[DG7] what is said comes true as often as is said: no tenth of the chances is off by more than chance and a twentieth', () => {
    for (const look of [FIRST_SIGHT, AFTER_READING])
      for (const bins of [firstSaid(usual, look), everythingSaid(usual, look)])
        for (const { times, said, true: came } of bins) {
          if (said === undefined || came === undefined) continue;
          const count = Math.round((times * came) / 100);
          const at = (percent: number) => Math.min(1, Math.max(0, percent / 100));
          expect(binomialAtMost(count, times, at(said - 5)), `${said} said, ${came} true`).toBeGreaterThan(
            0.001,
          );
          expect(binomialAtLeast(count, times, at(said + 5)), `${said} said, ${came} true`).toBeGreaterThan(
            0.001,
          );
        }
  });

  it('the README has the same, weaknesses included', () => {
    for (const row of [...kindTable(rows), ...sharesTable(rows), ...binTable(rows), ...dontKnowTable(rows)])
      expect(readme).toContain(row.replace(/ {2,}/g, ' '));
    expect(readme).toContain('## Weak where');
  });
});
