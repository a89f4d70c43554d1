import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { Ask, BackKey, Key } from './key.tsx';
import { FlowHead } from './panel-head.tsx';
import { TypedLine } from './typedLine.tsx';

const said = words.screen.panel.words;

const TWO = { columns: 2, width: 604, apart: 24 } as const;
const FOUR = { columns: 4, width: 302, apart: 8 } as const;

/** Something is said in words at a panel: one of four or of eight with one tap, or typed. */
export function PanelWords({
  here,
  title,
  asks,
  choices,
  isNeeded = true,
  isQuestion = true,
  most = ENTRY_MOST.words,
  take,
  back,
}: {
  readonly here: PositionView;
  readonly title: string;
  readonly asks: string;
  readonly choices: readonly string[];
  readonly isNeeded?: boolean;
  /** The line asks; else a person wants to say something. */
  readonly isQuestion?: boolean;
  /** So many characters may be typed. */
  readonly most?: number;
  readonly take: (said: string | undefined) => void;
  readonly back: () => void;
}) {
  const [typed, type] = useState('');
  const { columns, width, apart } = choices.length > 4 ? FOUR : TWO;
  return (
    <>
      <FlowHead here={here} title={title} right="" />
      <Ask top={178} plain={!isQuestion}>
        {asks}
      </Ask>
      {choices.map((one, i) => (
        <Key
          key={one}
          says={[one]}
          left={24 + (i % columns) * (width + apart)}
          top={246 + Math.floor(i / columns) * 138}
          width={width}
          height={130}
          look={isQuestion ? 'asks' : 'plain'}
          kind="word"
          onTap={() => take(one)}
        />
      ))}
      <TypedLine
        typed={typed}
        most={most}
        label={asks}
        hint={said.type(choices.length)}
        says={said.keep}
        needed
        type={type}
        keep={() => take(typed.trim())}
      />
      <BackKey onTap={back} />
      {!isNeeded && (
        <Key
          says={[said.without]}
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
