import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as kpi from '../../model/kpi/kpi.ts';
import { caseA, night, printedShift, secondShift } from './checks/iso22400.ts';

/**
 * Formulas: ISO 22400-2 as transcribed in a public, MIT-licensed ontology of its 2011 draft (hsu-aut,
 * IndustrialStandard-ODP-ISO22400-2) and in OPC 40501-1 Annex C.2. The case itself is constructed; its results follow
 * by arithmetic.
 */
describe('ISO 22400-2, worked case', () => {
  it.each([
    ['availability', kpi.availability, 0.826667],
    ['effectiveness', kpi.effectiveness, 0.95],
    ['quality ratio', kpi.qualityRatio, 0.980004],
    ['OEE', kpi.oee, 0.76963],
    ['NEE', kpi.nee, 0.80687],
    ['technical efficiency', kpi.technicalEfficiency, 0.898551],
    ['allocation efficiency', kpi.allocationEfficiency, 0.96],
    ['utilization efficiency', kpi.utilizationEfficiency, 0.861111],
    ['setup rate', kpi.setupRate, 0.046154],
    ['scrap ratio', kpi.scrapRatio, 0.019996],
    ['throughput', kpi.throughputRate, 49.083333],
    ['MTTR', kpi.mttr, 6],
  ] as const)('%s', (_name, figure, expected) => {
    expect(figure(caseA)).toBeCloseTo(expected, 6);
  });

  it('nests its times: PBT = AUBT + ADOT, AUBT = AUPT + ADET', () => {
    expect([kpi.aupt(caseA), kpi.aubt(caseA), kpi.aubt(caseA) + caseA.adot]).toEqual([390, 432, caseA.pbt]);
  });

  it('MTBF names its divisor: 55.7143 by failures, 48.75 by one more', () => {
    expect(kpi.mtbf(caseA, 'failures')).toBeCloseTo(55.7143, 4);
    expect(kpi.mtbf(caseA, 'failuresPlusOne')).toBeCloseTo(48.75, 6);
    expect(kpi.mtbf({ ...caseA, failures: 0 }, 'failures')).toBeUndefined();
  });

  it('adds periods by their elements: 0.676263, and not the mean of two ratios, 0.622910', () => {
    expect(kpi.oee(secondShift)).toBeCloseTo(0.47619, 5);
    expect(kpi.oee(kpi.add(caseA, secondShift))).toBeCloseTo(0.676263, 6);
  });

  it('OEE equals GQ × PRI / PBT when all pieces have one planned run time', () => {
    const minutes = fc.double({ min: 1, max: 600, noNaN: true });
    fc.assert(
      fc.property(
        minutes,
        minutes,
        fc.integer({ min: 1, max: 30_000 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (apt, rest, pq, share) => {
          const gq = Math.floor(pq * share);
          const e = { ...caseA, apt, pbt: apt + rest, pq, gq, plannedRunTime: pq / 60 };
          expect(kpi.oee(e)).toBeCloseTo(gq / 60 / e.pbt, 9);
        },
      ),
    );
  });

  it('recomputes a printed example (Willmott and McCarthy, TPM, p. 127): 86.0 % and 77.7 %', () => {
    expect(kpi.availability(printedShift)).toBeCloseTo(0.86044, 5);
    expect(kpi.effectiveness(printedShift)).toBeCloseTo(0.777778, 6);
    expect(kpi.oee(printedShift)).toBeCloseTo(0.669231, 6);
  });

  it('a night shift of nine hours has nine hours: 0.740741, where eight would give 0.833333', () => {
    expect(kpi.oee(night(9))).toBeCloseTo(0.740741, 6);
    expect(kpi.oee(night(8))).toBeCloseTo(0.833333, 6);
  });
});
