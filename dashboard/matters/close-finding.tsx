import { useState } from 'react';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, useHeld } from '../store/use.tsx';

const WORDS_MOST = 200;

/** A finding stays until a person closes it, with or without a word on what was found. */
export function CloseFinding({ finding }: { readonly finding: string }) {
  const enter = useEnter();
  const [typed, type] = useState('');
  const sent = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) => state !== 'refused' && entry.kind === 'closed' && entry.finding === finding,
    ),
  );
  const { matters } = words.screen.line;
  if (sent) return null;
  return (
    <form
      className="typed-line"
      onSubmit={(event) => {
        event.preventDefault();
        const said = typed.trim();
        enter({ kind: 'closed', finding, ...(said === '' ? {} : { words: said }) });
      }}
    >
      <label>
        <span>{matters.foundWords}</span>
        <input
          value={typed}
          maxLength={WORDS_MOST}
          autoComplete="off"
          onChange={(event) => type(event.target.value)}
        />
      </label>
      <button type="submit" className="btn plain">
        {matters.close}
      </button>
      <NeedsLogIn act="closeFinding" />
    </form>
  );
}
