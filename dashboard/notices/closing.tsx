import { useState } from 'react';
import { DONE, type Done, FOUND, type Found } from '../../model/notices/notice.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { CloseFinding } from '../matters/close-finding.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, useHeld } from '../store/use.tsx';
import { Choice } from './choice.tsx';
import { useRefused } from './refused.ts';
import { Before, Said } from './saying.tsx';

const said = words.screen.notices.close;
const { noticeSaid } = words;
const WORDS_MOST = 300;

/** What was found and what was done: two answers. Of one that has ended by itself they can be given later. */
export function Closing({ notice }: { readonly notice: NoticeView }) {
  const { facts, state, ended } = notice;
  const sent = useHeld((held) =>
    held.sent.some(
      ({ entry, state: sending }) =>
        sending !== 'refused' && entry.kind === 'noticeClosed' && entry.notice === notice.id,
    ),
  );
  if (facts.kind === 'ranOn' && state !== 'ended')
    return (
      <section className="closing">
        <p>{said.ranOn}</p>
        <CloseFinding finding={facts.finding} />
      </section>
    );
  if (facts.kind === 'press')
    return state === 'ended' ? null : (
      <section className="closing">
        <p>{said.press}</p>
      </section>
    );
  if (ended?.said) return <Said notice={notice} ended={ended} said={ended.said} />;
  if (sent) return <p className="closing">{said.sent}</p>;
  return (
    <>
      {ended && <Before ended={ended} />}
      <Answers notice={notice} />
    </>
  );
}

function Answers({ notice: { id, state, taken } }: { readonly notice: NoticeView }) {
  const enter = useEnter();
  // what was not taken is still here, to be sent once more
  const refused = useRefused(id);
  const [found, find] = useState<Found | undefined>(refused?.found);
  const [done, doIt] = useState<Done | undefined>(refused?.done);
  const [typed, type] = useState(refused?.words ?? '');
  const may = (taken !== undefined || state === 'ended') && found !== undefined && done !== undefined;
  return (
    <form
      className="closing noprint"
      onSubmit={(event) => {
        event.preventDefault();
        const text = typed.trim();
        if (may)
          enter({ kind: 'noticeClosed', notice: id, found, done, ...(text === '' ? {} : { words: text }) });
      }}
    >
      <div className="answers">
        <Choice legend={said.found} of={FOUND} names={noticeSaid.found} chosen={found} choose={find} />
        <Choice legend={said.done} of={DONE} names={noticeSaid.done} chosen={done} choose={doIt} />
      </div>
      <p className="second">{state === 'ended' ? said.later : said.falsely}</p>
      <div className="typed-line">
        <label>
          <span>{said.words}</span>
          <input
            value={typed}
            maxLength={WORDS_MOST}
            autoComplete="off"
            onChange={(event) => type(event.target.value)}
          />
        </label>
        <button type="submit" className="btn plain" disabled={!may}>
          {state === 'ended' ? said.buttonLater : said.button}
        </button>
      </div>
      {!may && state !== 'ended' && <p className="second">{said.needs}</p>}
      <NeedsLogIn act="closeNotice" />
    </form>
  );
}
