import { useState } from 'react';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useSettled } from '../panel/settled.ts';
import { useEnter, useHeld, useMoment, usePart } from '../store/use.tsx';
import { useNewestAct, useOthers } from './acts.ts';

const { noticeSaid } = words;
const said = words.screen.notices;
const acts = words.screen.noticeActs;
/** So long what was done stays said in the place of the next one. Milliseconds. */
const DONE_MS = 8_000;

/**
 * Across the top of a page: the newest notice that nobody has taken, and the one thing to press. Then what was done is said in
 * its place, and nothing of another one is there to press until a finger has long gone.
 */
export function NoticeFlap() {
  const { open } = usePart('notices');
  const clock = useHeld((held) => held.clock);
  const [went, go] = useState<{ readonly notice: NoticeView; readonly at: number }>();
  const [first] = open.filter(({ state, level }) => state === 'raised' && level !== 'note');
  if (went && clock - went.at < DONE_MS)
    return <Gone notice={open.find(({ id }) => id === went.notice.id) ?? went.notice} />;
  // the view may not have it yet
  if (!first || first.id === went?.notice.id) return null;
  return <Flap key={first.id} notice={first} going={() => go({ notice: first, at: clock })} />;
}

function Flap({ notice, going }: { readonly notice: NoticeView; readonly going: () => void }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const enter = useEnter();
  const others = useOthers(notice);
  // one that takes the place of another is dead under a finger that meant that one
  const ready = useSettled(`${notice.id} ${notice.round}`);
  const when = (at: number) => said.when(at, clock, zone);
  return (
    <aside className="noticeflap noprint" aria-label={said.tab(notice, clock)}>
      <Mark id="n-open" size={28} />
      <a href={`/notices/${encodeURIComponent(notice.id)}`}>
        <b>{noticeSaid.title(notice)}</b>
        <span>
          {said.row.since(when(notice.since), when(notice.at))}
          {others.open > 0 && `. ${acts.others(others)}`}
        </span>
      </a>
      <button
        type="button"
        className="btn"
        aria-disabled={ready ? undefined : true}
        onClick={() => {
          if (!ready) return;
          enter({ kind: 'noticeTaken', notice: notice.id });
          going();
        }}
      >
        {said.going}
      </button>
    </aside>
  );
}

/** What became of “I’m going”, with the way to that notice and to no other. Refused, it is said below with its mend. */
function Gone({ notice }: { readonly notice: NoticeView }) {
  const act = useNewestAct(notice.id);
  const others = useOthers(notice);
  const state = act?.state === 'refused' ? acts.refused : act?.state === 'kept' ? acts.done : acts.sent;
  return (
    <aside className="noticeflap noprint" aria-label={said.title} role="status">
      <Mark id="n-taken" size={28} />
      <a href={`/notices/${encodeURIComponent(notice.id)}`}>
        <b>{typeof state === 'string' ? state : state.noticeTaken}</b>
        <span>
          {noticeSaid.title(notice)}. {acts.others(others)}
        </span>
      </a>
      {/* where the key was there is nothing to press: a second press of it does nothing */}
      <span className="btn pressed" aria-hidden="true">
        {said.going}
      </span>
    </aside>
  );
}
