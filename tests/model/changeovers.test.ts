import { describe, expect, it } from 'vitest';
import { seconds } from '../../model/units/units.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { at, foldOf, running, type Rows } from './smallLine.ts';

/** Sachet 20 to Sachet 48 (30 a minute): at rate takes 27 good cartons within a minute. */
const setting: Rows = [
  ...running(),
  [10, 'good', 10],
  [10.5, 'state', 2],
  [10.5, 'reason', 202],
  [11, 'mode', 4],
  [60, 'size', 48],
  [100, 'state', 6],
  [105, 'good', 13],
  [110, 'state', 2],
  [120, 'mode', 1],
  [120, 'state', 6],
  [120, 'reason', 0],
];

function everyTwoSeconds(from: number, to: number, first: number): Rows {
  return Array.from(
    { length: Math.floor((to - from) / 2) + 1 },
    (_, n) => [from + 2 * n, 'good', first + n] as const,
  );
}

/** A Sachet 20 order of the list, as the tape holds it. */
function listed(number: string, blend: string, quantity: number): string {
  return JSON.stringify({
    id: number,
    at: 0,
    author: { kind: 'file', file: 'orders.csv' },
    kind: 'orderListed',
    number,
    size: 'sachet-20',
    blend,
    quantity,
  });
}

describe('changeovers', () => {
  it('[CH1] it begins when the line leaves production for it, and is of size when the size changes', () => {
    const fold = foldOf(setting);
    expect(fold.state.changeover).toMatchObject({
      kind: 'size',
      begin: at(10.5),
      from: 'sachet-20',
      to: 'sachet-48',
      productionBack: at(120),
    });
    expect(viewOf(fold, at(121), { servers: [] }).head).toMatchObject({
      kind: 'changeover',
      phase: 'runUp',
      from: 'Sachet 20',
      to: 'Sachet 48',
    });
  });

  it('[CH1] it is of artwork when only the blend changes', () => {
    const fold = foldOf([
      ...running().slice(0, -1),
      [0, 'entry', listed('1', 'mint', 100)],
      [0.1, 'entry', listed('2', 'lemon', 100)],
      [0.2, 'order', '1'],
      [10, 'state', 2],
      [10, 'reason', 202],
      [20, 'order', '2'],
      [60, 'state', 6],
      [60, 'reason', 0],
    ]);
    expect(fold.state.changeover).toMatchObject({ kind: 'artwork', from: 'sachet-20', to: 'sachet-20' });
    // the size stays: none is named as the one before it
    const view = viewOf(fold, at(61), { servers: [] });
    expect(view.changeover).toMatchObject({ kind: 'artwork', from: undefined, to: 'Sachet 20' });
    expect(view.head).toMatchObject({ kind: 'changeover', from: undefined, to: undefined });
  });

  it('[CH2] it is over with the good carton that completes the share of target within the last minute', () => {
    const slowAtFirst: Rows = [
      ...setting,
      [130, 'good', 14],
      [140, 'good', 15],
      [150, 'good', 16],
      ...everyTwoSeconds(152, 220, 17),
    ];
    const fold = foldOf(slowAtFirst);
    // the first 27 good cartons span 68 s, the 2nd to the 28th 60 s: within the minute
    expect(fold.state.changeover).toBeNull();
    expect(fold.state.lastChangeover).toMatchObject({ begin: at(10.5), firstGood: at(130), atRate: at(200) });
    expect(fold.state.changeovers).toEqual([
      { kind: 'size', from: 'sachet-20', to: 'sachet-48', lasted: seconds(189.5) },
    ]);
  });

  it('[CH3] cartons made in set-up mode are trial cartons and nothing else', () => {
    const fold = foldOf(setting);
    expect(fold.state.changeover?.trialCartons).toBe(3);
    expect(fold.state.shift.account.good).toBe(10);
  });

  it('[LO3] until at rate the shortfall is the changeover’s', () => {
    const fold = foldOf([...setting, ...everyTwoSeconds(140, 220, 14)]);
    const { path } = viewOf(fold, at(220), { servers: [] });
    // 50 s at 60 and 160 s at 30 a minute: 130 possible, of them 10 in the first 10 s; 41 good after it
    expect(path.possible).toBe(140);
    expect(path.none.causes).toEqual([{ cause: 'changeover', cartons: 89 }]);
  });

  it('[PL3] the target follows the size and the crew', () => {
    expect(viewOf(foldOf(running()), at(1), { servers: [] }).rate.target).toBe(60);
    expect(viewOf(foldOf(setting), at(121), { servers: [] }).rate.target).toBe(30);
  });

  it('[PL1] the plan is what was possible and what the calendar leaves without its pauses', () => {
    const view = viewOf(foldOf(running()), at(0), { servers: [] });
    expect(view.plan.planned).toBe(60 * (480 - 20));
    expect(view.plan.nextPause).toMatchObject({ name: 'break' });
  });

  it('[PL1] the last order is the plan when it is less, and no more than it is expected', () => {
    const steady: Rows = Array.from({ length: 3600 }, (_, n) => [n + 1, 'good', n + 1] as const);
    const rows: Rows = [
      ...running(),
      [0.1, 'entry', listed('1', 'mint', 5000)],
      [0.2, 'order', '1'],
      ...steady,
    ];
    const alone = viewOf(foldOf(rows), at(3600), { servers: [] }).plan;
    expect(alone).toMatchObject({
      planned: 5000,
      good: 3600,
      finish: { short: 0, shortLow: 0, shortHigh: 0 },
    });
    const waiting: Rows = [
      ...rows.slice(0, 19),
      [0.15, 'entry', listed('2', 'mint', 9000)],
      ...rows.slice(19),
    ];
    expect(viewOf(foldOf(waiting), at(3600), { servers: [] }).plan.planned).toBe(60 * (480 - 20));
  });

  it('[PL2] the finish is not told while too little was seen, and then with its range', () => {
    expect(viewOf(foldOf(running()), at(60), { servers: [] }).plan.finish).toBeUndefined();
    const steady: Rows = [
      ...running(),
      ...Array.from({ length: 3600 / 2 }, (_, n) => [2 * n + 1, 'good', n + 1] as const),
    ];
    const view = viewOf(foldOf(steady), at(3600), { servers: [] });
    expect(view.plan).toMatchObject({ good: 1800, behind: 1800, plannedSoFar: 3600 });
    expect(view.plan.finish).toEqual({ short: 13800, shortLow: 13800, shortHigh: 13800 });
  });
});
