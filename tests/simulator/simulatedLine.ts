import type { Line, Mode, Station } from '../../model/line/line.ts';
import { opc30050 } from '../../model/packml/packml.ts';
import type { Change, Role, Signal } from '../../model/signals/signals.ts';
import { type Instant, instantFromMs } from '../../model/units/units.ts';
import { standardCalendar, standardZone } from '../../simulator/calendar/standard.ts';
import * as facts from '../../simulator/lines/cartoner.ts';
import { type Tag, tagsOf } from '../../simulator/lines/tags.ts';
import {
  crewsOf,
  devicesOf,
  positionsOf,
  standard,
  targetsOf,
  type Variant,
} from '../../simulator/lines/variant.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { type Ledger, ledgerOf } from '../../simulator/ledger/ledger.ts';
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

/** The compiled line of a variant, put together by hand from the facts the simulator stands on. */
export function simulatedLine(variant: Variant = standard): Line {
  const { assumed, crews } = crewsOf(variant);
  return {
    id: 'line-3',
    name: 'Line 3',
    product: 'tea sachets',
    zone: standardZone,
    machines: [{ id: 'cartoner', name: 'cartoner', states: variant.stateTag ? opc30050 : new Map(), modes }],
    pace: 'cartoner',
    stations: facts.stations.map(compiledStation),
    sizes: facts.sizes.map(({ id, name, code, perCase }) => ({
      id,
      name,
      code,
      perCase,
      targets: new Map(
        Object.entries(targetsOf(variant, id as facts.SizeId)).map(([people, rate]) => [
          Number(people),
          rate,
        ]),
      ),
    })),
    loading: { station: 'loading', crew: assumed, crews, positions: positionsOf(variant) },
    rejects: facts.rejects.map(({ id, name, station }) => ({
      id,
      name,
      station,
      means: id === 'empty' ? 'notLoaded' : 'reject',
    })),
    reasons: facts.reasons,
    answers: [],
    devices: devicesOf(variant),
    guards: facts.guards.map(({ id, name, from, to }) => ({ id, name, side: 'back', from, to })),
    adjustments: [],
    conditions: facts.conditions,
    calendar: {
      shifts: standardCalendar.shifts.map((shift) => ({ ...shift, name: shift.id })),
      pauses: standardCalendar.pauses.map((pause) => ({ ...pause, name: pause.id })),
    },
    settings: {
      minorStopMinutes: 10,
      rejamCartons: 10,
      askAfterSeconds: 20,
      atRateMinutes: 3,
      atRateShare: 0.9,
      orderCertainMs: 20,
      planShare: 1,
      staleSeconds: 3,
      lostSeconds: 60,
      rateMax: 120,
    },
    servers: ['plc'],
    signals: signalsOf(variant),
  };
}

const modes: ReadonlyMap<number, Mode> = new Map([
  [1, 'produce'],
  [2, 'maintenance'],
  [3, 'manual'],
  [4, 'setup'],
]);

function compiledStation({ id, name, pockets }: facts.StationFacts, index: number): Station {
  return {
    id,
    number: index + 1,
    name,
    machine: 'cartoner',
    pocketsToDischarge: pockets,
    drawing: id,
    answers: [],
  };
}

function signalsOf(variant: Variant): Signal[] {
  const own = tagsOf(variant).map((tag, index): Signal => signal(tag, index));
  const gateway = { machine: 'cartoner', server: 'plc', type: 'boolean' } as const;
  return [
    ...own,
    { ...gateway, index: own.length, id: 'link', role: 'link' },
    { index: own.length + 1, id: 'entry', role: 'entry', machine: 'cartoner', server: '', type: 'text' },
  ];
}

function signal({ role, of, tag, type, width }: Tag, index: number): Signal {
  return {
    index,
    id: tag,
    role: role as Role,
    machine: 'cartoner',
    server: 'plc',
    type: type === 'Boolean' ? 'boolean' : type === 'String' ? 'text' : 'number',
    ...(width === undefined ? {} : { wraps: 2 ** width }),
    ...(of === undefined ? {} : { of }),
  };
}

/** What the PLC told, as changes of a line's signals in line time. */
export function changesOf(line: Line, told: readonly PlcFact[]): Change[] {
  const places = new Map(line.signals.map(({ id, index }) => [id, index]));
  const place = (id: string) => places.get(id) ?? -1;
  return told
    .map((fact): Change => {
      const signal = place('link' in fact ? 'link' : fact.tag);
      const value = 'link' in fact ? fact.link : fact.value;
      return { signal, at: fact.at, received: fact.at, status: 0, value };
    })
    .sort((a, b) => a.at - b.at || a.signal - b.signal);
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
