import { useMemo } from 'react';
import { isNamed } from '../../model/setpoints/sheetSteps.ts';
import type { EndedSheet } from '../../model/view/sheetView.ts';
import type { Sent } from '../store/store.ts';
import { useDismiss, useHeld, useKeepOwnSheet, usePart } from '../store/use.tsx';

/** [SH10] A sheet in which something was entered here, and which is not open any more, until somebody has read that. */
export interface LeftSheet {
  /** What became of it; undefined where that is not known any more. */
  readonly sheet: EndedSheet | undefined;
  /** What the gateway has of it from here, and what is no step of an open sheet. */
  readonly entries: readonly Sent[];
}

/** The sheet that was replaced while somebody worked in it here, and those that entries were meant for which came too late. */
export function leftSheets(
  before: readonly EndedSheet[],
  sent: readonly Sent[],
  own: string | undefined,
): readonly LeftSheet[] {
  const replaced = before.findLast((one) => own !== undefined && one.how === 'replaced' && isNamed(one, own));
  const left = new Map<string | undefined, { sheet: EndedSheet | undefined; entries: Sent[] }>();
  const of = (sheet: EndedSheet | undefined) => {
    const found = left.get(sheet?.id) ?? { sheet, entries: [] };
    left.set(sheet?.id, found);
    return found;
  };
  if (replaced) of(replaced);
  for (const one of sent) if (one.state === 'aside') of(one.aside?.sheet).entries.push(one);
  return [...left.values()];
}

export function useLeft(): readonly LeftSheet[] {
  const { before } = usePart('sheets');
  const sent = useHeld((held) => held.sent);
  const own = useHeld((held) => held.ownSheet);
  return useMemo(() => leftSheets(before, sent, own), [before, sent, own]);
}

/** Somebody has read so many of its entries, the first of them; with the last of them the sheet itself. */
export function useReadLeft(): (left: LeftSheet, most: number) => void {
  const own = useHeld((held) => held.ownSheet);
  const keepOwn = useKeepOwnSheet();
  const dismiss = useDismiss();
  return ({ sheet, entries }, most) => {
    for (const { entry } of entries.slice(0, most)) dismiss(entry.id);
    const isAll = entries.length <= most;
    if (isAll && sheet && own !== undefined && isNamed(sheet, own)) keepOwn(undefined);
  };
}
