import type { Entry } from '../../model/entries/entries.ts';
import { useHeld } from '../store/use.tsx';

export type ClosingEntry = Extract<Entry, { kind: 'noticeClosed' }>;
export type RefusedClosing = Omit<ClosingEntry, 'at' | 'author'>;

/** What was to be said of a notice from this page and was not taken: it stays here until it was read. */
export function useRefused(notice: string): RefusedClosing | undefined {
  const refused = useHeld(({ sent }) =>
    sent.findLast(
      ({ entry, state }) => state === 'refused' && entry.kind === 'noticeClosed' && entry.notice === notice,
    ),
  );
  return refused?.entry.kind === 'noticeClosed' ? refused.entry : undefined;
}
