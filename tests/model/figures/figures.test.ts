import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FIGURE_IDS, type FigureId, figureOf, isFigure } from '../../../model/figures/figures.ts';
import { figureValues } from '../../../model/figures/figureValues.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import { addFigures, type FiguresPast, NOTHING_PAST } from '../../../model/past/figuresPast.ts';
import { wordsIn } from '../../../model/words/words.ts';
import { smallLine } from '../smallLine.ts';
import { caseA } from './caseA.ts';

const index = indexOf(smallLine());
const words = wordsIn('en').screen.past.figures;

function figure(sum: FiguresPast, id: FigureId) {
  return figureValues({ index, sum, account: { possible: 23_000, total: 2220 } }).find(
    (one) => one.id === id,
  )!;
}

describe('the registry of figures', () => {
  it('[KP5] names only figures that it has, in no circle, and only rules of the specification', () => {
    const spec = readFileSync(new URL('../../../model/SPEC.md', import.meta.url), 'utf8');
    const rules = new Set([...spec.matchAll(/^- \*\*\[(\w+)\]/gm)].map(([, tag]) => tag));
    const depth = (id: FigureId, above: readonly string[]): number => {
      expect(above.includes(id), `${id} is made of itself`).toBe(false);
      return 1 + Math.max(0, ...figureOf(id).from.map((part) => depth(part, [...above, id])));
    };
    for (const id of FIGURE_IDS) {
      const { from, rule } = figureOf(id);
      for (const part of from) expect(isFigure(part), `${id} is made of ${part}`).toBe(true);
      if (rule !== undefined) expect(rules, id).toContain(rule);
      expect(depth(id, [])).toBeLessThan(8);
    }
    expect(FIGURE_IDS.length).toBeGreaterThan(60);
  });

  it('[KP5] says of every figure what it is and how it is made, each in its own words', () => {
    const told = FIGURE_IDS.map((id) => words.of[id]);
    expect(told.every(({ name, what, how }) => name !== '' && what.endsWith('.') && how !== '')).toBe(true);
    for (const key of ['name', 'what'] as const)
      expect(new Set(told.map((one) => one[key])).size, key).toBe(told.length);
  });

  it('[KP5] says where somebody else defines it, for all that bear a name of the standard', () => {
    const standard: readonly FigureId[] = [
      'oee',
      'nee',
      'availability',
      'effectiveness',
      'qualityRatio',
      'plannedBusyTime',
      'actualProductionTime',
      'setupTime',
      'delayTime',
      'downTime',
      'mtbf',
      'mttr',
      'throughput',
    ];
    for (const id of standard) expect(words.of[id].source, id).toContain('ISO 22400-2');
  });
});

describe('values of figures', () => {
  it('[KP4] are those of a case worked by hand', () => {
    const told = Object.fromEntries(
      figureValues({ index, sum: caseA, account: undefined }).map(({ id, value }) => [id, value]),
    );
    const expected: Partial<Record<FigureId, number>> = {
      availability: 0.826667,
      effectiveness: 0.95,
      qualityRatio: 0.980004,
      oee: 0.76963,
      nee: 0.80687,
      technicalEfficiency: 0.898551,
      allocationEfficiency: 0.96,
      utilizationEfficiency: 0.861111,
      setupRate: 0.046154,
      scrapRatio: 0.019996,
      throughput: 49.083333,
      mttr: 6,
      mtbf: 55.714286,
      mtbfOneMore: 48.75,
      plannedBusyTime: 450,
      busyTime: 432,
      processingTime: 390,
    };
    for (const [id, value] of Object.entries(expected)) expect(told[id], id).toBeCloseTo(value, 6);
  });

  it('[KP4] of two shifts together are made of their sums: OEE of case A and of a short shift', () => {
    // a second shift of 210 minutes with 6,000 good cartons at the same ideal rate: the mean of both ratios is 0.622910
    const short: FiguresPast = {
      ...NOTHING_PAST,
      pot: 210,
      elements: { ...caseA.elements, pbt: 210, apt: 150, plannedRunTime: 100, pq: 6000, gq: 6000 },
    };
    expect(figure(short, 'oee').value).toBeCloseTo(0.47619, 6);
    expect(figure(addFigures(caseA, short), 'oee').value).toBeCloseTo(0.676263, 6);
  });

  it('[KP4] have a range where they are estimates: failures by chi-square, shares exactly', () => {
    // 390 minutes and 7 failures: 780 / χ²(0.975; 16) and 780 / χ²(0.025; 14); R 4.2.2 qchisq 28.84535 and 5.628726
    const mtbf = figure(caseA, 'mtbf');
    expect([mtbf.lower, mtbf.upper]).toEqual([expect.closeTo(27.04075, 4), expect.closeTo(138.5749, 3)]);
    const rejects = figure(caseA, 'rejectsPerThousand');
    expect(rejects.value).toBeCloseTo(400 / 21.204, 9);
    expect(rejects.lower! < rejects.value! && rejects.value! < rejects.upper!).toBe(true);
    expect(figure(caseA, 'good')).toMatchObject({ lower: undefined, upper: undefined });
  });

  it('[KP4] are none, and say why, where there is nothing to make them of', () => {
    const none = (id: FigureId) => figure(NOTHING_PAST, id).none;
    expect([none('oee'), none('qualityRatio'), none('coverage'), none('mttr')]).toEqual([
      'noTime',
      'noCartons',
      'noTime',
      'noFailure',
    ]);
    const quiet = { ...caseA, elements: { ...caseA.elements, failures: 0, restoring: 0 } };
    // "no failure in 390 minutes": with 95 % the mean time is longer than 390 / −ln 0.05
    expect(figure(quiet, 'mtbf')).toMatchObject({
      value: undefined,
      lower: expect.closeTo(390 / -Math.log(0.05), 6),
      upper: undefined,
      none: 'noFailure',
    });
    expect(figure({ ...caseA, withoutRate: 7 }, 'oee')).toMatchObject({
      value: undefined,
      none: 'noIdealRate',
    });
    expect(
      figureValues({ index, sum: caseA, account: undefined }).find(({ id }) => id === 'lost')?.none,
    ).toBe('byShift');
  });
});
