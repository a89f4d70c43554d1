import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { usePart } from '../store/use.tsx';
import { MARK_OF, SeeNotice, Standing } from './list.tsx';

/** Open notices, a line each, with the way to each of them; a sentence where nothing is open. */
export function OpenNotices() {
  const { open, counts, further } = usePart('notices');
  const said = words.screen.notices;
  return (
    <section className="sheet">
      <h2>{said.heading(counts)}</h2>
      {open.map((notice) => (
        <div key={notice.id} className="noticeline">
          <a className="noticerow" href={`/notices/${encodeURIComponent(notice.id)}`}>
            <Mark id={MARK_OF[notice.state]} size={32} />
            <span>
              <b>{words.noticeSaid.title(notice)}</b>
              <small>
                <Standing notice={notice} />
              </small>
            </span>
          </a>
          <SeeNotice notice={notice} />
        </div>
      ))}
      {further > 0 && <p className="second">{said.further(further)}</p>}
    </section>
  );
}
