import type { Signal, SignalIndex } from '../../model/signals/signals.ts';
import { type BoundRole, roleFacts, signalId } from './roles.ts';
import type { LineFile } from './schema.ts';

/** Where a signal's values come from. */
export interface TagOf {
  readonly server: string;
  readonly tag: string;
}

type Written = LineFile['signals'][number];
const order = Object.keys(roleFacts) as BoundRole[];

/**
 * A line's signals in the order that decides equal times: by role as `roleFacts` lists them, each stop device right
 * before its counted twin, then by the file; last the gateway's links and people's entries.
 */
export function signalsOf(file: LineFile): {
  readonly signals: readonly Signal[];
  readonly tags: ReadonlyMap<SignalIndex, TagOf>;
} {
  const pace = file.line.pace;
  const servers = file.servers.map(({ id }) => id);
  const devices = (file.devices ?? []).map(({ id }) => id);
  const written = file.signals
    .map((signal, place) => ({ signal, key: sortKey(signal, devices, pace), place }))
    .sort((a, b) => compare(a.key, b.key) || a.place - b.place)
    .map(({ signal }) => signal);
  const server = (signal: Written) => signal.server ?? servers[0]!;
  const bound = written.map((signal) => signalOf(signal, pace, server(signal)));
  const own: Omit<Signal, 'index'>[] = [
    ...servers.map((id) => ({
      id: `link.${id}`,
      role: 'link' as const,
      machine: pace,
      server: id,
      type: 'text' as const,
    })),
    { id: 'entry', role: 'entry', machine: pace, server: '', type: 'text' },
  ];
  return {
    signals: [...bound, ...own].map((signal, index) => ({ index, ...signal })),
    tags: new Map(written.map((signal, index) => [index, { server: server(signal), tag: signal.tag }])),
  };
}

function signalOf(written: Written, pace: string, server: string): Omit<Signal, 'index'> {
  const { role, of, machine, width, activeWhen } = written;
  return {
    id: signalId(role, of, machine, pace),
    role,
    machine: machine ?? pace,
    server,
    type: roleFacts[role].type,
    ...(width === undefined ? {} : { wraps: 2 ** width }),
    ...(of === undefined ? {} : { of }),
    ...(activeWhen === undefined ? {} : { activeWhen }),
  };
}

/** The role's place, then for stop devices the device and its twin after it, else the pace-setting machine first. */
function sortKey(
  { role, of, machine }: Written,
  devices: readonly string[],
  pace: string,
): readonly number[] {
  if (role === 'stopDevice' || role === 'stopDeviceCount')
    return [order.indexOf('stopDevice'), devices.indexOf(of ?? ''), role === 'stopDevice' ? 0 : 1];
  return [order.indexOf(role), machine === undefined || machine === pace ? 0 : 1, 0];
}

function compare(a: readonly number[], b: readonly number[]): number {
  return a[0]! - b[0]! || a[1]! - b[1]! || a[2]! - b[2]!;
}
