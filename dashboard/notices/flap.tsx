import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useEnter, useHeld, useMoment, usePart } from '../store/use.tsx';

const { noticeSaid } = words;

/** The newest notice that nobody has taken, across the top of a page: what it is, and the one thing to press. */
export function NoticeFlap() {
  const { open } = usePart('notices');
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const enter = useEnter();
  const sent = useHeld((held) => held.sent);
  const taking = new Set(
    sent.flatMap(({ entry, state }) =>
      state !== 'refused' && entry.kind === 'noticeTaken' ? [entry.notice] : [],
    ),
  );
  const untaken = open.filter(
    ({ id, state, level }) => state === 'raised' && level !== 'note' && !taking.has(id),
  );
  const [first] = untaken;
  if (!first) return null;
  const said = words.screen.notices;
  return (
    <aside className="noticeflap noprint" aria-label={said.tab(first, clock)}>
      <Mark id="n-open" size={28} />
      <a href={`/notices/${encodeURIComponent(first.id)}`}>
        <b>{noticeSaid.title(first)}</b>
        <span>
          {said.row.since(said.when(first.at, clock, zone))}
          {untaken.length > 1 && `, ${words.screen.noticeSound.more(untaken.length - 1)}`}
        </span>
      </a>
      <button type="button" className="btn" onClick={() => enter({ kind: 'noticeTaken', notice: first.id })}>
        {said.going}
      </button>
    </aside>
  );
}
