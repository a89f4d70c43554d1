import { describe, expect, it } from 'vitest';
import type { EntryBody } from '../../../model/entries/entries.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { Line } from '../../../model/line/line.ts';
import { epochMs } from '../../../model/units/units.ts';
import { seenAt } from '../../../model/view/seen.ts';
import { type SheetOffered, sheetOffered } from '../../../model/view/sheetOffered.ts';
import { at, changes, goods, type Rows } from '../smallLine.ts';
import { atRate, entry, setFold, setLine } from './setLine.ts';

const order = (number: string, size: string, blend: string, starts: 'now' | 'whenEnded'): EntryBody => ({
  ...{ kind: 'order', number, size, blend, starts, quantity: 5000 },
});
const offered = (fold: LineFold, second: number) => sheetOffered(seenAt(fold, at(second)));
const why = (one: SheetOffered | undefined) => one && [one.kind, one.size.id, one.why, one.since];
/** From 101 on it is set up; the size is not told. */
const setUp: Rows = [
  [101, 'state', 11],
  [101, 'reason', 202],
  [101, 'mode', 4],
];
const stops = (second: number): Rows => [
  [second, 'state', 2],
  [second, 'reason', 201],
];
const starts = (second: number): Rows => [
  [second, 'reason', 0],
  [second, 'state', 6],
];
const HOUR = 3600;
/** The shift of this line changes at 14:00, eight hours after six. */
const SHIFT = 8 * HOUR;

describe('the sheet that fits', () => {
  it('[SH9] is the next order’s: for its size, or for another blend of the same; and nothing where no order tells', () => {
    const run = entry(90, 'o1', order('1', 'sachet-20', 'mint', 'now'));
    const with_ = (...rows: readonly Rows[number][]) => setFold(atRate, [run], rows, setUp);
    const since = epochMs(at(101));
    const next = (size: string, blend: string) => entry(91, 'o2', order('2', size, blend, 'whenEnded'));
    expect(why(offered(with_(next('sachet-48', 'mint')), 200))).toEqual([
      'size',
      'sachet-48',
      'nextSize',
      since,
    ]);
    expect(why(offered(with_(next('sachet-20', 'fennel')), 200))).toEqual([
      ...['artwork', 'sachet-20', 'nextBlend', since],
    ]);
    expect(offered(with_(next('sachet-20', 'mint')), 200)).toBeUndefined();
    expect(offered(with_(), 200)).toBeUndefined();
    // while it runs none is offered, whatever follows
    expect(offered(setFold(atRate, [run], [next('sachet-48', 'mint')]), 100)).toBeUndefined();
  });

  it('[SH9] is the artwork’s once the order that runs has another blend than the one before', () => {
    const fold = setFold(atRate, [entry(90, 'o1', order('1', 'sachet-20', 'mint', 'now'))], setUp, [
      entry(150, 'o2', order('2', 'sachet-20', 'fennel', 'now')),
    ]);
    expect(why(offered(fold, 200))).toEqual(['artwork', 'sachet-20', 'blend', epochMs(at(101))]);
  });

  it('[SH9] is a start-up’s while the line stands for long, and a while after it has started', () => {
    const fold = setFold(atRate, stops(110));
    expect(offered(fold, 110 + HOUR)).toBeUndefined();
    expect(why(offered(fold, 110 + 2 * HOUR))).toEqual(['startUp', 'sachet-20', 'stood', epochMs(at(100))]);
    fold.take(changes(setLine, starts(110 + 3 * HOUR)));
    const back = offered(fold, 120 + 3 * HOUR);
    expect(why(back)?.slice(0, 3)).toEqual(['startUp', 'sachet-20', 'stood']);
    // a jam right after it hides nothing
    fold.take(changes(setLine, [...stops(200 + 3 * HOUR), ...starts(220 + 3 * HOUR)]));
    expect(offered(fold, 230 + 3 * HOUR)?.why).toBe('stood');
    expect(offered(fold, 120 + 3 * HOUR + 31 * 60)).toBeUndefined();
  });

  it('[SH9] is a start-up’s where the line stood over the beginning of the shift', () => {
    const stood = (from: number, to: number) =>
      offered(setFold(atRate, goods(SHIFT - 2000, SHIFT - 1900, 100), stops(from), starts(to)), to + 60);
    const last = SHIFT - 1200;
    expect(stood(last, SHIFT + 60)?.why).toBe('shift');
    expect(stood(last, SHIFT - 60)).toBeUndefined();
    expect(stood(SHIFT - 60, SHIFT + 60)).toBeUndefined();
  });

  it('[SH9] is offered no more once one was begun for it, also where that has ended; and not where the file asks nothing', () => {
    const fold = setFold(atRate, stops(110));
    const second = 110 + 2 * HOUR;
    const begun = entry(second, 's', { kind: 'sheetBegun', size: 'sachet-20', in: 'startUp' });
    fold.take(changes(setLine, [begun]));
    expect(offered(fold, second + 60)).toBeUndefined();
    fold.take(
      changes(setLine, [entry(second + 70, 'e', { kind: 'sheetEnded', sheet: 's', why: 'mistake' })]),
    );
    expect(fold.state.sheet?.ended).not.toBeNull();
    expect(offered(fold, second + 80)).toBeUndefined();

    const bare: Line = { ...setLine, adjustments: [], changeoverSteps: [] };
    const none = new LineFold(bare);
    none.take(changes(bare, [...atRate.filter(([, id]) => id !== 'guide'), ...stops(110)]));
    expect(offered(none, second)).toBeUndefined();
  });

  it('[SH9] never begins by itself', () => {
    const fold = setFold(atRate, stops(110), starts(110 + 3 * HOUR));
    expect(offered(fold, 120 + 3 * HOUR)).toBeDefined();
    expect(fold.state.sheet).toBeNull();
  });
});
