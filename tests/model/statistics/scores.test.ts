import { describe, expect, it } from 'vitest';
import { brierScore, brierScoreOfShares, brierSkill } from '../../../model/statistics/brier.ts';
import { accuracy, confusionMatrix, precision, recall } from '../../../model/statistics/confusionMatrix.ts';

describe('scores of told chances', () => {
  it('are mean squares, worked out by hand', () => {
    const told = [
      { chance: 0.9, happened: true },
      { chance: 0.2, happened: false },
      { chance: 0.6, happened: false },
    ];
    expect(brierScore(told)).toBeCloseTo((0.01 + 0.04 + 0.36) / 3, 12);
    expect(brierScore([{ chance: 0.5, happened: true }])).toBe(0.25);
    expect(brierScore([])).toBeUndefined();
  });

  it('of shares add the squares of all, also of what was not named', () => {
    const shares = new Map([
      ['closer', 0.7],
      ['loader', 0.2],
    ]);
    expect(brierScoreOfShares([{ shares, truth: 'closer' }])).toBeCloseTo(0.09 + 0.04, 12);
    expect(brierScoreOfShares([{ shares, truth: 'erector' }])).toBeCloseTo(1 + 0.49 + 0.04, 12);
    expect(brierScoreOfShares([{ shares: new Map(), truth: 'erector' }])).toBe(1);
    expect(brierScoreOfShares([])).toBeUndefined();
  });

  it('of two classes are twice the plain one', () => {
    const shares = new Map([
      ['yes', 0.8],
      ['no', 0.2],
    ]);
    expect(brierScoreOfShares([{ shares, truth: 'no' }])).toBeCloseTo(
      2 * brierScore([{ chance: 0.8, happened: false }])!,
      12,
    );
  });

  it('are held against a reference, unless that is never wrong', () => {
    expect([brierSkill(0.1, 0.2), brierSkill(0.2, 0.2), brierSkill(0.1, 0)]).toEqual([0.5, 0, undefined]);
  });
});

describe('a confusion matrix', () => {
  const matrix = confusionMatrix([
    { truth: 'loader', called: 'loader' },
    { truth: 'loader', called: 'closer' },
    { truth: 'loader', called: undefined },
    { truth: 'closer', called: 'closer' },
    { truth: 'erector', called: 'closer' },
  ]);

  it('counts truths by what they were called, and what was left open beside', () => {
    expect(matrix).toEqual({
      names: ['closer', 'erector', 'loader'],
      counts: [
        [1, 0, 0],
        [1, 0, 0],
        [1, 0, 1],
      ],
      open: [0, 0, 1],
      calls: 5,
    });
  });

  it('gives shares of calls that were right, of truths found, and of names given rightly', () => {
    expect(accuracy(matrix)).toBe(2 / 5);
    expect(['closer', 'erector', 'loader', 'none'].map((name) => recall(matrix, name))).toEqual([
      1,
      0,
      1 / 3,
      undefined,
    ]);
    expect(['closer', 'erector', 'loader', 'none'].map((name) => precision(matrix, name))).toEqual([
      1 / 3,
      undefined,
      1,
      undefined,
    ]);
    expect(accuracy(confusionMatrix([]))).toBeUndefined();
  });
});
