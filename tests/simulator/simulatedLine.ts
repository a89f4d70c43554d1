import { type Bound, parseLineFile } from '../../gateway/binding/binding.ts';
import type { Line } from '../../model/line/line.ts';
import { byLineTime, type Change } from '../../model/signals/signals.ts';
import { type Instant, instantFromMs } from '../../model/units/units.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { type Ledger, ledgerOf } from '../../simulator/ledger/ledger.ts';
import { standard, type Variant } from '../../simulator/lines/variant.ts';
import { lineFileText } from '../../simulator/lines/variants.ts';
import {
  type Machine,
  openEntries,
  runUntil,
  startMachine,
  takeEntries,
} from '../../simulator/machine/machine.ts';
import type { MachineOptions } from '../../simulator/machine/options.ts';
import type { PlcFact } from '../../simulator/machine/plc.ts';

/** 2026-03-16 06:00 in Berlin, a Monday: an early shift begins. */
export const monday = instantFromMs(Date.parse('2026-03-16T05:00:00Z'));

/** A variant's line file, read as the gateway reads it. */
export function boundLine(variant: Variant = standard): Bound {
  return parseLineFile(lineFileText(variant), 'variant.yaml');
}

/** The compiled line of a variant. */
export function simulatedLine(variant: Variant = standard): Line {
  return boundLine(variant).line;
}

/** What the PLC told, as changes of a line's signals in line time. */
export function changesOf({ line, tags }: Bound, told: readonly PlcFact[]): Change[] {
  const places = new Map([...tags].map(([signal, { tag }]) => [tag, signal]));
  const link = line.signals.findIndex(({ role }) => role === 'link');
  return told
    .map((fact): Change => {
      const signal = 'link' in fact ? link : (places.get(fact.tag) ?? -1);
      const value = 'link' in fact ? fact.link : fact.value;
      return { signal, at: fact.at, received: fact.at, status: 0, value };
    })
    .sort(byLineTime);
}

export interface Run {
  readonly machine: Machine;
  readonly told: readonly PlcFact[];
  readonly entries: readonly LedgerEntry[];
  readonly ledger: Ledger;
  readonly to: Instant;
}

/** A run of so many hours from Monday's early shift on, in one go. */
export function runFor(hours: number, options: Partial<MachineOptions> = {}): Run {
  const machine = startMachine({ seed: 1, start: monday, ...options });
  const to = (monday + hours * 36_000_000_000) as Instant;
  const told = runUntil(machine, to);
  const entries = [...takeEntries(machine), ...openEntries(machine)];
  return { machine, told, entries, ledger: ledgerOf(entries), to };
}
