import { useEffect, useState } from 'react';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { usePart } from '../store/use.tsx';

/** Notices that were put aside here are remembered, so many of the newest: one that comes back asks again. */
const ASIDE_MOST = 50;
const roundOf = ({ id, round }: NoticeView) => `${id} ${round}`;

/** A notice that asks by itself: it calls somebody whom nobody has answered for. A press shows itself. */
function callsAtPanel({ level, state, kind }: NoticeView): boolean {
  return level !== 'note' && kind !== 'press' && (state === 'raised' || state === 'returned');
}

/**
 * The notice that opens by itself at a panel, and stays until a person leaves it, whatever is done about it meanwhile. All that
 * were there by then are put aside with it: they were told as others, and are read on purpose.
 */
export function useCalling(): { readonly notice: string | undefined; readonly putAside: () => void } {
  const calls = usePart('notices').open.filter(callsAtPanel);
  const [aside, put] = useState<readonly string[]>([]);
  const [notice, show] = useState<string>();
  const next = calls.find((one) => !aside.includes(roundOf(one)))?.id;
  useEffect(() => {
    if (notice === undefined && next !== undefined) show(next);
  }, [notice, next]);
  return {
    notice,
    putAside: () => {
      put([...aside, ...calls.map(roundOf)].slice(-ASIDE_MOST));
      show(undefined);
    },
  };
}
