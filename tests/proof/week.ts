import { createHash } from 'node:crypto';
import { causes, lostByKey } from '../../model/fold/account.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { ShiftRecord } from '../../model/fold/state.ts';
import { HOUR, type Instant } from '../../model/units/units.ts';
import { accountOf } from '../../simulator/ledger/account.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { ledgerOf } from '../../simulator/ledger/ledger.ts';
import { standard, type Variant } from '../../simulator/lines/variant.ts';
import { openEntries, runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';

/** One shift of a simulated week: what the model made of it, and whether the ledger says the same. */
export interface WeekRow {
  readonly proof: 'week';
  readonly variant: keyof typeof variants;
  readonly seed: number;
  readonly shift: number;
  readonly good: number;
  readonly possibleParts: number;
  /** First letters of the hash of all losses by station and cause, in parts. */
  readonly lost: string;
  readonly equal: boolean;
}

export const variants = {
  standard,
  fourReverseSeries: { ...standard, loading: 'four', tuck: 'reverse', buttons: 'series' },
  automaticNoFirstOut: { ...standard, loading: 'automatic', firstOut: false, encoders: false },
} as const satisfies Record<string, Variant>;

/** Shifts of a simulated week, of each variant, by direct feed: model against ledger, to the last part. */
export function* week(): Generator<WeekRow> {
  for (const variant of Object.keys(variants) as (keyof typeof variants)[]) {
    for (const seed of [11, 12]) yield* shiftsOf(variant, seed, 21);
  }
}

/** So many shifts of one run, from Monday's early shift on. */
export function* shiftsOf(name: keyof typeof variants, seed: number, shifts: number): Generator<WeekRow> {
  const variant: Variant = variants[name];
  const bound = boundLine(variant);
  const machine = startMachine({ seed, start: monday, variant });
  const fold = new LineFold(bound.line);
  const entries: LedgerEntry[] = [];
  let shift = 0;
  for (let hour = 1; shift < shifts; hour += 1) {
    const events = fold.take(changesOf(bound, runUntil(machine, (monday + hour * HOUR) as Instant)));
    entries.push(...takeEntries(machine));
    const ended = events.flatMap((event) => (event.kind === 'ShiftEnded' ? [event.record] : []));
    for (const record of ended) {
      const ledger = ledgerOf([...entries, ...openEntries(machine)]);
      const account = accountOf(ledger, bound.line, record.from, record.until);
      const lost = lostText(
        record,
        bound.line.stations.map(({ id }) => id),
      );
      const equal =
        account.good === record.account.good &&
        account.possible === record.account.possible &&
        lost === JSON.stringify([...account.lost].sort());
      shift += 1;
      yield {
        proof: 'week',
        variant: name,
        seed,
        shift,
        good: record.account.good,
        possibleParts: record.account.possible,
        lost: createHash('sha256').update(lost).digest('hex').slice(0, 16),
        equal,
      };
    }
  }
}

function lostText(record: ShiftRecord, stations: readonly string[]): string {
  const lost: [string, number][] = [];
  lostByKey(record.account).forEach((parts, key) => {
    const station = stations[Math.floor(key / causes.length)] ?? '';
    if (parts !== 0) lost.push([`${station}|${causes[key % causes.length]}`, parts]);
  });
  return JSON.stringify(lost.sort());
}
