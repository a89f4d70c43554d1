import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';

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
