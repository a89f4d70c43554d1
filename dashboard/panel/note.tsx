import { useState } from 'react';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useEnter } from '../store/use.tsx';
import { Ask, BackKey, Key } from './key.tsx';
import { FlowHead } from './panel-head.tsx';

const WORDS_MOST = 200;

/** One of eight words, or typed: a note, or, with a stop, the reason that was none of its answers. */
export function NoteScreen({
  here,
  stop,
  close,
}: {
  readonly here: PositionView;
  readonly stop: string | undefined;
  readonly close: () => void;
}) {
  const [typed, type] = useState('');
  const enter = useEnter();
  const { panel } = words.screen;
  const keep = (said: string) => {
    if (stop === undefined) enter({ kind: 'note', words: said });
    else enter({ kind: 'reason', stop, reason: 'other', words: said });
    close();
  };
  return (
    <>
      <FlowHead here={here} title={stop === undefined ? panel.noteTitle : panel.why} right="" />
      <Ask top={178} plain={stop === undefined}>
        {panel.noteWhy}
      </Ask>
      {panel.eightWords.map((word, i) => (
        <Key
          key={word}
          says={[word]}
          left={24 + (i % 4) * 310}
          top={246 + Math.floor(i / 4) * 138}
          width={302}
          height={130}
          look={stop === undefined ? 'plain' : 'asks'}
          kind="word"
          onTap={() => keep(word)}
        />
      ))}
      <form
        className="typing"
        onSubmit={(event) => {
          event.preventDefault();
          if (typed.trim() !== '') keep(typed.trim());
        }}
      >
        <label htmlFor="typed" className="unseen">
          {panel.type}
        </label>
        <input
          id="typed"
          value={typed}
          maxLength={WORDS_MOST}
          placeholder={panel.type}
          autoComplete="off"
          onChange={(event) => type(event.target.value)}
        />
        <button
          type="submit"
          className="key plain"
          style={{ left: 954, top: 522, width: 302, height: 130 }}
          disabled={typed.trim() === ''}
        >
          <span>{panel.keep}</span>
        </button>
      </form>
      <BackKey onTap={close} />
    </>
  );
}
