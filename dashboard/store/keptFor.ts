import type { Made } from './store.ts';

/** No screen sleeps so long over an entry: a time of day that went on further was set. Milliseconds. */
const SET_MS = 30 * 86_400_000;

/**
 * [SH6] How long ago an entry was made, by the screen's own clock. That one stands still while a phone sleeps, where the time of
 * day goes on; and a reload ends it, after which there is only the time of day. Milliseconds.
 */
export function keptFor({ clock, day }: Made, now: { readonly clock: number; readonly day: number }): number {
  const byDay = now.day - day;
  const byClock = clock === undefined ? undefined : now.clock - clock;
  const slept = byClock !== undefined && byDay > byClock && byDay < SET_MS;
  return Math.max(0, Math.round(byClock === undefined || slept ? byDay : byClock));
}
