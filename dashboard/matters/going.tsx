import { words } from '../app/words.ts';
import { useWhoComes } from '../blank/who.ts';
import { useEnter, useHeld, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';

/** Who comes, and the one thing to press: "I'm going". */
export function Going() {
  const who = useWhoComes();
  const head = usePart('head');
  const enter = useEnter();
  const stop = head.kind === 'stopped' || head.kind === 'pressed' ? head.stop : undefined;
  const sent = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) => state !== 'refused' && entry.kind === 'going' && entry.stop === stop,
    ),
  );
  const open =
    stop !== undefined && (head.kind === 'stopped' || head.kind === 'pressed') && head.going === undefined;
  return (
    <div className="who">
      <span>{sent && open ? words.screen.entry.goingSent : <Rich text={who} />}</span>
      {open && !sent && (
        <button type="button" className="btn" onClick={() => enter({ kind: 'going', stop })}>
          {words.screen.entry.imGoing}
        </button>
      )}
    </div>
  );
}
