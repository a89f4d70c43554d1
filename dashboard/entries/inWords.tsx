import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { words } from '../app/words.ts';

const said = words.screen.panel.words;

/** Something is said in words: one of those that are often said, or typed. */
export function InWords({
  asks,
  choices,
  isNeeded = true,
  most = ENTRY_MOST.words,
  take,
  back,
}: {
  readonly asks: string;
  readonly choices: readonly string[];
  readonly isNeeded?: boolean;
  /** So many characters may be typed. */
  readonly most?: number;
  /** Undefined without words. */
  readonly take: (said: string | undefined) => void;
  readonly back: () => void;
}) {
  const [typed, type] = useState('');
  const text = typed.trim();
  return (
    <form
      className="inwords"
      onSubmit={(event) => {
        event.preventDefault();
        if (text !== '') take(text);
      }}
    >
      <h3>{asks}</h3>
      <div className="choices">
        {choices.map((one) => (
          <button key={one} type="button" className="sheetkey" onClick={() => take(one)}>
            {one}
          </button>
        ))}
      </div>
      <input
        value={typed}
        maxLength={most}
        autoComplete="off"
        placeholder={said.type(choices.length)}
        aria-label={asks}
        onChange={(event) => type(event.target.value)}
      />
      <div className="sheetkeys">
        <button type="submit" className="sheetkey main" disabled={text === ''}>
          {said.keep}
        </button>
        {!isNeeded && (
          <button type="button" className="sheetkey" onClick={() => take(undefined)}>
            {said.without}
          </button>
        )}
        <button type="button" className="sheetkey" onClick={back}>
          {words.screen.panel.back}
        </button>
      </div>
    </form>
  );
}
