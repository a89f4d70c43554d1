import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useEnter } from '../store/use.tsx';
import { PanelWords } from './words.tsx';

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
  const enter = useEnter();
  const { panel } = words.screen;
  return (
    <PanelWords
      here={here}
      title={stop === undefined ? panel.noteTitle : panel.why}
      asks={panel.noteWhy}
      choices={panel.eightWords}
      isQuestion={stop !== undefined}
      take={(said = '') => {
        if (stop === undefined) enter({ kind: 'note', words: said });
        else enter({ kind: 'reason', stop, reason: 'other', words: said });
        close();
      }}
      back={close}
    />
  );
}
