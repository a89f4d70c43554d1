import { expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { causes, lostByKey } from '../../model/fold/account.ts';
import type { LineEvent } from '../../model/fold/events.ts';
import type { ShiftRecord } from '../../model/fold/state.ts';
import type { Line } from '../../model/line/line.ts';
import { HOUR, type Instant } from '../../model/units/units.ts';
import { accountOf } from '../../simulator/ledger/account.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { ledgerOf } from '../../simulator/ledger/ledger.ts';
import { openEntries, runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { changesOf, monday, simulatedLine } from './simulatedLine.ts';

/** An account's losses by `station|cause`, as the ledger's accounting names them. */
function lostOf(line: Line, record: ShiftRecord): Map<string, number> {
  const lost = new Map<string, number>();
  lostByKey(record.account).forEach((parts, key) => {
    if (parts === 0) return;
    const station = line.stations[Math.floor(key / causes.length)]?.id ?? '';
    lost.set(`${station}|${causes[key % causes.length]}`, parts);
  }, 600_000);
  return new Map([...lost].sort());
}

for (const seed of [1, 2, 3]) {
  it(`[LO2] three days of seed ${seed}: the model's account of each shift is the ledger's, to the last part`, () => {
    const line = simulatedLine();
    const machine = startMachine({ seed, start: monday });
    const fold = new LineFold(line);
    const ended: LineEvent[] = [];
    const entries: LedgerEntry[] = [];
    for (let hour = 1; hour <= 72; hour += 1) {
      const told = runUntil(machine, (monday + hour * HOUR) as Instant);
      ended.push(...fold.take(changesOf(line, told)).filter(({ kind }) => kind === 'ShiftEnded'));
      entries.push(...takeEntries(machine));
    }
    const ledger = ledgerOf([...entries, ...openEntries(machine)]);
    expect(ended.length).toBeGreaterThanOrEqual(8);
    for (const event of ended) {
      if (event.kind !== 'ShiftEnded') continue;
      const { record } = event;
      const account = accountOf(ledger, line, record.from, record.until);
      expect({
        good: record.account.good,
        possible: record.account.possible,
        lost: lostOf(line, record),
      }).toEqual({
        good: account.good,
        possible: account.possible,
        lost: new Map([...account.lost].sort()),
      });
    }
  }, 600_000);
}
