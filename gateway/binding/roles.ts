import type { Role, Signal } from '../../model/signals/signals.ts';

/** Roles that a file may bind: all but those that people and the gateway write. */
export type BoundRole = Exclude<Role, 'link' | 'entry'>;

/** Lists whose items a signal may belong to. */
export type Owner = 'station' | 'position' | 'reject' | 'device' | 'guard' | 'adjustment' | 'condition';

/** What a role asks of a signal that bears it. */
export interface RoleFacts {
  readonly type: Signal['type'];
  /** What `of` names; undefined when the signal belongs to the whole machine. */
  readonly of?: Owner;
  /** An owner may be named but need not be. */
  readonly ofOptional?: true;
  /** Only ever counts up and rolls over, so that its width has to be known. */
  readonly counter?: true;
  /** The line has one of it, not each machine. */
  readonly once?: true;
}

const number = { type: 'number' } as const;
const flag = { type: 'boolean' } as const;
const text = { type: 'text' } as const;
const counter = { type: 'number', counter: true } as const;

/**
 * Every role a file may bind. Their order here is the order of a line's signals, and so the order of equal times:
 * first what decides whether the line produces and for which size and order, then presses and guards, then counts, so
 * that what is counted in the instant of a change of state is counted after it.
 */
export const roleFacts: Readonly<Record<BoundRole, RoleFacts>> = {
  state: number,
  mode: number,
  stopReason: number,
  alarmNumber: number,
  alarmText: text,
  size: { ...number, once: true },
  crew: { ...number, once: true },
  order: { ...text, once: true },
  lot: { ...text, once: true },
  trial: { ...flag, once: true },
  stopDevice: { ...flag, of: 'device' },
  stopDeviceCount: { ...counter, of: 'device' },
  guard: { ...flag, of: 'guard' },
  enabling: { ...flag, of: 'guard', ofOptional: true },
  muting: { ...flag, of: 'guard', ofOptional: true },
  cycleCount: counter,
  pickedCount: counter,
  missedPickCount: counter,
  notLoadedCount: { ...counter, of: 'position' },
  presentedCount: { ...counter, of: 'station' },
  crushedCount: { ...counter, of: 'station' },
  nearMissCount: { ...counter, of: 'station' },
  rejectCount: { ...counter, of: 'reject' },
  goodCount: { ...counter, once: true },
  starved: flag,
  blocked: flag,
  speedSet: number,
  speedActual: number,
  adjustment: { ...number, of: 'adjustment' },
  machineAngle: number,
  condition: { ...number, of: 'condition' },
  programVersion: text,
  heartbeat: number,
};

/** Stable name of a signal: `reject-count.top-open`; of another machine than the pace-setting one, `state.erector`. */
export function signalId(
  role: BoundRole,
  of: string | undefined,
  machine: string | undefined,
  pace: string,
): string {
  const name = role.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  if (of !== undefined) return `${name}.${of}`;
  const elsewhere = machine !== undefined && machine !== pace && !roleFacts[role].once;
  return elsewhere ? `${name}.${machine}` : name;
}
