import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { closingOf, keptDrafts, useDraft } from '../store/drafts.ts';
import { useEnter, usePart } from '../store/use.tsx';
import { isHalfSaid, NO_ANSWERS, type Typed, typedAnswers } from './closingDraft.ts';

const said = words.screen.noticeActs.left;
const { noticeSaid } = words;

export interface Left {
  /** What had been chosen and typed. */
  readonly text: string;
  readonly keep: () => void;
  readonly drop: () => void;
}

/** What was typed here for a closing that somebody else came first with: it is not lost, and never said in silence. */
export function useLeftOver(notice: NoticeView): Left | undefined {
  const enter = useEnter();
  const draft = useDraft<Typed>((line) => closingOf(line, notice.id), NO_ANSWERS);
  const answers = typedAnswers(draft.fields, notice.kind);
  if (!notice.ended?.said || !isHalfSaid(notice, answers)) return undefined;
  const { found, done, words: typed } = answers;
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

/** Whether this screen keeps something half said for a closing of a notice, as when it was drawn. */
export function useHalfSaid(): (notice: NoticeView) => boolean {
  const line = usePart('line').id;
  const kept = keptDrafts();
  return (notice) => {
    const fields = kept(closingOf(line, notice.id));
    return isHalfSaid(notice, typedAnswers({ ...NO_ANSWERS, ...fields }, notice.kind));
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
