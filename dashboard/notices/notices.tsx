import { useEffect, useState } from 'react';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { Frame } from '../past/frame.tsx';
import { usePart } from '../store/use.tsx';
import { isAbout } from './acts.ts';
import { NoticeList } from './list.tsx';
import { Notice } from './one.tsx';

const said = words.screen.notices;
/** How often what has ended is asked for again; what is open comes by itself. */
const AGAIN_MS = 30_000;

interface PastNotices {
  readonly ended: readonly NoticeView[];
  readonly counts: { readonly raised: number; readonly found: number };
  readonly days: number;
}

/** What a person has to know now, by state, with one of them folded out; and what has ended. */
export function Notices({ of }: { readonly of: string | undefined }) {
  const now = usePart('notices');
  const line = usePart('line').id;
  const path = `/api/lines/${encodeURIComponent(line)}/notices`;
  const past = useAsked<PastNotices>(path, AGAIN_MS);
  const ended = endedOf(now.ended, past.data?.ended ?? []);
  const known = [...now.open, ...ended];
  const newest = now.open[0] ?? ended[0];
  // the one that was shown stays, whatever comes or is taken: nothing moves under a finger
  const [kept, keep] = useState<string>();
  useEffect(() => {
    if (kept === undefined && newest !== undefined) keep(newest.id);
  }, [kept, newest]);
  const chosen = known.find(({ id }) => id === (of ?? kept)) ?? (of === undefined ? newest : undefined);
  const alone = useAsked<NoticeView>(
    of === undefined || chosen !== undefined ? undefined : `${path}/one/${encodeURIComponent(of)}`,
    AGAIN_MS,
  );
  const shown = chosen ?? alone.data;
  const [first, rest] = said.lead(now.counts);
  const { counts, days } = past.data ?? {};
  return (
    <Frame
      screen="notices"
      title={said.title}
      lead={[
        first,
        [rest, counts && days && said.past(counts.raised, counts.found, days)].filter(Boolean).join(' '),
      ]}
      actions={
        <a className="btn plain" href="/notices/settings">
          {said.settings}
        </a>
      }
      overview={undefined}
      saidBelow={(sent) => shown !== undefined && isAbout(sent, shown.id)}
      asked={alone.state === 'refused' ? alone : past}
    >
      <div className="noticesheets">
        <NoticeList open={now.open} further={now.further} ended={ended} chosen={shown?.id} />
        {shown && <Notice key={shown.id} notice={shown} />}
      </div>
    </Frame>
  );
}

/** The newest are told at once; the rest were asked for. */
function endedOf(now: readonly NoticeView[], before: readonly NoticeView[]): readonly NoticeView[] {
  const known = new Set(now.map(({ id }) => id));
  return [...now, ...before.filter(({ id }) => !known.has(id))];
}
