import { describe, expect, it } from 'vitest';
import { chooseDue, type OnItsWay } from '../../../gateway/notices/lanes.ts';
import type { WaitingRow } from '../../../gateway/notices/outboxStore.ts';

let made = 0;
function row(person: string, more: Partial<WaitingRow> = {}): WaitingRow {
  made += 1;
  return {
    ...{ number: made, person, way: 'mail', line: 'line-3', notice: `n${made}`, round: 0 },
    ...{ urgent: false, hasFailed: false, since: 0, waitMs: 0 },
    ...more,
  };
}

const chosen = (waiting: readonly WaitingRow[], onTheirWay: readonly OnItsWay[] = [], atOnce = 4) => {
  const { begin, next } = chooseDue(waiting, onTheirWay, { atOnce, waitOf: ({ waitMs }) => waitMs });
  return { begin: begin.map(({ number }) => waiting.findIndex((one) => one.number === number)), next };
};

describe('which letters go out', () => {
  it('one of each kind at a time for each person and way', () => {
    const urgent = { urgent: true };
    const again = { hasFailed: true };
    const rows = [row('1', urgent), row('1', urgent), row('1'), row('1'), row('1', again), row('1', again)];
    expect(chosen(rows)).toEqual({ begin: [0, 2, 4], next: undefined });
    const onTheirWay = [{ way: 'mail', person: '1', kind: 'again' as const }];
    expect(chosen(rows, onTheirWay).begin).toEqual([0, 2]);
  });

  it('of those that are tried again whichever is due, and when the next one is', () => {
    const rows = [500, 0, 200].map((waitMs) => row('1', { hasFailed: true, waitMs }));
    expect(chosen(rows)).toEqual({ begin: [1], next: 500 });
    expect(chosen(rows.toSpliced(1, 1))).toEqual({ begin: [], next: 200 });
  });

  it('so many of each kind by one way', () => {
    const rows = [row('1', { urgent: true }), ...['1', '2', '3'].map((person) => row(person))];
    expect(chosen(rows, [], 2).begin).toEqual([0, 1, 2]);
    const pager = { way: 'pager', person: '1', kind: 'first' as const };
    expect(chosen(rows, [pager, pager], 2).begin).toEqual([0, 1, 2]);
  });
});
