import type { Instant } from '../../model/units/units.ts';
import type { Tag } from '../lines/tags.ts';
import type { TagValue } from '../machine/plc.ts';

export interface ToldValue {
  /** When it really happened. */
  readonly at: Instant;
  /** What the PLC's clock said then; undefined where it gives no stamp. */
  readonly source: Instant | undefined;
  /** What the PLC's clock said then, for the server's own stamp. */
  readonly server: Instant;
  readonly tag: string;
  /** Null: no value came with the status. */
  readonly value: TagValue | null;
  readonly status: number;
}

/** A tag of a PLC with faults. Changed in place by `FaultedPlc`, which alone holds it. */
export interface Cell {
  /** Number of values before what counts in it rolls over. */
  readonly wraps: number;
  readonly counts: boolean;
  readonly beats: boolean;
  /** What the machine says, and how far what the PLC shows is from it. */
  machine: TagValue | undefined;
  offset: number;
  /** Counts before its end at which it begins; undefined where it begins as the machine does. */
  left: number | undefined;
  /** So much later than it happened a change is told, and when the last one is. */
  lag: number;
  due: number;
  /** So far is its source time from the PLC's clock. */
  skew: number;
  bad: boolean;
  shown: TagValue | null | undefined;
  /** What was told last. */
  told: ToldValue | undefined;
}

export function cellsOf(tags: readonly Tag[]): ReadonlyMap<string, Cell> {
  return new Map(tags.map((tag) => [tag.tag, cellOf(tag)]));
}

function cellOf({ type, role, width }: Tag): Cell {
  return {
    wraps: type === 'UInt16' ? 2 ** 16 : type === 'UInt32' ? 2 ** 32 : Number.POSITIVE_INFINITY,
    counts: width !== undefined,
    beats: role === 'heartbeat',
    machine: undefined,
    offset: 0,
    left: undefined,
    lag: 0,
    due: 0,
    skew: 0,
    bad: false,
    shown: undefined,
    told: undefined,
  };
}

/** Takes what the machine says. A counter that is to begin near its end is put there with its first value. */
export function takeValue(cell: Cell, value: TagValue): void {
  cell.machine = value;
  if (cell.left === undefined || typeof value !== 'number') return;
  cell.offset = cell.wraps - cell.left - value;
  cell.left = undefined;
}

/** What the PLC shows of a tag; null before the machine has said anything. */
export function shownOf({ machine, offset, wraps }: Cell): TagValue | null {
  if (typeof machine !== 'number' || offset === 0) return machine ?? null;
  const sum = machine + offset;
  return Number.isFinite(wraps) ? ((sum % wraps) + wraps) % wraps : sum;
}
