import { describe, expect, it } from 'vitest';
import { CARTON, causes, lossKey, lostByKey } from '../../model/fold/account.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { wholeCartons } from '../../model/view/pathView.ts';
import { seenAt } from '../../model/view/seen.ts';
import { at, changes, goods, running, smallLine } from './smallLine.ts';

const line = smallLine();
const stationPlace = { pick: 0, fold: 1, discharge: 2, none: 3 } as const;

function lossesAt(fold: LineFold, second: number): Record<string, number> {
  const lost = lostByKey(seenAt(fold, at(second)).account);
  const rows: Record<string, number> = {};
  for (const [station, place] of Object.entries(stationPlace)) {
    for (const cause of causes) {
      const parts = lost[lossKey(place, cause)]!;
      if (parts !== 0) rows[`${station} ${cause}`] = parts / CARTON;
    }
  }
  return rows;
}

/** Sachet 20 at 60 a minute: one good carton each second up to 10 s, a jam at fold from 10.5 s to 30 s, first good again at 33 s. */
const jam = [
  ...running(),
  ...goods(1, 10, 1),
  [10.5, 'state', 11],
  [10.5, 'reason', 51],
  [29, 'crushed', 2],
  [30, 'state', 6],
  [30, 'reason', 0],
  [33, 'good', 11],
  [34, 'good', 12],
] as const;

describe('cartons lost', () => {
  it('[LO2] possible minus good is the sum of what was lost, to the last part', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, jam));
    const { account } = seenAt(fold, at(34));
    const lost = lostByKey(account).reduce((a, b) => a + b, 0);
    expect(account.possible).toBe(34 * CARTON);
    expect(account.good).toBe(12);
    expect(lost).toBe(22 * CARTON);
  });

  it('[LO3] [LO4] [LO5] a stop pays from the last good carton before it to the next one, less what was counted in between', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, jam));
    // 10 s to 33 s is 23 cartons; one good came at its end and two were crushed in it
    expect(lossesAt(fold, 34)).toEqual({ 'fold stopped': 20, 'fold crushed': 2 });
  });

  it('[LO3] while it stands, the open pause grows with time', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, jam.slice(0, -5)));
    expect(lossesAt(fold, 20)).toEqual({ 'fold stopped': 10 });
    expect(lossesAt(fold, 25)).toEqual({ 'fold stopped': 15 });
  });

  it('[LO3] a second stop before any good carton pays from its own beginning on', () => {
    const fold = new LineFold(line);
    fold.take(
      changes(line, [
        ...running(),
        ...goods(1, 10, 1),
        [10, 'state', 11],
        [10, 'reason', 51],
        [20, 'state', 6],
        [20, 'reason', 0],
        [25, 'state', 11],
        [25, 'reason', 52],
        [40, 'state', 6],
        [40, 'reason', 0],
        [45, 'good', 11],
      ]),
    );
    expect(lossesAt(fold, 45)).toEqual({ 'fold stopped': 15, 'pick stopped': 19 });
  });

  it('[LO4] [LO6] rejects, empty cartons and missed picks are charged to their own station', () => {
    const fold = new LineFold(line);
    fold.take(
      changes(line, [
        ...running(),
        [1, 'good', 1],
        [2, 'rejectOpen', 1],
        [3, 'rejectEmpty', 1],
        [4, 'missed', 1],
        [5, 'good', 2],
      ]),
    );
    expect(lossesAt(fold, 5)).toEqual({ 'fold reject': 1, 'fold notLoaded': 1, 'pick missedPick': 1 });
  });

  it('[LO3] without a stop the shortfall is slow, and may be negative', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, [...running(), [10, 'good', 7]]));
    expect(lossesAt(fold, 10)).toEqual({ 'none slow': 3 });
    fold.take(changes(line, [[11, 'good', 12]]));
    expect(lossesAt(fold, 11)).toEqual({ 'none slow': -1 });
  });

  it('[LO2] [LO3] what is not seen is never below zero: a surplus counted in a gap is made up by the pace', () => {
    const fold = new LineFold(line);
    fold.take(
      changes(line, [
        ...running(),
        ...goods(1, 10, 1),
        [10.5, 'link', false],
        [12.5, 'good', 13],
        [12.5, 'link', true],
      ]),
    );
    // half a carton of pace before the gap, two possible in it, three counted in it
    expect(lossesAt(fold, 12.5)).toEqual({ 'none slow': -0.5 });
    const { account } = seenAt(fold, at(12.5));
    expect(lostByKey(account).reduce((a, b) => a + b, 0)).toBe(account.possible - 13 * CARTON);
    fold.take(changes(line, [...goods(13, 20, 14)]));
    fold.take(
      changes(line, [
        [20, 'link', false],
        [30, 'good', 24],
        [30, 'link', true],
      ]),
    );
    expect(lossesAt(fold, 30)).toMatchObject({ 'none unknown': 7 });
  });

  it('[LO3] a gap that is not over yet is nothing less than nothing either', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, [...running(), ...goods(1, 10, 1), [10.1, 'link', false], [10.2, 'good', 12]]));
    expect(lossesAt(fold, 10.5)).toEqual({ 'none slow': -1.5 });
    expect(lossesAt(fold, 14.5)).toMatchObject({ 'none slow': 0.1, 'none unknown': 2.4 });
  });

  it('[LO5] a safety stop and a stop by a person are charged to no one station', () => {
    const fold = new LineFold(line);
    fold.take(
      changes(line, [
        ...running(),
        [1, 'good', 1],
        [2, 'panel', true],
        [2.01, 'state', 8],
        [2.01, 'reason', 301],
        [20, 'panel', false],
        [30, 'state', 6],
        [30, 'reason', 0],
        [31, 'good', 2],
      ]),
    );
    expect(lossesAt(fold, 31)).toEqual({ 'none stopped': 29 });
  });

  it('[LO1] [ST8] a planned pause within its allowance is not possible time; what it lasts longer is pause over', () => {
    const fold = new LineFold(line);
    const nine = 3 * 3600;
    fold.take(
      changes(line, [
        ...running(nine - 60),
        [nine + 100, 'good', 160],
        [nine + 100, 'state', 2],
        [nine + 100, 'reason', 201],
        [nine + 100 + 1290, 'state', 6],
        [nine + 100 + 1290, 'reason', 0],
        [nine + 100 + 1300, 'good', 161],
      ]),
    );
    const { account } = seenAt(fold, at(nine + 1400));
    expect(account.possible).toBe((160 + 100) * CARTON);
    expect(lossesAt(fold, nine + 1400)).toEqual({ 'none pauseOver': 99 });
  });

  it('[LO7] what is shown is whole and adds up: the largest remainders are rounded up', () => {
    expect(
      wholeCartons(
        [0.4, 0.4, 0.2, 1].map((cartons) => cartons * CARTON),
        2,
      ),
    ).toEqual([1, 0, 0, 1]);
    expect(
      wholeCartons(
        [-0.5, 1.5].map((cartons) => cartons * CARTON),
        1,
      ),
    ).toEqual([0, 1]);
    const fold = new LineFold(line);
    fold.take(changes(line, jam));
    const { path } = viewOf(fold, at(34.6), { servers: [] });
    expect(path.possible - path.good).toBe(path.total);
    expect(path.stations.reduce((sum, station) => sum + station.lost, 0) + path.none.lost).toBe(path.total);
  });

  it('[LO8] [ST9] an open stop pays in each shift for the time that passed in it, and counts once', () => {
    const fold = new LineFold(line);
    const two = 8 * 3600;
    const events = fold.take(
      changes(line, [
        ...running(two - 100),
        [two - 60, 'good', 40],
        [two - 60, 'state', 11],
        [two - 60, 'reason', 51],
        [two + 30, 'state', 6],
        [two + 30, 'reason', 0],
        [two + 40, 'good', 41],
      ]),
    );
    const ended = events.find((event) => event.kind === 'ShiftEnded');
    expect(ended?.kind === 'ShiftEnded' && lostByKey(ended.record.account)[lossKey(1, 'stopped')]).toBe(
      60 * CARTON,
    );
    expect(lossesAt(fold, two + 40)).toEqual({ 'fold stopped': 39 });
    expect(fold.state.stops).toHaveLength(1);
  });
});
