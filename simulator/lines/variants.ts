import { stringify } from 'yaml';
import { standardCalendar, standardZone } from '../calendar/standard.ts';
import {
  adjustments,
  conditions,
  guards,
  reasons,
  rejects,
  type SizeId,
  sizes,
  stations,
} from './cartoner.ts';
import { changeoverSteps } from './changeoverSteps.ts';
import { tagsOf } from './tags.ts';
import { crewsOf, devicesOf, positionsOf, targetsOf, type Variant } from './variant.ts';

/** The line file that describes a simulated line of this variant. For the standard variant it says what `line-3.yaml` says. */
export function lineFileText(variant: Variant): string {
  return stringify(lineFile(variant));
}

/** The same as data, before it is written as YAML. */
export function lineFile(variant: Variant): Record<string, unknown> {
  return {
    line: { id: 'line-3', name: 'Line 3', product: 'tea sachets', zone: standardZone, pace: 'cartoner' },
    servers: [
      {
        id: 'plc',
        endpoint: 'opc.tcp://127.0.0.1:4840',
        security: 'none',
        clock: 'utc',
        namespace: 'urn:scoreline:simulator:line',
      },
    ],
    machines: [machine(variant)],
    stations: stations.map(station),
    answers: [
      { id: 'material', name: 'board or sachets missing', drawing: 'magazine' },
      { id: 'cleaning', name: 'cleaning', drawing: 'discharge' },
      { id: 'adjusting', name: 'adjusting', drawing: 'bottom-major' },
      { id: 'called-away', name: 'called away', drawing: 'loading' },
    ],
    sizes: sizes.map(({ id, name, code, perCase }) => ({
      id,
      name,
      code,
      targets: targetsOf(variant, id as SizeId),
      perCase,
    })),
    loading: loading(variant),
    rejects: rejects.map(({ id, name, station: at, from }) => ({
      id,
      name,
      station: at,
      ...(from === undefined ? {} : { from }),
      ...(id === 'empty' ? { means: 'notLoaded' } : {}),
    })),
    reasons: reasons.map(({ number, kind, station: at, name }) => ({
      number,
      kind,
      ...(at === undefined ? {} : { station: at }),
      name,
    })),
    devices: devicesOf(variant).map(device),
    guards: guards.map(({ id, name, from, to }) => ({ id, name, side: 'back', from, to })),
    adjustments: adjustments.map(({ tag: _, ...facts }) => facts),
    changeover: { steps: changeoverSteps },
    conditions: conditions.map(({ id, name, unit, normal }) => ({ id, name, unit, normal })),
    calendar: calendar(),
    orders: { file: 'orders.csv' },
    settings: settings(),
    signals: tagsOf(variant).map(({ role, of, tag, width }) => ({
      role,
      ...(of === undefined ? {} : { of }),
      tag,
      ...(width === undefined ? {} : { width }),
    })),
  };
}

function machine(variant: Variant) {
  const modes = { 1: 'produce', 2: 'maintenance', 3: 'manual', ...(variant.trialTag ? {} : { 4: 'setup' }) };
  return { id: 'cartoner', name: 'cartoner', ...(variant.stateTag ? { states: 'opc30050' } : {}), modes };
}

function station({ id, name, pockets }: (typeof stations)[number]) {
  const answers = [
    { id: 'no-product', name: 'no sachets', drawing: 'capture' },
    { id: 'fouled', name: 'carton fouled', drawing: 'open' },
    { id: 'fell', name: 'sachet fell', drawing: 'loading' },
    { id: 'flap', name: 'flap in the way', drawing: 'capture-off' },
  ];
  return { id, name, pockets, ...(id === 'loading' ? { answers } : {}) };
}

function loading(variant: Variant) {
  const { assumed, crews } = crewsOf(variant);
  return { station: 'loading', crew: assumed, crews, positions: positionsOf(variant) };
}

function device({
  id,
  name,
  kind,
  side,
  station: at,
  position,
  candidates,
}: ReturnType<typeof devicesOf>[number]) {
  return {
    id,
    name,
    ...(kind === 'circuit' ? { kind } : {}),
    side,
    ...(at === undefined ? {} : { station: at }),
    ...(position === undefined ? {} : { position }),
    ...(kind === 'circuit' ? { candidates } : {}),
  };
}

function calendar() {
  return {
    shifts: standardCalendar.shifts.map(({ id, from, to, days }) => ({
      id,
      name: `${id} shift`,
      from,
      to,
      days,
    })),
    pauses: standardCalendar.pauses.map(({ id, shift, from, to, allowanceMinutes }) => ({
      id,
      name: id.endsWith('break') ? 'break' : 'pause',
      shift,
      from,
      to,
      allowance: `${allowanceMinutes} min`,
    })),
  };
}

function settings() {
  return {
    minorStop: '10 min',
    rejamCartons: 10,
    askAfter: '20 s',
    atRate: { minutes: 3, share: 0.9 },
    orderCertain: '20 ms',
    planShare: 1,
    stale: '3 s',
    lost: '60 s',
    heartbeat: '10 s',
    rateMax: 120,
    emergencyNumber: '333',
  };
}
