import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measuredFor, pocketsDoubted } from '../../../model/attribution/accuracy.ts';
import { likelier, shownBy } from '../../../model/attribution/weighing.ts';
import { boundLine } from '../../simulator/simulatedLine.ts';
import { troubled } from '../../proof/attributionTrouble.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { standard } from '../../../simulator/lines/variant.ts';
import { foldOf, type Rows, running } from '../smallLine.ts';
import { cycles, inLineTime, partsOf, sensedLine } from './sensedLine.ts';

/** Of a sensor that tells of near misses in a share of its cycles: how often each sight is seen whatever becomes of a carton. */
const usually = (p: number) => [p, (1 - p) * (1 - (1 - p) ** 2), (1 - p) ** 3];
const sights = [0, 1, 2] as const;
const counts = fc.tuple(
  fc.double({ min: 0.1, max: 50, noNaN: true }),
  fc.double({ min: 0.1, max: 50, noNaN: true }),
  fc.double({ min: 0.1, max: 50, noNaN: true }),
);
const rate = fc.double({ min: 0.0001, max: 1, noNaN: true });

describe('what a sensor usually tells', () => {
  it('[AT3] however often it is, each sight is as likely as all of them leave room for', () => {
    fc.assert(
      fc.property(counts, rate, (shown, p) => {
        const all = sights.reduce<number>(
          (sum, sight) => sum + usually(p)[sight]! * likelier(shown, sight, p),
          0,
        );
        expect(all).toBeCloseTo(1, 9);
        for (const sight of sights)
          expect(shownBy(shown, sight, p).reduce((sum, part) => sum + part, 0)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('[AT3] a near miss of a sensor that tells of one in every cycle says nothing', () => {
    expect(likelier([3, 0.5, 1.5], 0, 1)).toBeCloseTo(1, 12);
    expect(likelier([3, 0.5, 1.5], 0, 0.6)).toBeCloseTo(1.4, 12);
    expect(likelier([3, 0.5, 1.5], 0, 1 / 210)).toBeCloseTo(126.4, 9);
  });

  it('[AT3] a sensor that began to chatter some hundred cycles ago does not get its station blamed', () => {
    const chatter: Rows = Array.from({ length: 600 }, (_, n) => 500 + n)
      .filter((n) => n % 5 < 3)
      .map((second, n) => [second + 0.3, 'near-fold', n + 1] as const);
    // the carton passed it in cycle 1,001, in which it told of one
    const rows = (second: number): Rows => [
      ...cycles(1, second),
      ...chatter.filter(([at]) => at < second),
      [second + 0.5, 'rejectOpen', 1],
    ];
    const fold = partsOf(rows(1003))[1]!;
    expect(1001 % 5 < 3).toBe(true);
    expect(fold).toBeGreaterThan(633);
    expect(fold).toBeLessThan(780);
  });
});

describe('where near misses lie to rejected cartons', () => {
  /** Every tenth carton is rejected, and fold's sensor told so many cycles after it had passed by the file. */
  const state = (off: number | ((n: number) => number), rejects = 30) => {
    const near = Array.from({ length: rejects }, (_, n): [number, string, number] => {
      const cycle = 10 * (n + 1) - 2 + (typeof off === 'number' ? off : off(n));
      return [cycle + 0.3, 'near-fold', n + 1];
    });
    const bad = near.map((_, n): [number, string, number] => [10 * (n + 1) + 0.5, 'rejectOpen', n + 1]);
    const line = sensedLine({ from: ['fold', 'pick'] }, ['fold', 'pick']);
    const rows: Rows = [
      ...running(),
      [0, 'near-fold', 0],
      [0, 'near-pick', 0],
      ...cycles(1, 400),
      ...near,
      ...bad,
    ];
    const fold = foldOf(inLineTime(rows as Rows, line), line);
    const { attribution } = fold.index;
    return {
      doubted: pocketsDoubted(attribution, fold.state.attribution),
      measured: measuredFor(line, attribution, fold.state.attribution),
    };
  };

  it('[AT5] in its cycle, nothing is doubted', () => {
    expect(state(0)).toEqual({ doubted: [], measured: 'sensed' });
  });

  it('[AT5] elsewhere, it is told how many pockets, and nothing is promised', () => {
    const fold = 1;
    expect(state(2)).toEqual({
      doubted: [{ station: fold, look: { kind: 'off', nearer: 2 } }],
      measured: undefined,
    });
    expect(state(-3).doubted).toEqual([{ station: fold, look: { kind: 'off', nearer: -3 } }]);
    // a few say nothing yet
    expect(state(2, 9).doubted).toEqual([]);
  });

  it('[AT5] as often beside it as in it, they are blurred', () => {
    expect(state((n) => (n % 5 < 2 ? 0 : n % 2 === 0 ? 1 : -1))).toEqual({
      doubted: [{ station: 1, look: { kind: 'blurred' } }],
      measured: undefined,
    });
  });
});

describe('what shares may be held to', () => {
  const of = (trouble: Parameters<typeof troubled>[1], nearMisses = true) => {
    const line = troubled(boundLine({ ...standard, nearMisses }).line, trouble);
    const { index, state } = new LineFold(line);
    return measuredFor(line, index.attribution, state.attribution);
  };

  it('[AT5] is what was measured of lines that see as much', () => {
    expect(of({})).toBe('sensed');
    expect(of({ unnamed: true })).toBe('unnamed');
    expect(of({ uncounted: true })).toBe('file');
    expect(of({}, false)).toBe('file');
    expect(of({ unnamed: true }, false)).toBe('fileUnnamed');
  });

  it('[AT5] is nothing where only some stations tell of near misses, or only some reasons name theirs', () => {
    const { line } = boundLine();
    const without = (station: string) => ({
      ...line,
      signals: line.signals.map((signal) =>
        signal.role === 'nearMissCount' && signal.of === station
          ? { ...signal, role: 'programVersion' as const }
          : signal,
      ),
    });
    const some = (one: typeof line) => {
      const { index, state } = new LineFold(one);
      return measuredFor(one, index.attribution, state.attribution);
    };
    expect(some(without('capture'))).toBeUndefined();
    const rejects = line.rejects.map((reason) => {
      const { from: _from, ...rest } = reason;
      return reason.id === 'top-open' ? rest : reason;
    });
    expect(some({ ...line, rejects })).toBeUndefined();
  });
});
