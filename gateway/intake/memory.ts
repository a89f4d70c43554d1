import type { Change, SignalIndex, Value } from '../../model/signals/signals.ts';
import { severity } from '../../model/status/status.ts';
import type { Instant } from '../../model/units/units.ts';

/** A change together with the stamp by which a repetition of it is known; undefined when the server gave none. */
export interface Stamped {
  readonly change: Change;
  readonly stamp: Instant | undefined;
}

/** What the tape says last about a signal. */
export interface Known {
  readonly at: Instant;
  readonly value: Value;
}

/** A change as it is remembered. */
export interface Taken extends Known {
  readonly stamp: Instant | undefined;
  /** Undefined for what an earlier run of the gateway wrote. */
  readonly status: number | undefined;
  /** It was read, and not told by the subscription. */
  readonly read: boolean;
}

/** Twice a server's usual queue: a repetition can be no older than what was queued through one cut. */
const KEPT = 200;

/**
 * What has been taken of each signal, to know a repetition: after a cut a message may come twice, what was queued
 * comes again as an initial value, and reading every tag once returns what is known already.
 */
export class Memory {
  private readonly recent = new Map<SignalIndex, Taken[]>();

  /** What an earlier run wrote. `stamped`: its line time was the source time. */
  seed(signal: SignalIndex, known: Known, stamped: boolean): void {
    const stamp = stamped ? known.at : undefined;
    this.recent.set(signal, [{ ...known, stamp, status: undefined, read: false }]);
  }

  /** The change of the newest line time. */
  newest(signal: SignalIndex): Taken | undefined {
    return this.recent.get(signal)?.reduce((a, b) => (b.at >= a.at ? b : a));
  }

  /** True for a repetition: same signal, stamp, value and status. Without a stamp nothing is a repetition. */
  has({ change, stamp }: Stamped): boolean {
    if (stamp === undefined) return false;
    const taken = this.recent.get(change.signal);
    return taken?.some((one) => one.stamp === stamp && same(one, change)) ?? false;
  }

  /** True where it says once more what came last: same stamp, value and status. Without a stamp nothing is a repetition. */
  isLast({ change, stamp }: Stamped): boolean {
    const last = this.recent.get(change.signal)?.at(-1);
    return last !== undefined && stamp !== undefined && last.stamp === stamp && same(last, change);
  }

  /** True where something taken of a signal bears this stamp. */
  hasStamp(signal: SignalIndex, stamp: Instant): boolean {
    return this.recent.get(signal)?.some((one) => one.stamp === stamp) ?? false;
  }

  /** True where a reading says only what the newest change says already. */
  unchanged({ change, stamp }: Stamped): boolean {
    const newest = this.newest(change.signal);
    if (!newest || !same(newest, change)) return false;
    if (stamp === undefined || newest.stamp === undefined) return true;
    return stamp <= newest.stamp || change.at <= newest.at;
  }

  /** True when the last thing heard of a signal was that its value is bad. */
  isBad(signal: SignalIndex): boolean {
    const status = this.recent.get(signal)?.at(-1)?.status;
    return status !== undefined && severity(status) === 'bad';
  }

  keep({ change, stamp }: Stamped, read: boolean): void {
    const { signal, at, value, status } = change;
    const list = this.recent.get(signal) ?? [];
    if (list.length === 0) this.recent.set(signal, list);
    list.push({ at, value, status, stamp, read });
    if (list.length > KEPT) list.splice(0, list.length - KEPT);
  }
}

function same(taken: Taken, change: Change): boolean {
  return Object.is(taken.value, change.value) && (taken.status ?? change.status) === change.status;
}
