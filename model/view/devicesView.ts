import { isHeard } from '../fold/gaps.ts';
import { active } from '../fold/lineIndex.ts';
import type { Signal } from '../signals/signals.ts';
import type { Seen } from './seen.ts';
import type { DevicesView } from './devices.ts';

/** What each stop device and guard reads. A reading is no statement about the machine. */
export function devicesView(seen: Seen): DevicesView {
  const { index } = seen;
  const signals = index.line.signals;
  return {
    devices: index.line.devices.map((device) => {
      const signal = signals.find((one) => one.role === 'stopDevice' && one.of === device.id);
      const reads = readingOf(seen, signal);
      return {
        id: device.id,
        name: device.name,
        side: device.side,
        station: device.station,
        position: device.position,
        reads: reads.value === undefined ? 'unknown' : reads.value ? 'pressed' : 'released',
        uncertain: reads.uncertain,
        hasTwin: signals.some((one) => one.role === 'stopDeviceCount' && one.of === device.id),
        candidates: device.candidates,
      };
    }),
    guards: index.line.guards.map((guard) => {
      const signal = signals.find((one) => one.role === 'guard' && one.of === guard.id);
      const reads = readingOf(seen, signal);
      return {
        ...guard,
        reads: reads.value === undefined ? 'unknown' : reads.value ? 'open' : 'closed',
        uncertain: reads.uncertain,
      };
    }),
  };
}

function readingOf(
  seen: Seen,
  signal: Signal | undefined,
): { value: boolean | undefined; uncertain: boolean } {
  if (!signal || !isHeard(seen.index, seen.state, signal.server) || seen.sight === 'lost')
    return { value: undefined, uncertain: false };
  const known = seen.state.known[signal.index];
  if (!known) return { value: undefined, uncertain: false };
  return { value: active(signal, seen.state.values[signal.index] ?? null), uncertain: known === 2 };
}
