import { type RefObject, useEffect, useRef, useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { words } from '../app/words.ts';
import { Typing } from '../entries/fields.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, useHeld } from '../store/use.tsx';

const said = words.screen.past.replay.notes;
/** What was kept is in the records soon after. */
const AGAIN_MS = 700;

/**
 * [RP21] A note about the moment at which it was begun, though the replay goes on meanwhile; without words a bookmark. What is
 * refused is said above, with its mend, and stands here still.
 */
export function NoteLine({
  at,
  zone,
  opener,
  again,
}: {
  readonly at: EpochMs;
  readonly zone: string;
  /** What opens it, by its key or a key of the whole screen. */
  readonly opener: RefObject<HTMLButtonElement | null>;
  readonly again: () => void;
}) {
  const [about, begin] = useState<EpochMs>();
  const close = () => {
    begin(undefined);
    // where it was, so that the keyboard goes on from there
    setTimeout(() => opener.current?.focus());
  };
  return (
    <div className="noteline noprint">
      {about === undefined ? (
        <button ref={opener} type="button" className="btn plain" onClick={() => begin(at)}>
          {said.open}
        </button>
      ) : (
        <NoteForm about={about} zone={zone} again={again} close={close} />
      )}
    </div>
  );
}

function NoteForm({
  about,
  zone,
  again,
  close,
}: {
  readonly about: EpochMs;
  readonly zone: string;
  readonly again: () => void;
  readonly close: () => void;
}) {
  const enter = useEnter();
  const [typed, type] = useState('');
  const [isSent, sends] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  const text = typed.trim();
  const came = useHeld((held) =>
    held.sent.findLast(({ entry }) => entry.kind === 'note' && entry.about === about && entry.words === text),
  )?.state;
  const then = useRef({ again, close });
  then.current = { again, close };
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  useEffect(() => {
    if (!isSent || came === undefined || came === 'onItsWay') return;
    sends(false);
    if (came === 'refused') return;
    setTimeout(then.current.again, AGAIN_MS);
    then.current.close();
  }, [isSent, came]);
  return (
    <form
      ref={form}
      onKeyDown={({ key }) => {
        if (key === 'Escape') close();
      }}
      onSubmit={(event) => {
        event.preventDefault();
        if (isSent) return;
        sends(true);
        enter({ kind: 'note', words: text, about });
      }}
    >
      <NeedsLogIn act="note" />
      <Typing label={said.label(about, zone)} value={typed} most={ENTRY_MOST.words} type={type} />
      <button type="submit" className="btn" disabled={isSent}>
        {said.keep(text === '')}
      </button>
      <button type="button" className="btn plain" onClick={close}>
        {said.close}
      </button>
      <p className="second">{said.hint}</p>
    </form>
  );
}
