import { describe, expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { epochMs, seconds } from '../../model/units/units.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { at, boundSignals, changes, goods, type Rows, running, smallLine } from './smallLine.ts';

const { settings } = smallLine();
const tagged = smallLine({}, [{ id: 'trial', role: 'trial' }, ...boundSignals]);
const counted = smallLine({ settings: { ...settings, trialCartons: 4 } });
const plain = smallLine();

/** At rate with Sachet 20, then set up from 101 on, without a set-up mode, and back in production at 200. */
const changeover: Rows = [
  ...running(),
  ...goods(1, 100, 1),
  [101, 'state', 11],
  [101, 'reason', 202],
  [150, 'size', 48],
  [200, 'reason', 0],
  [200, 'state', 6],
];
/** Six cartons: three good ones, one that is rejected as open, and two good ones. */
const trials: Rows = [
  [205, 'good', 101],
  [210, 'good', 103],
  [215, 'rejectOpen', 1],
  [220, 'good', 104],
  [225, 'good', 105],
];

function foldOf(line: typeof plain, ...rows: readonly Rows[]): LineFold {
  const fold = new LineFold(line);
  fold.take(
    changes(
      line,
      [...changeover, ...rows.flat()].sort((a, b) => a[0] - b[0]),
    ),
  );
  return fold;
}
const told = ({ state, index }: LineFold) => {
  const tally = (id: string) =>
    state.tally[index.tallyAt[index.line.signals.findIndex((signal) => signal.id === id)]!];
  return {
    trial: (state.changeover ?? state.lastChangeover)?.trialCartons,
    good: state.shift.account.good,
    rejects: state.shift.rejects,
    tallied: [tally('good'), tally('rejectOpen')],
  };
};

describe('trial cartons', () => {
  it('[CH5] are none where the line’s file names none: everything counts', () => {
    expect(told(foldOf(plain, trials))).toEqual({ trial: 0, good: 105, rejects: 1, tallied: [105, 1] });
  });

  it('[CH5] are those that the check counts while a tag says so, good or rejected, and count nowhere else', () => {
    const on: Rows = [
      [201, 'trial', true],
      [222, 'trial', false],
    ];
    expect(told(foldOf(tagged, trials, on))).toEqual({ trial: 5, good: 101, rejects: 0, tallied: [101, 0] });
  });

  it('[CH5] are the first so many after a changeover, to the carton', () => {
    expect(told(foldOf(counted, trials))).toEqual({ trial: 4, good: 102, rejects: 0, tallied: [102, 0] });
    const atOnce: Rows = [[210, 'good', 109]];
    expect(told(foldOf(counted, atOnce))).toEqual({ trial: 4, good: 105, rejects: 0, tallied: [105, 0] });
  });

  it('[CH5] [CH2] are no part of a changeover’s rate, and none are run once it is at rate', () => {
    const on: Rows = [[201, 'trial', true]];
    const run = goods(202, 300, 100);
    expect(foldOf(tagged, run).state.lastChangeover).toMatchObject({ trialCartons: 0 });
    expect(foldOf(tagged, run).state.changeover).toBeNull();
    expect(foldOf(tagged, run, on).state.changeover).not.toBeNull();
    const late: Rows = [
      [301, 'trial', true],
      [310, 'good', 220],
    ];
    const over = foldOf(tagged, run, late);
    expect(over.state.shift.account.good).toBe(220);
  });

  it('[CH5] are told as such in production, since when, and quietly once that lasts longer than a changeover usually does', () => {
    const told = (fold: LineFold, second: number) => {
      const { head, matters } = viewOf(fold, at(second), { servers: [{ id: 'plc', up: true }] });
      return { head, still: matters.filter(({ kind }) => kind === 'stillTrial') };
    };
    // stuck on from before the changeover: it can never come to its rate
    const stuck: Rows = [[90, 'trial', true]];
    const run = goods(202, 4000, 100);
    const since = epochMs(at(90));
    const fold = foldOf(tagged, run, stuck);
    expect(fold.state.changeover).not.toBeNull();
    expect(told(fold, 4000)).toMatchObject({
      head: { kind: 'changeover', phase: 'trial', trialSince: since },
      still: [{ kind: 'stillTrial', since, lasted: 3_899_000 }],
    });
    expect(told(foldOf(tagged, goods(202, 600, 100), stuck), 600)).toMatchObject({
      head: { phase: 'trial', trialSince: since },
      still: [],
    });
    // once the line's earlier ones say how long one takes, by those
    const usual = foldOf(tagged, goods(202, 600, 100), stuck);
    const { kind, from, to } = usual.state.changeover!;
    for (const lasted of [seconds(200), seconds(300)])
      usual.state.changeovers.push({ kind, from, to, lasted });
    expect(told(usual, 600).still).toMatchObject([{ lasted: 499_000 }]);
    // while it is set nobody expects cartons, and what is off again says nothing
    expect(told(foldOf(tagged, [[95, 'trial', true]], []), 180).still).toEqual([]);
    const off = foldOf(tagged, goods(202, 230, 100), stuck, [[210, 'trial', false]]);
    expect(told(off, 230)).toMatchObject({ head: { phase: 'runUp', trialSince: undefined }, still: [] });
  });

  it('[CH5] those of the set-up mode are among the first so many', () => {
    const setUp: Rows = [
      [160, 'mode', 4],
      [170, 'good', 102],
      [190, 'mode', 1],
    ];
    const after: Rows = [[210, 'good', 107]];
    expect(told(foldOf(counted, setUp, after))).toMatchObject({ trial: 4, good: 103 });
  });
});
