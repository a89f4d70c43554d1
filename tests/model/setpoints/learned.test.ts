import { describe, expect, it } from 'vitest';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { DatumRecord } from '../../../model/fold/settingRecords.ts';
import type { SettledCounts } from '../../../model/past/settledCounts.ts';
import type { EstimateAsked } from '../../../model/setpoints/estimate.ts';
import type { SetAt } from '../../../model/setpoints/history.ts';
import { type LearnedAsked, learnedAt } from '../../../model/setpoints/learned.ts';
import { rejectSpread } from '../../../model/setpoints/spread.ts';
import { at } from '../smallLine.ts';
import { setLine } from './setLine.ts';

const index = indexOf(setLine);
const HOURS = 3600;

/** One run of 10,000 cartons, so many hours after six, with 2.1 read by its sensor and 2.2 as typed. */
function run(
  hour: number,
  sensed: number,
  typed: number | undefined,
  spoiled: number | undefined,
  datum = 1,
): SettledCounts {
  const [from, to] = [at(hour * HOURS), at((hour + 4) * HOURS)];
  const set = (value: number, known: SetAt['known'], of = 1): SetAt => ({
    at: from,
    value,
    known,
    datum: of,
  });
  return {
    settled: {
      run: { from, to, saidSince: from, lot: `L${hour}`, parts: null },
      from,
      to,
      sets: [set(sensed, 'sensor'), typed === undefined ? undefined : set(typed, 'typed', datum)],
    },
    cartons: 10_000,
    spoiled,
    stops: 2,
    lost: 60,
  };
}

const runs = [
  run(0, 12, 26, 40),
  run(10, 12.4, 26.4, 44),
  run(20, 11.6, 25.6, 80),
  run(30, 12.2, undefined, 42),
];

function asked(counts: readonly SettledCounts[], more: Partial<LearnedAsked> = {}) {
  const questions: EstimateAsked[] = [];
  const answer = learnedAt(
    {
      index,
      datums: [],
      size: 'sachet-20',
      countsAt: (size) => (size === 'sachet-20' ? counts : []),
      now: at(100 * HOURS),
      remember: (question, make) => {
        questions.push(question);
        return make();
      },
      ...more,
    },
    'fold',
  );
  return { questions, learned: new Map(answer) };
}

describe('what whole runs taught', () => {
  it('[BK2] each adjustment of a station has its marks, one a run, and what the estimate says', () => {
    const { learned, questions } = asked(runs);
    expect([...learned.keys()]).toEqual(['2.1', '2.2']);
    expect(learned.get('2.2')).toMatchObject({
      runs: 3,
      settings: 3,
      marks: [
        { at: 25.6, runs: 1 },
        { at: 26, runs: 1 },
        { at: 26.4, runs: 1 },
      ],
    });
    expect(learned.get('2.1')?.runs).toBe(4);
    expect(questions).toHaveLength(1);
    expect(questions[0]).toMatchObject({ cartonsPerRun: 10_000, lostPerStop: 30, lostPerReject: 1 });
    expect(questions[0]?.stretches[3]?.settings).toEqual([{ value: 12.2, known: 'sensor' }, undefined]);
  });

  it('[BK2] a run that goes on teaches nothing yet', () => {
    const { questions } = asked(runs, { now: at(34 * HOURS) });
    expect(questions[0]?.stretches).toHaveLength(3);
    expect(asked(runs.slice(0, 1), { now: at(4 * HOURS) }).learned.size).toBe(0);
  });

  it('[SP3] a number of an earlier datum is left out, and comes back by the offset that an engineer enters', () => {
    const counts = [run(0, 12, 26, 40), run(10, 12, 24.5, 41, 2)];
    const datum = (offset: number | null): DatumRecord => ({
      adjustment: '2.2',
      datum: 2,
      at: at(8 * HOURS),
      why: 'replaced',
      words: null,
      entry: 'd',
      author: { kind: 'itself' },
      offset,
    });
    const settings = (offset: number | null) =>
      asked(counts, { datums: [datum(offset)] }).questions[0]?.stretches.map((one) => one.settings[1]?.value);
    expect(settings(null)).toEqual([undefined, 24.5]);
    expect(settings(-1.5)).toEqual([24.5, 24.5]);
  });

  it('[BK2] other sizes lend what lies beside their books', () => {
    const { questions } = asked(runs, { countsAt: () => runs });
    expect(questions).toHaveLength(2);
    expect(questions[0]?.otherSizes).toEqual({});
    expect(Object.keys(questions[1]?.otherSizes ?? {})).toContain('2.1');
  });

  it('[SP9] rejects stand with the spread between runs, and without limits for one run', () => {
    const rates = [4, 4.4, 8, 4.2];
    const mean = rates.reduce((sum, one) => sum + one, 0) / 4;
    const deviation = Math.sqrt(rates.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 3);
    // Student's t for 3 degrees of freedom: 3.182
    const wide = (3.182 * deviation) / 2;
    const spread = rejectSpread(runs);
    expect(spread?.mean).toBeCloseTo(mean, 10);
    expect(spread?.low).toBeCloseTo(mean - wide, 2);
    expect(spread?.high).toBeCloseTo(mean + wide, 2);
    expect(rejectSpread(runs.slice(0, 1))).toEqual({ mean: 4, low: undefined, high: undefined });
    expect(rejectSpread([run(0, 12, 26, undefined)])).toBeUndefined();
  });
});
