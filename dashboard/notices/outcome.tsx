import type { RefObject } from 'react';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { useSettled } from '../panel/settled.ts';
import type { Sent } from '../store/store.ts';
import { useDismiss } from '../store/use.tsx';
import { useNewestAct, useNext, useOthers } from './acts.ts';

const said = words.screen.noticeActs;

/**
 * What became of what was done here about a notice: it says it for those who listen, has the focus then, and leads on.
 * The way to the next one is drawn only once a finger that was on its way has come down.
 */
export function Outcome({
  notice,
  landing,
}: {
  readonly notice: NoticeView;
  readonly landing: RefObject<HTMLDivElement | null>;
}) {
  const act = useNewestAct(notice.id);
  const others = useOthers(notice);
  const next = useNext(notice.id);
  const settled = useSettled(act === undefined ? '' : `${act.entry.id} ${act.state}`);
  // whoever goes reads on here; whoever is done with it goes on to the next
  const leads = act !== undefined && act.state === 'kept' && act.entry.kind !== 'noticeTaken';
  return (
    <div ref={landing} tabIndex={-1} role="status" className={act ? 'outcome' : 'unseen'}>
      {act && (
        <>
          <ActSaid act={act} />
          {act.state !== 'refused' && <span className="second">{said.others(others)}</span>}
          {leads && settled && (
            <a href={next ? `/notices/${encodeURIComponent(next.id)}` : '/notices'}>
              {next ? said.next(words.noticeSaid.title(next)) : said.all}
            </a>
          )}
        </>
      )}
    </div>
  );
}

/** Refused with what, why and how to mend it, until somebody has read it; what was typed stands where it was typed. */
function ActSaid({ act: { entry, state, trouble = '', why = '', mend = '' } }: { readonly act: Sent }) {
  const dismiss = useDismiss();
  if (!said.isAct(entry.kind)) return null;
  if (state === 'refused')
    return (
      <>
        <span className="refused">
          <b>
            {said.refused} {trouble}
          </b>{' '}
          {why} {mend}
        </span>
        <button type="button" className="btn plain" onClick={() => dismiss(entry.id)}>
          {said.read}
        </button>
      </>
    );
  return <b>{state === 'kept' ? said.done[entry.kind] : said.sent[entry.kind]}</b>;
}
