import { useEffect, useRef, useState } from 'react';
import { isFigure } from '../../model/figures/figures.ts';
import { whenLeftAlone } from '../panel/leftAlone.ts';
import { usePart } from '../store/use.tsx';
import { Definition, type Opened } from './definition.tsx';
import { figuresAt } from './period.ts';
import { figureAt, shownAt } from './pressed.ts';

/**
 * How is this made? Opens for any element that bears a figure, wherever it stands: at a press of a pointer, Enter or space.
 * `data-from` and `data-to` above it say of which period it is; without them it is the shift that runs.
 */
export function HowMade({ screen }: { readonly screen: Screen }) {
  const [path, go] = useState<readonly Opened[]>([]);
  const dialog = useRef<HTMLDialogElement>(null);
  const opened = path.at(-1);
  const close = () => dialog.current?.close();
  useEffect(() => whenAsked((asked, within) => go((before) => (within ? [...before, asked] : [asked]))), []);
  useEffect(() => {
    if (opened && !dialog.current?.open) dialog.current?.showModal();
    dialog.current?.scrollTo(0, 0);
  }, [opened]);
  useLeaving(screen, opened !== undefined, close);
  return (
    <dialog
      ref={dialog}
      className={`howmade of-${screen}`}
      aria-labelledby="howmade"
      onClose={() => go([])}
      // a press beside it closes it
      onClick={(event) => event.target === dialog.current && close()}
      onKeyDown={(event) => event.key === 'Escape' && close()}
    >
      {opened && (
        <Definition
          key={`${path.length} ${opened.id}`}
          opened={opened}
          looksUp={screen !== 'panel' && screen !== 'wall'}
          back={path.length > 1 ? () => go(path.slice(0, -1)) : undefined}
          close={close}
        />
      )}
    </dialog>
  );
}

type Screen = 'wall' | 'desk' | 'phone' | 'panel' | 'past';

/** What stands before all else is not hidden behind it: a stop device that is latched in, and a panel's question. */
function useLeaving(screen: Screen, isOpen: boolean, close: () => void) {
  const latched = usePart('head').kind === 'pressed';
  const leave = useRef(close);
  leave.current = close;
  useEffect(() => {
    if (latched && screen !== 'past') leave.current();
  }, [latched, screen]);
  useEffect(() => {
    if (isOpen && (screen === 'panel' || screen === 'wall'))
      return whenLeftAlone(window, () => leave.current());
    return undefined;
  }, [isOpen, screen]);
}

/** Acts whenever a figure is asked about; `within`: in the dialog itself. Returns its end. */
function whenAsked(act: (asked: Opened, within: boolean) => void): () => void {
  const ask = (event: Event, element: Element | undefined) => {
    const id = element?.getAttribute('data-figure') ?? '';
    if (!element || !isFigure(id)) return;
    event.preventDefault();
    act(
      { id, shown: shownAt(event.target, element), ...figuresAt(element) },
      element.closest('dialog.howmade') !== null,
    );
  };
  const press = (event: MouseEvent) => ask(event, figureAt(event));
  const key = (event: KeyboardEvent) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    if (event.target instanceof Element) ask(event, event.target.closest('[data-figure]') ?? undefined);
  };
  document.addEventListener('click', press);
  document.addEventListener('keydown', key);
  return () => {
    document.removeEventListener('click', press);
    document.removeEventListener('keydown', key);
  };
}
