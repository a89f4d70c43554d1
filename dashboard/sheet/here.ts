import { useEffect, useMemo } from 'react';
import type { EpochMs } from '../../model/units/units.ts';
import { type SheetsHere, sheetsHere } from '../../model/view/sheetKept.ts';
import type { SheetsAhead } from '../../model/view/sheetsAhead.ts';
import { useAsked } from '../past/asked.ts';
import { STALE_MS } from '../store/moment.ts';
import { isKept, type Sent } from '../store/store.ts';
import { useHeld, useKeepAhead, usePart } from '../store/use.tsx';

/** The sheets as this screen shows them, with what it has entered and the gateway has not told yet. */
export function useSheetsHere(): SheetsHere {
  const sheets = usePart('sheets');
  const sent = useHeld((held) => held.sent);
  const number = useHeld((held) => held.number);
  const begun = useHeld((held) => (held.begun?.ahead.line === held.view?.line.id ? held.begun : undefined));
  return useMemo(() => {
    const untold = sent.filter((one) => isUntold(one, number));
    const kept = untold.map(({ entry, made }) => ({ entry, at: (made.line ?? made.day) as EpochMs }));
    return sheetsHere(sheets, kept, begun);
  }, [sheets, sent, number, begun]);
}

/** What is kept of a sheet's steps and numbers is as old as this at most while the gateway answers. Milliseconds. */
const AHEAD_MS = 5 * 60_000;

/** [SH8] Keeps what a sheet would have that is begun now, for a time without a network. */
export function useSheetsAhead(): void {
  const { id } = usePart('line');
  const { data } = useAsked<SheetsAhead>(`/api/lines/${encodeURIComponent(id)}/sheets/ahead`, AHEAD_MS);
  const keep = useKeepAhead();
  useEffect(() => {
    if (data) keep(data);
  }, [data, keep]);
}

/** On its way; or taken, and the view that was held then is still the newest: the next one has it. */
function isUntold({ entry, state, tookAt }: Sent, number: number | undefined): boolean {
  if (!isKept(entry)) return false;
  return state === 'onItsWay' || (state === 'kept' && tookAt === number);
}

export interface Network {
  /** The gateway does not answer: what is entered is kept here. */
  readonly isGone: boolean;
  /** So many entries wait here. */
  readonly kept: number;
  readonly refused: readonly Sent[];
}

/** How far what is entered here has come. */
export function useNetwork(): Network {
  const sent = useHeld((held) => held.sent);
  const link = useHeld((held) => held.link);
  const isSilent = useHeld(({ clock, received }) => clock - received >= STALE_MS);
  return {
    isGone: link === 'down' || isSilent,
    kept: sent.filter((one) => one.state === 'onItsWay' && isKept(one.entry)).length,
    refused: sent.filter((one) => one.state === 'refused' && isOfSheet(one)),
  };
}

export function isOfSheet({ entry }: Pick<Sent, 'entry'>): boolean {
  return isKept(entry) || entry.kind === 'sheetEnded';
}
