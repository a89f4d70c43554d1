import { useEffect, useState } from 'react';
import type { CorrectableKind } from '../../model/entries/saidEntries.ts';
import { useHeld } from '../store/use.tsx';

/** What is entered at a panel by its position alone, and so can be taken back there. */
const KINDS: readonly string[] = [
  'reason',
  'note',
  'takenOut',
  'handedOver',
  'crew',
  'noticeClosed',
  'fitted',
];
/** The gateway takes it for somewhat longer, so that a finger on its way is not refused. */
const SHOWN_MS = 60_000;

export interface Kept {
  readonly id: string;
  readonly kind: CorrectableKind;
  /** By this screen's own clock. */
  readonly since: number;
}

/** [EN1] The entry that was kept here within the last minute; undefined once it is taken back, or another thing was done. */
export function useLastKept(): Kept | undefined {
  const newest = useHeld((held) =>
    held.sent.findLast(({ state, entry }) => state === 'kept' && KINDS.includes(entry.kind)),
  );
  const takenBack = useHeld((held) =>
    held.sent.findLast(({ state, entry }) => state !== 'refused' && entry.kind === 'correction'),
  );
  const clock = useHeld((held) => held.clock);
  const [last, keep] = useState<Kept>();
  useEffect(() => {
    if (newest)
      keep({ id: newest.entry.id, kind: newest.entry.kind as CorrectableKind, since: newest.since });
  }, [newest]);
  const of = takenBack?.entry.kind === 'correction' ? takenBack.entry.of : undefined;
  useEffect(() => {
    if (of !== undefined) keep((before) => (before?.id === of ? undefined : before));
  }, [of]);
  return last && last.id !== of && clock - last.since < SHOWN_MS ? last : undefined;
}
