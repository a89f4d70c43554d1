import { describe, expect, it } from 'vitest';
import { changeRows } from '../../../model/export/changeRow.ts';
import { minuteRow, runRow } from '../../../model/export/countedRows.ts';
import { gapRow, stopRow } from '../../../model/export/happenedRows.ts';
import { columnsOf } from '../../../model/export/tables.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { StopRecord } from '../../../model/fold/state.ts';
import { type Instant, SECOND } from '../../../model/units/units.ts';
import { at, goods, running, smallLine } from '../smallLine.ts';
import { recorded } from '../past/recorded.ts';

const line = smallLine();
const index = indexOf(line);

describe('rows of an export', () => {
  it('[OI2] a stop that goes on, or of which nobody knows the first fault, has empty cells and no zeros', () => {
    const { of } = recorded(line, [...running(), ...goods(1, 20, 1), [30, 'state', 9]]);
    const [stop] = of('stop');
    const row = stopRow(index, stop as StopRecord);
    expect(row).toMatchObject({ ended: null, end_seen: null, lasted_s: null, lost_cartons: null });
    expect(row).toMatchObject({ reason_number: null, first_fault: null, station: null, said_by: null });
    expect(row.began).toBe(at(30));
    expect(gapRow({ from: at(1), to: null, kind: 'unknown' })).toMatchObject({ ended: null, lasted_s: null });
    expect(gapRow({ from: at(1), to: (at(1) + 2.5 * SECOND) as Instant, kind: 'unknown' }).lasted_s).toBe(
      2.5,
    );
  });

  it('[OI2] a minute has what counters gained since the one before, and says since when; a run what it gained till the next', () => {
    const tally = (good: number) =>
      index.tallied.map((signal) => (line.signals[signal]!.role === 'goodCount' ? good : 0));
    const minute = (end: Instant, good: number) => ({
      at: end,
      tally: tally(good),
      attributed: [],
      flow: null,
    });
    const good = columnsOf('minutes', index).findIndex(({ name }) => name === 'good_cartons');
    const first = minuteRow(index, minute(at(60), 40), undefined);
    expect([...first.slice(0, 3), first[good]]).toEqual([at(0), at(60), at(0), 40]);
    const later = minuteRow(index, minute(at(300), 90), minute(at(60), 40));
    expect([...later.slice(0, 3), later[good]]).toEqual([at(240), at(300), at(60), 50]);

    const size = { at: at(0), size: line.sizes[0]!.id, tally: tally(40) };
    const next = { at: at(300), size: line.sizes[1]!.id, tally: tally(140) };
    const run = runRow(index, size, next, { at: next.at, tally: next.tally });
    expect(run).toMatchObject({ ended: at(300), counted_until: at(300), good_cartons: 100, lot: null });
    const { tally: _, ...older } = size;
    expect(runRow(index, older, undefined, undefined)).toMatchObject({ ended: null, good_cartons: null });
    expect(runRow(index, size, undefined, { at: at(60), tally: tally(44) })).toMatchObject({
      ended: null,
      counted_until: at(60),
      good_cartons: 4,
    });
  });

  it('[OI2] a change of a signal that the line’s file has no more keeps its id and value, and means nothing that is known', () => {
    const rowOf = changeRows(index, ['gone.signal']);
    const change = { signal: 0, at: at(1), received: at(2), status: 0x80000000, value: null };
    expect(rowOf(-5, change)).toEqual({
      position: -5,
      signal: 'gone.signal',
      role: null,
      meaning: null,
      unit: null,
      line_time: at(1),
      line_time_ticks: at(1),
      received: at(2),
      received_ticks: at(2),
      status_code: 0x80000000,
      quality: 'bad',
      value_number: null,
      value_text: null,
      value_truth: null,
      value_means: null,
    });
  });

  it('[OI2] counters have columns of their own, with their units in names that differ', () => {
    const names = columnsOf('minutes', index).map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBe(3 + index.tallied.length);
    for (const name of names) expect(name).toMatch(/^[a-z][a-z0-9_]*$/);
  });
});
