import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { closingOf, useDraft } from '../store/drafts.ts';
import { useEnter } from '../store/use.tsx';
import { NO_ANSWERS, type Typed, typedAnswers } from './closingDraft.ts';

const said = words.screen.noticeActs.left;
const { noticeSaid } = words;

interface Left {
  /** What had been chosen and typed. */
  readonly text: string;
  readonly keep: () => void;
  readonly drop: () => void;
}

/** What was typed here for a closing that somebody else came first with: it is not lost, and never said in silence. */
export function useLeftOver(notice: NoticeView): Left | undefined {
  const enter = useEnter();
  const draft = useDraft<Typed>((line) => closingOf(line, notice.id), NO_ANSWERS);
  const { found, done, words: typed } = typedAnswers(draft.fields, notice.kind);
  const answer = notice.ended?.said;
  const isSaid = answer?.found === found && answer?.done === done && (answer?.words ?? '') === typed;
  const isEmpty = found === undefined && done === undefined && typed === '';
  if (!answer || isSaid || isEmpty) return undefined;
  const chosen = words.screen.notices.close.chosen(
    found && noticeSaid.found[found],
    done && noticeSaid.done[done],
  );
  const text = [chosen, typed].filter((part) => part !== '').join(' ');
  return {
    text,
    keep: () => {
      enter({ kind: 'note', words: said.note(noticeSaid.title(notice), text) });
      draft.drop();
    },
    drop: draft.drop,
  };
}

export function LeftOver({ notice }: { readonly notice: NoticeView }) {
  const left = useLeftOver(notice);
  if (!left) return null;
  return (
    <div className="leftover">
      <b>{said.title}</b>
      <p>{left.text}</p>
      <p className="second">{said.why}</p>
      <p className="ways">
        <button type="button" className="btn plain" onClick={left.keep}>
          {said.keep}
        </button>
        <button type="button" className="btn plain" onClick={left.drop}>
          {said.drop}
        </button>
      </p>
    </div>
  );
}
