import type { NoticeView } from '../../model/view/noticesView.ts';
import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import { useSaid } from '../blank/said.ts';
import { useMoment, usePart } from '../store/use.tsx';
import { QuestionHead } from './question.tsx';
import { useStateRows } from './state-rows.tsx';

/** What it is about, since when, and what the line does meanwhile. */
export function NoticeHead({ here, notice }: { readonly here: PositionView; readonly notice: NoticeView }) {
  const { said: state } = useSaid();
  const { zone } = usePart('line');
  const { clock } = useMoment();
  return (
    <QuestionHead
      here={here}
      look={state.look}
      mark={state.mark}
      title={words.noticeSaid.title(notice)}
      size={44}
      rows={useStateRows()}
      when={words.screen.noticePanel.since}
      at={notice.since}
      moment={words.screen.notices.when(notice.since, clock, zone)}
    />
  );
}
