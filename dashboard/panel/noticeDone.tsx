import type { NoticeView } from '../../model/view/noticesView.ts';
import type { PositionView } from '../../model/view/view.ts';
import type { NoticeAct } from '../../model/words/english-notice-acts.ts';
import { words } from '../app/words.ts';
import { useNewestAct, useOthers } from '../notices/acts.ts';
import { Ask, Key } from './key.tsx';
import { FlowHead } from './panel-head.tsx';
import { useSettled } from './settled.ts';

const said = words.screen.noticePanel;
const acts = words.screen.noticeActs;

/** What was just done at this panel; a finding is closed by an entry of its own. */
export type What = NoticeAct | 'closed' | 'aside';

/** What was done first, and how many others there are: no key of another notice is here, and none of these where one was pressed. */
export function NoticeDone({
  here,
  notice,
  did,
  again,
  toList,
  close,
}: {
  readonly here: PositionView;
  readonly notice: NoticeView;
  readonly did: What;
  readonly again: () => void;
  readonly toList: () => void;
  readonly close: () => void;
}) {
  const act = useNewestAct(notice.id);
  const others = useOthers(notice);
  const ready = useSettled(`${notice.id} ${did}`);
  const isKept = act === undefined || act.state === 'kept';
  const what = did === 'aside' ? said.aside : did === 'closed' ? said.acts.noticeClosed : said.acts[did];
  const keys = [
    { kind: 'again', says: said.again, onTap: again },
    ...(others.open > 0 ? [{ kind: 'others', says: said.others, onTap: toList }] : []),
    { kind: 'toline', says: said.toLine, onTap: close },
  ];
  return (
    <>
      <FlowHead here={here} title={words.noticeSaid.title(notice)} right="" />
      <Ask top={190} plain>
        {what}
      </Ask>
      <p className="told" style={{ top: 276 }} role="status">
        {did !== 'aside' && did !== 'closed' && !isKept && (
          <>
            {acts.sent[did]}
            <br />
          </>
        )}
        {acts.others(others)}
      </p>
      {keys.map(({ kind, says, onTap }, place) => (
        <Key
          key={kind}
          says={says}
          left={24 + place * 416}
          top={400}
          width={400}
          height={134}
          look={kind === 'toline' ? 'plain' : 'quiet'}
          kind={kind}
          ready={ready}
          onTap={onTap}
        />
      ))}
    </>
  );
}
