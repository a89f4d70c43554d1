import { expect, it } from 'vitest';
import { readFaults } from '../../simulator/faults/language.ts';
import { monday } from '../simulator/simulatedLine.ts';
import { runFaulted } from './faultedRun.ts';
import { judge } from './judge.ts';

/** Seed 3 makes 1,788 good cartons in the first hour and a half minute. */
const cases = [
  '0:00:00 counter Discharge.Good near its end',
  '0:00:00 counter Discharge.Good 1788 before its end\n1:00:00 link cut for 3 min',
  '0:00:00 counter Discharge.Good 1788 before its end\n1:01:00 server killed for 1 min',
  '0:00:00 tag Cartoner.FirstOut late by 2 s',
];

for (const faults of cases) {
  it(`[CO2] [ST3] ${faults.replaceAll('\n', ', ')}: all is counted once, and every stop has its reason`, async () => {
    const happened = readFaults(faults);
    const run = await runFaulted(3, 2, happened);
    const judged = judge(run, happened, monday);
    expect(judged.wrong).toEqual([]);
    expect(judged.counted).toBe(judged.good);
    expect(judged.stops).toBeGreaterThan(2);
    const good = run.line.signals.findIndex(({ role }) => role === 'goodCount');
    const values = run.changes.flatMap(({ signal, value }) =>
      signal === good && typeof value === 'number' ? [value] : [],
    );
    const falls = values.filter((value, place) => value < (values[place - 1] ?? 0));
    expect(falls.length).toBe(faults.includes('its end') ? 1 : 0);
    expect(run.fold.state.counterMarks).toEqual([]);
  }, 600_000);
}
