import { createContext, type ReactNode, useContext, useMemo, useSyncExternalStore } from 'react';
import type { PersonEntryBody } from '../../model/entries/entries.ts';
import type { LineView } from '../../model/view/view.ts';
import { type Moment, momentOf } from './moment.ts';
import type { Held, Store } from './store.ts';

export interface Doors {
  readonly store: Store;
  /** Sends an entry; the author is the screen or position that this page is. */
  readonly enter: (body: PersonEntryBody) => void;
  /** Sends once more what was refused, as it was made then. */
  readonly again?: (id: string) => void;
  /** Tells the gateway whether this page sounds for notices. */
  readonly sounds?: (on: boolean) => void;
}

const Context = createContext<Doors | undefined>(undefined);

export function DoorsProvider({ doors, children }: { readonly doors: Doors; readonly children: ReactNode }) {
  return <Context value={doors}>{children}</Context>;
}

function useDoors(): Doors {
  const doors = useContext(Context);
  if (doors === undefined) throw new Error('Mistake in Scoreline: a screen is drawn without its store');
  return doors;
}

export function useHeld<Slice>(slice: (held: Held) => Slice): Slice {
  const { store } = useDoors();
  const read = () => slice(store.get());
  return useSyncExternalStore(store.subscribe, read, read);
}

/** One part of the view; drawn again only when that part changed. */
export function usePart<Part extends keyof LineView>(part: Part): LineView[Part] {
  return useHeld((held) => {
    if (held.view === undefined)
      throw new Error('Mistake in Scoreline: a screen is drawn before its first view');
    return held.view[part];
  });
}

/** How far the view can be vouched for, and the moment to count with; moves once a second. */
export function useMoment(): Moment {
  const at = usePart('at');
  const sight = usePart('sight');
  const unseen = usePart('head').kind === 'unknown';
  const silent = useHeld((held) => Math.max(0, held.clock - held.received));
  return useMemo(() => momentOf(at, sight, silent, unseen), [at, sight, silent, unseen]);
}

export function useEnter(): (body: PersonEntryBody) => void {
  return useDoors().enter;
}

const NOBODY_TOLD = () => {};

export function useAgain(): (id: string) => void {
  return useDoors().again ?? NOBODY_TOLD;
}

export function useSounds(): (on: boolean) => void {
  return useDoors().sounds ?? NOBODY_TOLD;
}

export function useKeepAhead(): Store['keepAhead'] {
  return useDoors().store.keepAhead;
}

export function useKeepOwnSheet(): Store['keepOwnSheet'] {
  return useDoors().store.keepOwnSheet;
}

export function useDismiss(): (id: string) => void {
  return useDoors().store.dismiss;
}
