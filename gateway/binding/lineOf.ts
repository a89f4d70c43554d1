import type {
  Adjustment,
  ChangeoverStep,
  Line,
  Machine,
  Station,
  StopDevice,
} from '../../model/line/line.ts';
import type { Signal } from '../../model/signals/signals.ts';
import type { LineFile } from './schema.ts';
import { settingsOf } from './settings.ts';

/** The model's line from a file without mistakes: defaults filled in, numbers in the model's units. */
export function lineOf(file: LineFile, signals: readonly Signal[]): Line {
  return {
    ...file.line,
    machines: file.machines.map(machineOf),
    stations: file.stations.map((station, place) => stationOf(file.line.pace, station, place)),
    sizes: file.sizes.map(({ id, name, code, targets, ideal, perCase }) => ({
      id,
      name,
      code,
      targets: new Map(Object.entries(targets).map(([people, target]) => [Number(people), target])),
      // without one of its own nothing is taken to be faster than its highest target
      ideal: ideal ?? Math.max(0, ...Object.values(targets)),
      ...(perCase === undefined ? {} : { perCase }),
    })),
    loading: file.loading,
    rejects: (file.rejects ?? []).map(({ means, from, ...reject }) => ({
      ...reject,
      ...(from === undefined ? {} : { from }),
      means: means ?? 'reject',
    })),
    reasons: (file.reasons ?? []).map(({ station, ...reason }) => ({
      ...reason,
      ...(station === undefined ? {} : { station }),
    })),
    answers: file.answers ?? [],
    devices: (file.devices ?? []).map(deviceOf),
    guards: file.guards ?? [],
    adjustments: (file.adjustments ?? []).map(adjustmentOf),
    changeoverSteps: (file.changeover?.steps ?? []).map(stepOf),
    conditions: file.conditions ?? [],
    calendar: {
      shifts: file.calendar.shifts.map(({ days, ...shift }) => ({
        ...shift,
        days: days ?? [1, 2, 3, 4, 5, 6, 7],
      })),
      pauses: (file.calendar.pauses ?? []).map(({ allowance, ...pause }) => ({
        ...pause,
        allowanceMinutes: allowance / 60_000,
      })),
    },
    settings: settingsOf(file),
    servers: file.servers.map(({ id }) => id),
    signals,
  };
}

function machineOf({ id, name, states, modes }: LineFile['machines'][number]): Machine {
  return { id, name, states: byNumber(states ?? {}), modes: byNumber(modes ?? {}) };
}

function byNumber<Name>(names: Readonly<Record<string, Name>>): ReadonlyMap<number, Name> {
  return new Map(Object.entries(names).map(([number, name]) => [Number(number), name]));
}

function stationOf(pace: string, station: LineFile['stations'][number], place: number): Station {
  const { id, name, pockets, machine, drawing, answers } = station;
  return {
    id,
    number: place + 1,
    name,
    machine: machine ?? pace,
    pocketsToDischarge: pockets,
    drawing: drawing ?? id,
    answers: answers ?? [],
  };
}

function adjustmentOf(adjustment: NonNullable<LineFile['adjustments']>[number]): Adjustment {
  const {
    range: [min, max],
    book,
    wheel,
    approach,
    clamp,
    actsOn,
    ...facts
  } = adjustment;
  return {
    ...facts,
    min,
    max,
    book: new Map(Object.entries(book)),
    ...(wheel === undefined ? {} : { wheel }),
    ...(approach === undefined ? {} : { approach }),
    ...(clamp === undefined ? {} : { clamp }),
    ...(actsOn === undefined ? {} : { actsOn }),
  };
}

function stepOf(step: NonNullable<LineFile['changeover']>['steps'][number]): ChangeoverStep {
  const { station, in: kinds, parts, lot, ...facts } = step;
  return {
    ...facts,
    in: kinds ?? ['size'],
    ...(lot === true ? { lot } : {}),
    ...(station === undefined ? {} : { station }),
    ...(parts === undefined ? {} : { parts: new Map(Object.entries(parts)) }),
  };
}

function deviceOf(device: NonNullable<LineFile['devices']>[number]): StopDevice {
  const { id, name, kind, side, station, position, candidates } = device;
  return {
    id,
    name,
    kind: kind ?? 'button',
    side,
    ...(station === undefined ? {} : { station }),
    ...(position === undefined ? {} : { position }),
    candidates: candidates ?? [],
  };
}
