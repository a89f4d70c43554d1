import { useMemo } from 'react';
import type { EpochMs } from '../../model/units/units.ts';
import { type SheetsHere, sheetsHere } from '../../model/view/sheetKept.ts';
import { STALE_MS } from '../store/moment.ts';
import { isKept, type Sent } from '../store/store.ts';
import { useHeld, usePart } from '../store/use.tsx';

/** The sheets as this screen shows them, with what it has entered and the gateway has not told yet. */
export function useSheetsHere(): SheetsHere {
  const sheets = usePart('sheets');
  const sent = useHeld((held) => held.sent);
  const number = useHeld((held) => held.number);
  return useMemo(() => {
    const untold = sent.filter((one) => isUntold(one, number));
    const kept = untold.map(({ entry, made }) => ({ entry, at: (made.line ?? made.day) as EpochMs }));
    return sheetsHere(sheets, kept);
  }, [sheets, sent, number]);
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
