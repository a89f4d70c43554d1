import * as kpi from '../../../model/kpi/kpi.ts';
import { from, loose, type Topic } from './check.ts';

/** A shift in minutes and cartons: 450 busy, 372 producing, 21,204 made at 60 a minute planned. */
export const caseA: kpi.Elements = {
  pbt: 450,
  apt: 372,
  aust: 18,
  adet: 42,
  adot: 18,
  plannedRunTime: 21_204 / 60,
  pq: 21_204,
  gq: 20_780,
  failures: 7,
  restoring: 42,
};
export const secondShift: kpi.Elements = {
  ...caseA,
  pbt: 210,
  apt: 150,
  pq: 6000,
  gq: 6000,
  plannedRunTime: 100,
};
/** Willmott and McCarthy: 910 min, 127 down, 203 pieces of 3 min. */
export const printedShift = { ...caseA, pbt: 910, apt: 783, pq: 203, gq: 203, plannedRunTime: 203 * 3 };
const plain = { ...caseA, pbt: 480, apt: 420, pq: 400, gq: 380, plannedRunTime: 400 };

/** The same 24,000 cartons at 60 a minute in a night shift of so many hours. */
export const night = (hours: number) => ({
  ...caseA,
  pbt: hours * 60,
  apt: 400,
  pq: 24_000,
  gq: 24_000,
  plannedRunTime: 400,
});

/** Inherent availability: MTBF / (MTBF + MTTR). */
function inherent(e: kpi.Elements): number {
  const [between, restore] = [kpi.mtbf(e, 'failures')!, kpi.mttr(e)!];
  return between / (between + restore);
}

export const iso22400: Topic = {
  title: 'Key figures of ISO 22400-2',
  about:
    'Formulas as in a public transcription of the 2011 draft and in OPC 40501-1, Annex C.2; the published standard was not read.',
  checks: [
    ...from('[K] case A', [
      ['PBT, AUPT, AUBT', '450, 390, 432', () => [caseA.pbt, kpi.aupt(caseA), kpi.aubt(caseA)]],
      ['availability', '0.826667', () => kpi.availability(caseA)],
      ['effectiveness', '0.950000', () => kpi.effectiveness(caseA)],
      ['quality ratio', '0.980004', () => kpi.qualityRatio(caseA)],
      ['OEE', '0.769630', () => kpi.oee(caseA)],
      ['NEE', '0.806870', () => kpi.nee(caseA)],
      ['technical efficiency', '0.898551', () => kpi.technicalEfficiency(caseA)],
      ['allocation efficiency', '0.960000', () => kpi.allocationEfficiency(caseA)],
      ['utilization efficiency', '0.861111', () => kpi.utilizationEfficiency(caseA)],
      ['setup rate', '0.046154', () => kpi.setupRate(caseA)],
      ['scrap ratio', '0.019996', () => kpi.scrapRatio(caseA)],
      ['throughput rate', '49.083333', () => kpi.throughputRate(caseA)],
      ['MTTR', '6.000000', () => kpi.mttr(caseA)],
      [
        'MTBF by failures, by one more',
        '55.7143, 48.750000',
        () => [kpi.mtbf(caseA, 'failures'), kpi.mtbf(caseA, 'failuresPlusOne')],
      ],
      ['inherent availability', '0.902778', () => inherent(caseA)],
      ['MTBF without a failure', '-', () => kpi.mtbf({ ...caseA, failures: 0 }, 'failures')],
    ]),
    ...from('[K] two shifts', [
      [
        'OEE of each, and of both by their elements',
        '0.769630, 0.476190, 0.676263',
        () => [kpi.oee(caseA), kpi.oee(secondShift), kpi.oee(kpi.add(caseA, secondShift))],
      ],
    ]),
    ...from('[F+C] Willmott and McCarthy, TPM: A Route to World-Class Performance, p. 127', [
      [
        'availability, effectiveness, OEE',
        '0.860440, 0.777778, 0.669231',
        () => [kpi.availability(printedShift), kpi.effectiveness(printedShift), kpi.oee(printedShift)],
      ],
    ]),
    ...loose(1, 'the book cuts the last digit', '[F] the same, as printed in percent', [
      [
        'availability, performance',
        '86.0, 77.7',
        () => [100 * kpi.availability(printedShift)!, 100 * kpi.effectiveness(printedShift)!],
      ],
    ]),
    ...from('[K] 480 min planned, 420 run, 400 made of 1 min each, 380 good', [
      ['OEE', '0.791667', () => kpi.oee(plain)],
    ]),
    ...from('[K] a night shift of nine hours', [
      [
        'OEE over nine hours, and over eight',
        '0.740741, 0.833333',
        () => [kpi.oee(night(9)), kpi.oee(night(8))],
      ],
    ]),
  ],
};
