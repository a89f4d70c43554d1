import { useEffect, useState } from 'react';
import type { SheetStep, SheetView } from '../../model/view/sheetView.ts';
import { openAfter } from './steps.ts';

/** What is opened of a sheet. */
export type Place =
  | { readonly kind: 'step'; readonly id: string }
  /** The open one that follows; where none is open, that all is done. */
  | { readonly kind: 'after'; readonly id: string | undefined }
  | { readonly kind: 'all' | 'hand' | 'handed' | 'close' };

export const FIRST_OPEN: Place = { kind: 'after', id: undefined };

export interface Walk {
  readonly place: Place;
  /** The step that is looked at; undefined where another page is, or all is done. */
  readonly step: SheetStep | undefined;
  readonly go: (place: Place) => void;
}

/**
 * Where a person is in a sheet: from its first open step on, unless another page comes first. What others do meanwhile changes what is shown, never where:
 * a key must not change its meaning under a finger.
 */
export function useWalk({ steps }: SheetView, from: Place = FIRST_OPEN): Walk {
  const [place, go] = useState<Place>(from);
  const step =
    place.kind === 'step'
      ? steps.find(({ id }) => id === place.id)
      : place.kind === 'after'
        ? openAfter(steps, place.id)
        : undefined;
  const found = place.kind === 'after' ? step?.id : undefined;
  useEffect(() => {
    if (found !== undefined) go({ kind: 'step', id: found });
  }, [found]);
  return { place, step, go };
}
