import { answersOf, type Done, type Found } from '../../model/notices/answers.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { Choice } from './choice.tsx';

const said = words.screen.notices.close;
const { noticeSaid } = words;

/** What was found and what was done: those that fit the kind of notice, each one tap. */
export function Answers({
  kind,
  found,
  done,
  change,
}: {
  readonly kind: NoticeView['kind'];
  readonly found: Found | undefined;
  readonly done: Done | undefined;
  readonly change: (answer: { readonly found: Found } | { readonly done: Done }) => void;
}) {
  const answers = answersOf(kind);
  return (
    <div className="answers">
      <Choice
        legend={said.found}
        of={answers.found}
        names={noticeSaid.found}
        chosen={found}
        choose={(one) => change({ found: one })}
      />
      <Choice
        legend={said.done}
        of={answers.done}
        names={noticeSaid.done}
        chosen={done}
        choose={(one) => change({ done: one })}
      />
    </div>
  );
}
