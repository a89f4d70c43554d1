import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Ask, BackKey, Key } from '../panel/key.tsx';
import { FlowHead } from '../panel/panel-head.tsx';

const said = words.screen.sheet;

/** Something is said in words at a panel: one of four with one tap, or typed. */
export function PanelWords({
  here,
  title,
  asks,
  choices,
  isNeeded = true,
  take,
  back,
}: {
  readonly here: PositionView;
  readonly title: string;
  readonly asks: string;
  readonly choices: readonly string[];
  readonly isNeeded?: boolean;
  readonly take: (said: string | undefined) => void;
  readonly back: () => void;
}) {
  const [typed, type] = useState('');
  const text = typed.trim();
  return (
    <>
      <FlowHead here={here} title={title} right="" />
      <Ask top={178}>{asks}</Ask>
      {choices.map((one, i) => (
        <Key
          key={one}
          says={[one]}
          left={24 + (i % 2) * 628}
          top={246 + Math.floor(i / 2) * 138}
          width={604}
          height={130}
          look="asks"
          kind="word"
          onTap={() => take(one)}
        />
      ))}
      <form
        className="typing"
        onSubmit={(event) => {
          event.preventDefault();
          if (text !== '') take(text);
        }}
      >
        <label htmlFor="sheetwords" className="unseen">
          {asks}
        </label>
        <input
          id="sheetwords"
          value={typed}
          maxLength={ENTRY_MOST.words}
          placeholder={said.words.type}
          autoComplete="off"
          onChange={(event) => type(event.target.value)}
        />
        <button
          type="submit"
          className="key plain"
          style={{ left: 954, top: 522, width: 302, height: 130 }}
          disabled={text === ''}
        >
          <span>{said.words.keep}</span>
        </button>
      </form>
      <BackKey onTap={back} />
      {!isNeeded && (
        <Key
          says={[said.words.without]}
          left={652}
          top={660}
          width={604}
          height={130}
          look="quiet"
          kind="without1"
          onTap={() => take(undefined)}
        />
      )}
    </>
  );
}
