import type { ReactNode } from 'react';
import type { NoticeState } from '../../model/notices/notice.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useMoment, usePart } from '../store/use.tsx';
import { useWhoSaid } from './who.ts';
import { SeeIt } from '../replay/seeIt.tsx';

const said = words.screen.notices;
const { noticeSaid } = words;

const STATES: readonly NoticeState[] = ['raised', 'returned', 'taken', 'shelved', 'ended'];

/** Flap up not taken, tongue out back to normal, half down taken, strapped shelved, tucked ended. */
export const MARK_OF: Readonly<Record<NoticeState, string>> = {
  raised: 'n-open',
  returned: 'n-returned',
  taken: 'n-taken',
  shelved: 'n-shelved',
  ended: 'n-shut',
};

/** All of them by where they stand; the one that is folded out is marked. */
export function NoticeList({
  open,
  further,
  ended,
  chosen,
}: {
  readonly open: readonly NoticeView[];
  readonly further: number;
  readonly ended: readonly NoticeView[];
  readonly chosen: string | undefined;
}) {
  const all = [...open, ...ended];
  if (all.length === 0) return <p className="second">{said.none}</p>;
  return (
    <nav className="noticelist" aria-label={said.title}>
      {STATES.map((state) => {
        const own = all.filter((notice) => notice.state === state);
        if (own.length === 0) return null;
        return (
          <section key={state}>
            <h2>{said.group(state, own.length)}</h2>
            <Rows notices={own} chosen={chosen} />
          </section>
        );
      })}
      {further > 0 && <p className="second">{said.further(further)}</p>}
    </nav>
  );
}

/** So many of a state stand there at once; earlier ones are folded away, the chosen one never. */
const UNFOLDED = 15;

function Rows({
  notices,
  chosen,
}: {
  readonly notices: readonly NoticeView[];
  readonly chosen: string | undefined;
}) {
  const row = (notice: NoticeView) => <Row key={notice.id} notice={notice} current={notice.id === chosen} />;
  const rest = notices.slice(UNFOLDED);
  return (
    <>
      {notices.slice(0, UNFOLDED).map(row)}
      {rest.length > 0 && (
        <details open={rest.some(({ id }) => id === chosen)}>
          <summary>{said.earlier(rest.length)}</summary>
          {rest.map(row)}
        </details>
      )}
    </>
  );
}

function Row({ notice, current }: { readonly notice: NoticeView; readonly current: boolean }) {
  return (
    <div className="noticeline">
      <a
        href={`/notices/${encodeURIComponent(notice.id)}`}
        className="noticerow"
        {...(current ? { 'aria-current': 'true' as const } : {})}
      >
        <Mark id={MARK_OF[notice.state]} size={32} />
        <span>
          <b>{noticeSaid.title(notice)}</b>
          <small>
            <Standing notice={notice} />
          </small>
        </span>
      </a>
      {/* the one that is folded out has its way there */}
      {!current && <SeeNotice notice={notice} />}
    </div>
  );
}

/** The way to when what a notice is about began; of what is about no moment there is none. */
export function SeeNotice({
  notice,
  children,
}: {
  readonly notice: NoticeView;
  readonly children?: ReactNode;
}) {
  if (!noticeSaid.isSeen(notice.kind)) return null;
  return (
    <SeeIt at={notice.since} station={notice.station?.id} named={noticeSaid.title(notice)}>
      {children}
    </SeeIt>
  );
}

/** Since when, who has it, or what became of it, in a line. */
export function Standing({ notice }: { readonly notice: NoticeView }) {
  return useStanding()(notice);
}

export function useStanding(): (notice: NoticeView) => string {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const who = useWhoSaid();
  const when = (at: number) => said.when(at, clock, zone);
  const { row } = said;
  return ({ state, taken, owner, shelved, ended, normalAt, since, at }) => {
    if (state === 'shelved' && shelved) return row.until(when(shelved.until), shelved.words);
    if (state === 'taken' && taken)
      return row.owner(owner === undefined ? who(taken.by) : said.numbered(owner), when(since));
    if (state === 'returned' && normalAt !== undefined) return row.normal(when(normalAt));
    if (!ended) return row.since(when(since), when(at));
    const span = row.ended(when(since), when(ended.at));
    if (ended.said?.found === 'nothing') return `${span}. ${row.falsely}`;
    if (ended.said)
      return `${span}. ${row.said(noticeSaid.found[ended.said.found], noticeSaid.done[ended.said.done])}`;
    return `${span}. ${ended.how === 'never' ? row.never : row.unsaid}`;
  };
}
