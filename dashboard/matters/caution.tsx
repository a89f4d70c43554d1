import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useMoment, usePart } from '../store/use.tsx';

/** Stands before anything that might bring hands near a jam or a stop device, in full, and cannot be dismissed. */
export function Caution({
  title,
  text,
  mark = 44,
}: {
  readonly title?: string;
  readonly text: string;
  readonly mark?: number;
}) {
  return (
    <aside className="caution" aria-label={words.screen.caution.short}>
      <div className="must">
        <Mark id="m-padlock" size={mark} />
      </div>
      <p>
        {title !== undefined && <b>{title}</b>}
        {text}
      </p>
    </aside>
  );
}

/**
 * True while somebody may walk up to the machine with the screen's words in mind: it stands by a fault or a device, or
 * nobody sees it, which may be because it is locked out, and "look at the line itself" is all that can be said.
 */
export function useActsNear(): boolean {
  const head = usePart('head');
  const { sight } = useMoment();
  return head.kind === 'stopped' || head.kind === 'pressed' || sight === 'lost' || sight === 'never';
}
