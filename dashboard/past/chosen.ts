import { useEffect, useState } from 'react';
import type { PastOverview } from '../../model/past/overview.ts';

/** What is chosen on a screen that looks back; it stands in the address, so that it can be sent to somebody. */
export type Chosen = Readonly<Record<string, string>>;

/** What is chosen, and how to choose: undefined takes a choice back. */
export function useChosen(): readonly [
  Chosen,
  (change: Readonly<Record<string, string | undefined>>) => void,
] {
  const [chosen, set] = useState<Chosen>(() => chosenIn(location.search));
  useEffect(() => {
    const follow = () => set(chosenIn(location.search));
    addEventListener('popstate', follow);
    return () => removeEventListener('popstate', follow);
  }, []);
  const choose = (change: Readonly<Record<string, string | undefined>>) => {
    const search = new URLSearchParams(location.search);
    for (const [name, value] of Object.entries(change)) {
      if (value === undefined) search.delete(name);
      else search.set(name, value);
    }
    history.pushState(null, '', `${location.pathname}${search.size > 0 ? `?${search}` : ''}`);
    set(chosenIn(location.search));
  };
  return [chosen, choose];
}

function chosenIn(search: string): Chosen {
  return Object.fromEntries(new URLSearchParams(search));
}

/** A stretch of time, in milliseconds since 1970; without an end it goes on until now. */
export interface Period {
  readonly from: number;
  readonly to: number | undefined;
}

export const PERIODS = ['shift', 'last', 'day', 'week', 'month'] as const;
export type PeriodName = (typeof PERIODS)[number];

const DAY_MS = 86_400_000;
const DAYS = { day: 1, week: 7, month: 30 } as const;

/** The stretch that a name in the address means: one of `PERIODS`, or a shift by its beginning. */
export function periodOf(name: string, { shifts, now }: PastOverview): Period {
  if (name === 'day' || name === 'week' || name === 'month')
    return { from: Math.floor(now / 60_000) * 60_000 - DAYS[name] * DAY_MS, to: undefined };
  const current = shifts.at(-1);
  if (name === 'last') {
    const last = shifts.at(-2) ?? current;
    return last ? { from: last.from, to: last.to } : { from: now - DAY_MS, to: undefined };
  }
  const chosen = shifts.find(({ from }) => String(from) === name) ?? current;
  if (!chosen) return { from: now - DAY_MS, to: undefined };
  return { from: chosen.from, to: chosen.to > now ? undefined : chosen.to };
}

/** A question to the gateway: what is undefined is left out. */
export function queryOf(fields: Readonly<Record<string, string | number | undefined>>): string {
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(fields))
    if (value !== undefined) search.set(name, String(value));
  return search.size > 0 ? `?${search}` : '';
}
