import { describe, expect, it } from 'vitest';
import { difference, from, loose, MARKS, shown } from './checks/check.ts';
import { topics } from './checks/topics.ts';

describe.each(topics)('$title', ({ checks }) => {
  for (const check of checks) {
    it(`${check.check} is ${check.expected} (${check.source})`, () => {
      expect(difference(check)).toBeUndefined();
    });
  }
});

describe('the checks themselves', () => {
  const one = (expected: string, got: number | string | undefined) =>
    difference(from('[K]', [['figure', expected, () => got]])[0]!);

  it('hold a figure to half of its last printed digit, and a whole number exactly', () => {
    expect(one('0.12', 0.1249)).toBeUndefined();
    expect(one('0.12', 0.1251)).toBe('0.1251, not 0.12');
    expect(one('1.114e-7', 1.1144e-7)).toBeUndefined();
    expect(one('1.114e-7', 1.1146e-7)).toBe('1.1146e-7, not 1.114e-7');
    expect(one('14', 14.1)).toBe('14.1, not 14');
    expect(one('-', undefined)).toBeUndefined();
    expect(one('-', 0)).toBe('0, not -');
    expect(one('0', undefined)).toBe('undefined, not 0');
    expect(one('good', 'bad')).toBe('bad, not good');
    expect(one('1, 2', 1)).toBe('1 values, not 2');
    expect(difference(loose(1, 'cut', '[K]', [['figure', '0.12', () => 0.1299]])[0]!)).toBeUndefined();
  });

  it('show two digits more than are printed', () => {
    const told = from('[K]', [
      ['figures', '0.12, 1.1e-7, 3, -, good', () => [0.123456, 1.1234567e-7, 3, undefined, 'good']],
    ]);
    expect(told.map(shown)).toEqual(['0.1235, 1.123e-7, 3, -, good']);
  });

  it('name a mark that is explained and a figure that no other names, and say why where they are loose', () => {
    const names = topics.flatMap(({ title, checks }) =>
      checks.map(({ check, source }) => `${title}: ${check} (${source})`),
    );
    expect(names.length).toBeGreaterThan(150);
    expect(new Set(names).size).toBe(names.length);
    for (const { source, within, because } of topics.flatMap(({ checks }) => checks)) {
      const [, mark] = /^\[([^\]]+)\] ./.exec(source) ?? [];
      expect(Object.keys(MARKS), source).toContain(mark);
      expect(within === undefined, source).toBe(because === undefined);
    }
  });
});
