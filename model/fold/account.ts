import type { Instant, Span } from '../units/units.ts';
import type { LossCause } from '../view/view.ts';

/**
 * The account of cartons lost in one shift (SPEC, LO1 to LO8). Amounts are parts: a tenth of a carton per minute for
 * one tick; all are whole numbers below 2⁵³, so that sums are exact. This file is the only one that changes an
 * account; the fold owns it.
 */
export interface Account {
  /** Settled up to here. */
  since: Instant;
  /** Target in tenths of a carton per minute; 0 while it is not known. */
  tenths: number;
  possible: number;
  /** Good cartons. */
  good: number;
  /** Time charged, less what was credited, by key. */
  charged: number[];
  /** Cartons charged one by one, in parts, by key. */
  counted: number[];
  /** Key that pays while no stop does: slow, or changeover. */
  base: number;
  /** Charged to `base` since the last good carton. */
  sinceGood: number;
  /** The output pause that pays now. */
  open: OpenPause | null;
}

/** Output pause of one stop, not yet posted to anybody: who pays is decided when it ends. */
export interface OpenPause {
  stop: string;
  net: number;
  /** The stretch in which it may be a planned pause within its allowance, and the parts that fell in it. */
  freeFrom: Instant;
  freeUntil: Instant;
  freeable: number;
}

export const CARTON = 6_000_000_000;

export const causes: readonly LossCause[] = [
  'stopped',
  'slow',
  'notLoaded',
  'missedPick',
  'reject',
  'crushed',
  'changeover',
  'pauseOver',
  'unknown',
];

/** Place of a station (`stations` for none) and a cause in an account. */
export function lossKey(station: number, cause: LossCause): number {
  return station * causes.length + causes.indexOf(cause);
}

export function openAccount(stations: number, at: Instant, tenths: number, base: number): Account {
  const keys = (stations + 1) * causes.length;
  return {
    since: at,
    tenths,
    possible: 0,
    good: 0,
    charged: new Array<number>(keys).fill(0),
    counted: new Array<number>(keys).fill(0),
    base,
    sinceGood: 0,
    open: null,
  };
}

export function copyAccount(account: Account): Account {
  return {
    ...account,
    charged: account.charged.slice(),
    counted: account.counted.slice(),
    open: account.open ? { ...account.open } : null,
  };
}

/** Charges the time up to a moment to whoever pays now. */
export function settle(account: Account, to: Instant): void {
  const ticks = to - account.since;
  if (ticks <= 0) return;
  const parts = ticks * account.tenths;
  account.possible += parts;
  const open = account.open;
  if (open) {
    open.net += parts;
    const free = Math.min(to, open.freeUntil) - Math.max(account.since, open.freeFrom);
    if (free > 0) open.freeable += free * account.tenths;
  } else {
    account.charged[account.base]! += parts;
    account.sinceGood += parts;
  }
  account.since = to;
}

/** Good cartons are credited to whoever pays at that moment. */
export function creditGood(account: Account, at: Instant, cartons: number): void {
  settle(account, at);
  account.good += cartons;
  credit(account, cartons * CARTON);
  if (!account.open) account.sinceGood = 0;
}

/** A carton lost for a reason of its own is charged to its key and credited to whoever pays at that moment. */
export function chargeCartons(account: Account, at: Instant, key: number, cartons: number): void {
  settle(account, at);
  account.counted[key]! += cartons * CARTON;
  credit(account, cartons * CARTON);
}

/** From here on a stop pays, and for all since the last good carton too, unless another stop paid for that. */
export function beginPause(account: Account, at: Instant, stop: string, allowance: Span): void {
  settle(account, at);
  let net = 0;
  if (!account.open) {
    net = account.sinceGood;
    account.charged[account.base]! -= net;
    account.sinceGood = 0;
  }
  account.open = { stop, net, freeFrom: at, freeUntil: (at + allowance) as Instant, freeable: 0 };
}

/** The stop is over: what follows is no longer within any allowance. */
export function endFreeTime(account: Account, at: Instant): void {
  settle(account, at);
  if (account.open && account.open.freeUntil > at) account.open.freeUntil = at;
}

/** Posts the open pause: to a key, or as a planned pause whose allowance is nobody's loss and not possible time. Parts lost. */
export function postPause(account: Account, payer: Payer): number {
  const open = account.open;
  if (!open) return 0;
  const lost = open.net - (payer.pause ? open.freeable : 0);
  if (payer.pause) account.possible -= open.freeable;
  account.charged[payer.key]! += lost;
  account.open = null;
  account.sinceGood = 0;
  return lost;
}

export interface Payer {
  readonly key: number;
  readonly pause: boolean;
}

export function changeTarget(account: Account, at: Instant, tenths: number): void {
  if (tenths === account.tenths) return;
  settle(account, at);
  account.tenths = tenths;
}

export function changeBase(account: Account, at: Instant, base: number): void {
  if (base === account.base) return;
  settle(account, at);
  account.base = base;
  account.sinceGood = 0;
}

/** Whom a gap's time is charged to, and its surplus credited to. */
interface Keys {
  readonly unknownKey: number;
  readonly slowKey: number;
}

/**
 * A gap during which nobody knows who would have paid: time charges go back to what they were when it began, and all
 * that was possible in it, less what was counted in it, is unknown. More may have been counted than was possible, as a
 * carton made before it is counted in it: nothing less than nothing was not seen, so that surplus is the pace's. `payer`
 * is whom a pause that was open then, and is no more, is posted to.
 */
export function forgetGap(
  account: Account,
  before: Account,
  payer: Payer,
  { unknownKey, slowKey }: Keys,
): void {
  const charged = before.charged.slice();
  const same = before.open !== null && before.open.stop === account.open?.stop;
  if (before.open && !same) charged[payer.key]! += before.open.net - (payer.pause ? before.open.freeable : 0);
  if (account.open) {
    account.open.net = same ? before.open!.net : 0;
    account.open.freeable = same ? before.open!.freeable : 0;
  }
  account.charged = charged;
  account.sinceGood = 0;
  const told = sum(charged) + sum(account.counted) + (account.open?.net ?? 0);
  const rest = account.possible - account.good * CARTON - told;
  account.charged[rest < 0 ? slowKey : unknownKey]! += rest;
}

/** Lost by key, in parts: charged and counted together. Adds up to possible minus good, always. */
export function lostByKey(account: Account): number[] {
  return account.charged.map((parts, key) => parts + account.counted[key]!);
}

function credit(account: Account, parts: number): void {
  if (account.open) account.open.net -= parts;
  else {
    account.charged[account.base]! -= parts;
    account.sinceGood -= parts;
  }
}

function sum(values: readonly number[]): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
