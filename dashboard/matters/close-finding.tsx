import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { findingOf, useDraft } from '../store/drafts.ts';
import { useEnter, useHeld } from '../store/use.tsx';

const WORDS_MOST = 200;

/** A finding stays until a person closes it, with or without a word on what was found. */
export function CloseFinding({ finding }: { readonly finding: string }) {
  const enter = useEnter();
  const { fields, change } = useDraft((line) => findingOf(line, finding), { words: '' });
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
        const said = fields.words.trim();
        enter({ kind: 'closed', finding, ...(said === '' ? {} : { words: said }) });
      }}
    >
      <label>
        <span>{matters.foundWords}</span>
        <input
          value={fields.words}
          maxLength={WORDS_MOST}
          autoComplete="off"
          onChange={(event) => change({ words: event.target.value })}
        />
      </label>
      <button type="submit" className="btn plain">
        {matters.close}
      </button>
      <NeedsLogIn act="closeFinding" />
    </form>
  );
}
