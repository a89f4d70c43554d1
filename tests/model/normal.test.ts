import { describe, expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { at, changes, foldOf, type Rows, running, smallLine } from './smallLine.ts';

const line = smallLine();

/** A hundred good cartons every hundred seconds, up to so many in all. */
function hundreds(from: number, fromCount: number, toCount: number): Rows {
  return Array.from(
    { length: (toCount - fromCount) / 100 },
    (_, n) => [from + 100 * (n + 1), 'good', fromCount + 100 * (n + 1)] as const,
  );
}

/** 4,200 good cartons without a reject, then a reject at fold every ten seconds. */
const clean: Rows = [...running(), ...hundreds(0, 0, 4200)];
const rejecting: Rows = [
  ...clean,
  ...Array.from({ length: 12 }, (_, n) => [4300 + 10 * n, 'rejectOpen', n + 1] as const),
];

function noticeOf(fold: LineFold, second: number) {
  return viewOf(fold, at(second), { servers: [] }).matters.find(({ kind }) => kind === 'stationAbnormal');
}

describe('a station outside its own normal', () => {
  it('[RJ1] is told by its id, since the reject with which it left it, and that moment stays', () => {
    const fold = foldOf(rejecting);
    const left = fold.state.stations[1]!.outSince!;
    expect((left - at(4300)) % (at(10) - at(0))).toBe(0);
    const before = foldOf(rejecting.filter(([second]) => at(second) < left));
    expect(noticeOf(before, 4500)).toBeUndefined();
    const told = noticeOf(fold, 4411);
    expect(told).toMatchObject({ station: 'fold', inLast: 12, of: 1000, normal: 0 });
    expect(noticeOf(fold, 4500)).toEqual(told);
    expect(viewOf(fold, at(4411), { servers: [] }).path.stations[1]!.mark).toBe('abnormal');
    expect(told?.kind === 'stationAbnormal' && told.since).toBe(
      Date.parse('2026-03-17T06:00:00+01:00') + (left - at(0)) / 10_000,
    );
  });

  it('[RJ1] [TI3] the moment is the same in any chunks, and from a saved state on', () => {
    const whole = foldOf(rejecting);
    const all = changes(line, rejecting);
    let fold = new LineFold(line);
    for (let n = 0; n < all.length; n += 7) {
      fold.take(all.slice(n, n + 7));
      fold = new LineFold(line, fold.save());
    }
    expect(fold.text()).toBe(whole.text());
  });

  it('[RJ1] it is back in its normal when the rejects have left the last thousand cartons, or with another size', () => {
    const later: Rows = [...rejecting, ...hundreds(4500, 4200, 5300)];
    expect(noticeOf(foldOf(later), 5700)).toBeUndefined();
    expect(noticeOf(foldOf([...rejecting, [4500, 'size', 48]]), 4501)).toBeUndefined();
  });

  it('[RJ1] with a short past nothing is said', () => {
    const short = rejecting.filter(([second]) => second <= 1000 || second >= 4300);
    expect(foldOf(short).state.stations[1]!.outSince).toBeNull();
  });
});
