import { describe, expect, it } from 'vitest';
import { wholeParts } from '../../../model/attribution/parts.ts';
import { CARTON, lossKey } from '../../../model/fold/account.ts';
import { foldOf, running, smallLine } from '../smallLine.ts';
import { cycles, partsOf, sensedLine } from './sensedLine.ts';

const bad = 0x80000000;
/** Parts where the sensor cannot be read: what else is seen speaks alone. */
const unread = (rows: Parameters<typeof partsOf>[0], line?: ReturnType<typeof sensedLine>) =>
  partsOf([[0.5, 'near-fold', 0, bad], ...rows], line);
const reject = (second: number, count = 1) => [second, 'rejectOpen', count] as const;

describe('shares of a reject', () => {
  it('[AT1] are whole thousandths by largest remainder, and add up', () => {
    expect(wholeParts([1, 1, 1], 1000)).toEqual([334, 333, 333]);
    expect(wholeParts([1, 2, 4], 10)).toEqual([1, 3, 6]);
    expect(wholeParts([0, 5], 2000)).toEqual([0, 2000]);
    expect(wholeParts([0.95 / 3, 1.9 / 3, 0.05], 1000)).toEqual([317, 633, 50]);
  });

  it('[AT1] [LO4] the account charges each reject to the station of its reason all the same', () => {
    const line = sensedLine();
    const rows = [...running(), [0, 'near-fold', 0], ...cycles(1, 20), reject(20.5)] as const;
    const { state } = foldOf(rows, line);
    expect(state.attribution.parts.reduce((sum, part) => sum + part, 0)).toBe(1000);
    expect(state.attribution.parts[0]).toBeGreaterThan(0);
    expect(state.shift.account.counted[lossKey(1, 'reject')]).toBe(CARTON);
    expect(state.shift.account.counted[lossKey(0, 'reject')]).toBe(0);
  });

  it('[AT1] an empty carton, and a reject of a trial, is laid to nobody and no station', () => {
    expect(partsOf([...cycles(1, 20), [20.5, 'rejectEmpty', 1]])).toEqual([0, 0, 0]);
    expect(partsOf([...cycles(1, 20), [20.2, 'mode', 4], reject(20.5)])).toEqual([0, 0, 0]);
  });
});

describe('before anything was seen', () => {
  const unsensed = (from?: readonly string[]) => sensedLine(from ? { from } : {}, []);

  it('[AT2] the stations that are named share it, the charged one twice, and a twentieth is nobody’s', () => {
    // 0.95 in three: one of pick, two of fold
    expect(partsOf([...cycles(1, 20), reject(20.5)], unsensed(['pick', 'fold']))).toEqual([317, 633, 50]);
    expect(partsOf([...cycles(1, 20), reject(20.5)], unsensed(['pick']))).toEqual([317, 633, 50]);
    expect(partsOf([...cycles(1, 20), reject(20.5)], unsensed(['fold']))).toEqual([950, 50]);
  });

  it('[AT2] without names it is any station’s: half the charged one’s, a fifth nobody’s', () => {
    expect(partsOf([...cycles(1, 20), reject(20.5)], unsensed())).toEqual([150, 500, 150, 200]);
  });

  it('[AT2] a stop of a station’s own doing speaks as one reject beside the eight of the beginning', () => {
    const stop = [
      [10.2, 'reason', 52],
      [10.2, 'state', 11],
      [10.8, 'reason', 0],
      [10.8, 'state', 6],
    ] as const;
    // pick 0.3167 × 8 + 1, fold 0.6333 × 8, nobody 0.05 × 8, of 9; the carton came to pick in cycle 26, long after
    expect(unread([...cycles(1, 30), ...stop, reject(30.5)])).toEqual([393, 563, 44]);
    const starved = stop.map(([second, id, value]) => [second, id, value === 52 ? 11 : value] as const);
    expect(unread([...cycles(1, 30), ...starved, reject(30.5)])).toEqual([317, 633, 50]);
  });

  it('[AT2] all stops together speak as no more than four', () => {
    const stops = Array.from({ length: 12 }, (_, n) => n * 3 + 3).flatMap((second) => [
      [second + 0.2, 'state', 11] as const,
      [second + 0.3, 'reason', 52] as const,
      [second + 0.7, 'reason', 0] as const,
      [second + 0.8, 'state', 6] as const,
    ]);
    // pick 0.3167 × 8 + 4, fold 0.6333 × 8, nobody 0.05 × 8, of 12
    expect(unread([...cycles(1, 80), ...stops, reject(80.5)])).toEqual([545, 422, 33]);
  });

  it('[AT2] after a change of size that counts half', () => {
    const stop = [
      [10.2, 'reason', 52],
      [10.2, 'state', 11],
      [10.4, 'size', 48],
      [10.8, 'reason', 0],
      [10.8, 'state', 6],
    ] as const;
    // pick 0.3167 × 8 + ½, of 8½
    expect(unread([...cycles(1, 30), ...stop, reject(30.5)])).toEqual([357, 596, 47]);
  });

  it('[AT2] without a sensor, or a count of cycles, it stays what the file says, whatever else is seen', () => {
    const stops = [10, 20, 30].flatMap((second) => [
      [second + 0.2, 'reason', 52] as const,
      [second + 0.2, 'state', 11] as const,
      [second + 0.8, 'reason', 0] as const,
      [second + 0.8, 'state', 6] as const,
    ]);
    const rows = [...cycles(1, 50), ...stops, [48.5, 'crushed', 1], reject(50.5)] as const;
    expect(partsOf(rows, unsensed(['pick', 'fold']))).toEqual([317, 633, 50]);
    expect(partsOf([...rows, reject(51.5, 4)], unsensed(['pick', 'fold']))).toEqual([1267, 2533, 200]);
    const { signals, ...rest } = sensedLine();
    const uncounted = {
      ...rest,
      signals: signals.map((s) => (s.id === 'cycles' ? { ...s, role: 'programVersion' as const } : s)),
    };
    expect(partsOf([...rows, [48.3, 'near-fold', 1]], uncounted)).toEqual([317, 633, 50]);
  });
});

describe('what was seen in the carton’s own cycle', () => {
  it('[AT3] a near miss as it passed makes that station the likeliest by far', () => {
    // checked in cycle 20, at fold in 18. A sensor is taken to see 3 of 5, and one after pick 0.3 of 6 of what pick does;
    // by itself it shows one in (20 + 400) / (1 + 1), also where what was done does not show itself.
    // Fold 0.6333 × (0.6 × 210 + 0.4), pick 0.3167 × (0.05 × 210 + 0.95), nobody 0.05
    expect(partsOf([...cycles(1, 20), [18.3, 'near-fold', 1], reject(20.5)])).toEqual([43, 956, 1]);
  });

  it('[AT3] one in the cycle beside it says less, one two cycles off no more than none', () => {
    const foldAt = (second: number) =>
      partsOf([...cycles(1, 20), [second, 'near-fold', 1], reject(20.5)])[1]!;
    expect(foldAt(18.3)).toBeGreaterThan(foldAt(17.3));
    expect(foldAt(17.3)).toBe(foldAt(19.3));
    expect(foldAt(17.3)).toBeGreaterThan(633);
    expect(foldAt(16.3)).toBeLessThan(633);
  });

  it('[AT3] where the sensor saw nothing, what has no sensor is likelier than before', () => {
    const [pick, fold, nobody] = partsOf([...cycles(1, 20), reject(20.5)]);
    expect(fold).toBeLessThan(633);
    expect(pick).toBeGreaterThan(317);
    expect(nobody).toBeGreaterThan(50);
  });

  it('[AT3] a sensor that often errs is believed less', () => {
    const often = Array.from({ length: 30 }, (_, n) => [31.3 + 2 * n, 'near-fold', n + 1] as const);
    const told = (rows: Parameters<typeof partsOf>[0], last: number) =>
      partsOf([...cycles(1, 120), ...rows, [118.3, 'near-fold', last], reject(120.5)])[1]!;
    expect(told(often, 31)).toBeLessThan(told([], 1));
  });

  it('[AT3] a station where the machine stopped with the carton in it is likelier, and one that was cleared', () => {
    const held = [
      [18.2, 'state', 11],
      [18.8, 'state', 6],
    ] as const;
    // it stood in fold: half again as likely, so 0.95 of 0.3167 + 0.95 + 0.05; no reject was expected in that time yet
    expect(unread([...cycles(1, 20), ...held, reject(20.5)])).toEqual([240, 722, 38]);
    // its pockets were emptied by hand as well: half again of that, and what is nobody's three times, for the hands
    expect(unread([...cycles(1, 20), ...held, [18.5, 'crushed', 1], reject(20.5)])).toEqual([168, 753, 79]);
  });

  it('[AT3] more is nobody’s of a carton that was in the machine in a jog, or near pockets that hands emptied', () => {
    // it lay at the check when fold's pockets were emptied: 0.15 of 0.3167 + 0.95 + 0.15, as fold was troubled, too
    expect(unread([...cycles(1, 24), [24.1, 'crushed', 1], reject(24.5)])).toEqual([223, 671, 106]);
    expect(unread([...cycles(1, 40), [24.1, 'crushed', 1], reject(40.5)])[2]).toBe(50);
    const jog = [
      [18.5, 'mode', 3],
      [19.5, 'mode', 1],
    ] as const;
    // it stood in pick when the jog began: 0.15 of 0.475 + 0.6333 + 0.15
    expect(unread([...cycles(1, 22), ...jog, reject(22.5)])).toEqual([378, 503, 119]);
    expect(unread([...cycles(1, 25), ...jog, reject(25.5)])[2]).toBe(50);
  });

  it('[AT3] what passed in a trial is likelier spoiled there than what passed in production', () => {
    const trial = [
      [14.5, 'mode', 4],
      [16.5, 'mode', 1],
    ] as const;
    // at pick in cycle 16 in set-up, at fold in 18 in production: 0.475 of 0.475 + 0.6333 + 0.05
    expect(unread([...cycles(1, 20), ...trial, reject(20.5)])).toEqual([410, 547, 43]);
  });

  it('[AT3] an adjustment that moved in production speaks against its station, one set in a changeover does not', () => {
    const { signals } = sensedLine();
    const line = {
      ...sensedLine(),
      adjustments: [
        {
          number: '1',
          name: 'height',
          station: 'pick',
          unit: 'mm',
          decimals: 1,
          min: 0,
          max: 9,
          book: new Map(),
        },
      ],
      signals: [
        ...signals,
        { ...signals[0]!, index: signals.length, id: 'height', role: 'adjustment' as const, of: '1' },
      ],
    };
    const moved = (second: number) =>
      [
        [0, 'height', 2],
        [second, 'height', 2.1],
      ] as const;
    expect(unread([...cycles(1, 20), ...moved(9.5), reject(20.5)], line)).toEqual([410, 547, 43]);
    expect(unread([...cycles(1, 20), ...moved(18.5), reject(20.5)], line)).toEqual([317, 633, 50]);
    expect(unread([...cycles(1, 20), [0, 'height', 2], [9.5, 'height', 2], reject(20.5)], line)).toEqual([
      317, 633, 50,
    ]);
  });
});

describe('where the carton’s cycle is not known', () => {
  /** What a near miss at fold makes of the shares of a reject that comes with it, to see whether it is believed. */
  const believed = (rows: Parameters<typeof partsOf>[0], near: number, at: ReturnType<typeof reject>) => {
    const without = partsOf([...rows, at]);
    const [pick, fold, nobody] = partsOf([...rows, [near, 'near-fold', 1], at]);
    return pick !== without[0] || fold !== without[1] || nobody !== without[2];
  };

  it('[AT4] several at once are shared by what is usual, and twice as much is nobody’s', () => {
    expect(partsOf([...cycles(1, 20), [18.3, 'near-fold', 1], reject(20.5, 3)])).toEqual([900, 1800, 300]);
  });

  it('[AT4] so is one that was counted in a gap', () => {
    const gap = [
      [20.1, 'link', false],
      [25.1, 'link', true],
    ] as const;
    expect(partsOf([...cycles(1, 20), ...gap, [18.3, 'near-fold', 1], reject(25)])).toEqual([300, 600, 100]);
  });

  it('[AT4] cycles that were missed, and a counter that was reset, end what can be told of cartons in the machine', () => {
    expect(believed(cycles(1, 20), 18.3, reject(20.5))).toBe(true);
    expect(believed([...cycles(1, 18), [19, 'cycles', 22]], 18.3, reject(19.5))).toBe(false);
    expect(believed([...cycles(1, 18), [19, 'cycles', 0], [20, 'cycles', 1]], 18.3, reject(20.5))).toBe(
      false,
    );
    expect(
      believed(
        [...cycles(1, 18), [18.5, 'link', false], [30, 'cycles', 30], [30, 'link', true]],
        18.3,
        reject(30.5),
      ),
    ).toBe(false);
  });

  it('[AT4] a gap in which the machine stood loses nothing', () => {
    const stood = [
      ...cycles(1, 19),
      [19.2, 'state', 11],
      [19.3, 'link', false],
      [19.5, 'link', true],
      [19.6, 'state', 6],
      [20, 'cycles', 20],
    ] as const;
    expect(believed(stood, 18.3, reject(20.5))).toBe(true);
  });

  it('[AT4] cycles made by hand may go either way: what had passed before them is not told by its sensors', () => {
    const jog = [
      [18.5, 'mode', 3],
      [19.5, 'mode', 1],
    ] as const;
    expect(believed([...cycles(1, 20), ...jog], 18.3, reject(20.5))).toBe(false);
    // what passed fold after them is
    expect(believed([...cycles(1, 24), ...jog], 22.3, reject(24.5))).toBe(true);
    // a trial goes forward
    const trial = jog.map(([second, id, value]) => [second, id, value === 3 ? 4 : value] as const);
    expect(believed([...cycles(1, 20), ...trial], 18.3, reject(20.5))).toBe(true);
  });

  it('[AT4] a cycle counter that goes back with the pockets is followed', () => {
    const back = [
      ...cycles(1, 18),
      [18.5, 'cycles', 16],
      [19, 'cycles', 17],
      [20, 'cycles', 18],
      [21, 'cycles', 19],
    ] as const;
    // what it saw in a cycle that is counted once more was of another pocket
    expect(partsOf([...back, [18.3, 'near-fold', 1], reject(21.5)])[1]).toBeLessThan(633);
    expect(believed(back, 19.3, reject(21.5))).toBe(true);
  });

  it('[AT4] a sensor that cannot be read says nothing', () => {
    const unread = [...cycles(1, 20), [17, 'near-fold', 0, bad]] as const;
    expect(partsOf([...unread, reject(20.5)])).toEqual([317, 633, 50]);
    // what it counted meanwhile it may have counted at any time
    expect(partsOf([...unread, [20.2, 'near-fold', 1], reject(20.5)])).toEqual([317, 633, 50]);
  });

  it('[AT4] near misses that come several at once are of no cycle', () => {
    expect(partsOf([...cycles(1, 20), [18.3, 'near-fold', 5], reject(20.5)])).toEqual([317, 633, 50]);
  });
});

it('[TI4] values that are told again change nothing', () => {
  const rows = [...cycles(1, 20), [18.3, 'near-fold', 1]] as const;
  const again = [
    [20.1, 'near-fold', 1],
    [20.2, 'cycles', 20],
    [20.3, 'mode', 1],
    [20.3, 'size', 20],
  ] as const;
  expect(partsOf([...rows, ...again, reject(20.5)])).toEqual(partsOf([...rows, reject(20.5)]));
});

it('[AT1] a line whose check tells no reason has no shares', () => {
  const { state } = foldOf([...running(), reject(20.5)], smallLine({ rejects: [] }));
  expect(state.attribution.parts).toEqual([]);
});
