import { useEffect, useRef, useState } from 'react';
import type { NoticeCounts } from '../../model/notices/counts.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import type { Sent } from '../store/store.ts';
import { useHeld, usePart } from '../store/use.tsx';

const { isAct } = words.screen.noticeActs;

/** Whether something that was entered here is about this notice. */
export function isAbout({ entry }: Sent, notice: string): boolean {
  return isAct(entry.kind) && 'notice' in entry && entry.notice === notice;
}

/** The newest of what this page entered about a notice; it goes on being told when the gateway has had it for a while. */
export function useNewestAct(notice: string): Sent | undefined {
  const newest = useHeld((held) => held.sent.findLast((sent) => isAbout(sent, notice)));
  const [last, keep] = useState<Sent>();
  useEffect(() => {
    // one that was refused and read is over; one that was kept leaves by itself
    keep((before) => newest ?? (before?.state === 'kept' ? before : undefined));
  }, [newest]);
  return newest ?? last;
}

/** What of this kind is on its way, or was taken and is not yet in the view. */
export function useSending<Kind extends Sent['entry']['kind']>(
  notice: string,
  kind: Kind,
): Extract<Sent['entry'], { kind: Kind }> | undefined {
  const sent = useHeld((held) =>
    held.sent.findLast((one) => one.state !== 'refused' && one.entry.kind === kind && isAbout(one, notice)),
  );
  return sent?.entry as Extract<Sent['entry'], { kind: Kind }> | undefined;
}

/** How many others there are beside this one, as every screen counts them. */
export function useOthers({ state }: NoticeView): Pick<NoticeCounts, 'open' | 'untaken'> {
  const { open, untaken } = usePart('notices').counts;
  const isOpen = state === 'raised' || state === 'returned' || state === 'taken';
  const isUntaken = state === 'raised' || state === 'returned';
  return { open: open - (isOpen ? 1 : 0), untaken: untaken - (isUntaken ? 1 : 0) };
}

/** The open one that wants somebody first, beside this one; none that is on a shelf. */
export function useNext(notice: string): NoticeView | undefined {
  return usePart('notices').open.find(({ id, state }) => id !== notice && state !== 'shelved');
}

/** Moves the focus to what `ref` is on, once what follows from an act is drawn. */
export function useLanding<Part extends HTMLElement>() {
  const ref = useRef<Part>(null);
  const [landings, land] = useState(0);
  useEffect(() => {
    if (landings > 0) ref.current?.focus();
  }, [landings]);
  return { ref, land: () => land((before) => before + 1) };
}
