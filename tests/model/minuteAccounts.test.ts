import { describe, expect, it } from 'vitest';
import { lostByCause } from '../../model/fold/accountTold.ts';
import { CARTON } from '../../model/fold/account.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { seenAt } from '../../model/view/seen.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import { recorded } from './past/recorded.ts';
import { at, changes, goods, type Rows, running, smallLine } from './smallLine.ts';

const line = smallLine();
const SHIFT = 8 * 3600;

/** A jam over the end of minute 2, an outage over that of minute 6, a stop into the next shift. */
const rows: Rows = [
  ...running(SHIFT - 900),
  ...goods(SHIFT - 899, SHIFT - 800, 1),
  [SHIFT - 790, 'state', 11],
  [SHIFT - 790, 'reason', 51],
  [SHIFT - 770, 'crushed', 2],
  [SHIFT - 700, 'state', 6],
  [SHIFT - 700, 'reason', 0],
  ...goods(SHIFT - 690, SHIFT - 560, 101),
  [SHIFT - 555, 'link', false],
  [SHIFT - 520, 'link', true],
  ...goods(SHIFT - 515, SHIFT - 200, 240),
  [SHIFT - 190, 'state', 11],
  [SHIFT - 190, 'reason', 51],
  [SHIFT - 20, 'rejectOpen', 1],
  [SHIFT + 65, 'rejectOpen', 2],
  [SHIFT + 130, 'state', 6],
  [SHIFT + 140, 'good', 700],
  [SHIFT + 200, 'good', 720],
];

describe('the account by the minute', () => {
  it('[LO9] a minute is told with what a screen showed of its shift at its end, and in it nothing is without a cause', () => {
    const { of } = recorded(line, rows);
    const minutes = of('minute');
    expect(minutes.length).toBeGreaterThan(14);
    for (const minute of minutes) {
      const fold = new LineFold(line);
      fold.take(changes(line, rows).filter((change) => change.at < minute.at));
      const { possible, good, lost } = minute.account;
      expect(possible - good * CARTON, String(epochMs(minute.at))).toBe(lost.reduce((a, b) => a + b, 0));
      // until something is told in it, a fold knows nothing of the next shift
      if (minute.account.since !== fold.state.shift.from) continue;
      const { account } = seenAt(fold, minute.at);
      expect(minute.account).toMatchObject({
        possible: account.possible,
        good: account.good,
        lost: lostByCause(account),
      });
    }
  });

  it('[LO9] the minute with which a shift ends is the next shift’s, which begins with nothing', () => {
    const { of } = recorded(line, rows);
    const accountAt = (moment: Instant) => of('minute').find((minute) => minute.at === moment)?.account;
    expect(accountAt(at(SHIFT))).toEqual({
      since: at(SHIFT),
      possible: 0,
      good: 0,
      lost: [0, 0, 0, 0, 0, 0, 0, 0, 0],
    });
  });

  it('[LO9] a minute that nothing followed until after its shift’s end is told with its own shift’s account', () => {
    const { of } = recorded(line, [
      ...running(SHIFT - 300),
      [SHIFT - 290, 'good', 1],
      [SHIFT + 90, 'good', 2],
    ]);
    const told = of('minute').find((minute) => minute.at === at(SHIFT - 240));
    expect(told?.account.since).toBe(at(SHIFT - 300));
    // a minute at 60 a minute, less the one that was made
    expect(told?.account.possible).toBe(60 * CARTON);
    expect(told?.account.good).toBe(1);
  });
});
