import { describe, expect, it } from 'vitest';
import type { EarlierRun, Look } from '../../../model/normal/evidence.ts';
import { KeptLimits } from '../../../model/normal/keptLimits.ts';
import type { Levels } from '../../../model/normal/levels.ts';
import { judgements } from '../../../model/normal/normal.ts';
import type { LimitsAsked } from '../../../model/normal/runningLimits.ts';
import { at } from '../smallLine.ts';

const levels: Levels = {
  rates: Float64Array.of(0.003, 0.006),
  chances: Float64Array.of(0.5, 0.5),
  mean: 0.0045,
};
const asked: LimitsAsked = { levels, uneven: 1, parts: 1, reference: () => 0 };
const looks = Array.from({ length: 12 }, (_, n) => ({ of: 300 + (n % 3), wanted: 1e-4 }));

const earlier: readonly EarlierRun[] = Array.from({ length: 6 }, (_, n) => ({
  rejects: { count: 40 + n, of: 9000 },
  halves: [
    { count: 20, of: 4500 },
    { count: 20 + n, of: 4500 },
  ],
  batches: [],
  stops: { count: 1, of: 9000 },
}));
const run = (rejects: (place: number) => number): readonly Look[] =>
  Array.from({ length: 20 }, (_, place) => ({
    from: at(400 * place),
    to: at(400 * place + 400),
    rejects: { count: rejects(place), of: 300 },
    stops: { count: 0, of: 300 },
  }));

describe('limits that are kept as a run goes on', () => {
  it('begin once, and take each look once', () => {
    const kept = new KeptLimits();
    let begun = 0;
    const begin = () => {
      begun += 1;
      return asked;
    };
    for (let length = 1; length <= looks.length; length += 1)
      kept.of('run', 'a', begin, looks.slice(0, length));
    expect(begun).toBe(1);
    kept.of('run', 'b', begin, looks);
    // a look that changed, as by late data, begins anew; so does a look that is gone
    kept.of('run', 'b', begin, [{ of: 299, wanted: 1e-4 }, ...looks.slice(1)]);
    kept.of('run', 'b', begin, looks.slice(0, 3));
    expect(begun).toBe(4);
  });

  it('[NW1] [NW2] [NW3] say the same as worked out anew, at every look, and where another run comes between', () => {
    const kept = new KeptLimits();
    for (const rejects of [(place: number) => place % 3, (place: number) => (place > 12 ? 9 : 1)]) {
      const all = run(rejects);
      for (let length = 1; length <= all.length; length += 1) {
        const evidence = { station: 'fold', earlier, looks: all.slice(0, length) };
        expect(judgements(evidence, kept)).toEqual(judgements(evidence));
      }
    }
  });
});
