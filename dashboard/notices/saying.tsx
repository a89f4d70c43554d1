import { useState } from 'react';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { DONE, FOUND } from '../../model/notices/notice.ts';
import type { EndedView, NoticeView, SaidView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useDismiss, useEnter, useHeld, useMoment, usePart } from '../store/use.tsx';
import { Choice } from './choice.tsx';
import { useRefused } from './refused.ts';
import { useWhoSaid } from './who.ts';

const said = words.screen.notices.close;
const { noticeSaid } = words;

/** What a person said of it, once it is said: what was said before stands with it, and it can be corrected. */
export function Said({
  notice,
  ended,
  said: answer,
}: {
  readonly notice: NoticeView;
  readonly ended: EndedView;
  readonly said: SaidView;
}) {
  const { found, words: typed } = answer;
  return (
    <section className="closing">
      <p>
        <b>{said.said(noticeSaid.found[found], noticeSaid.done[answer.done])}</b>{' '}
        {found === 'nothing' && said.nothing}
      </p>
      {typed !== undefined && <p>{typed}</p>}
      <SaidBy said={answer} />
      <Before ended={ended} />
      {ended.correctable !== undefined && (
        <Correcting notice={notice.id} of={ended.correctable} said={answer} />
      )}
    </section>
  );
}

function SaidBy({ said: { by, at } }: { readonly said: SaidView }) {
  const when = useWhen();
  const who = useWhoSaid();
  return <p className="second">{said.saidBy(who(by), when(at))}</p>;
}

/** What was said and counts no more: nothing of it is erased. */
export function Before({ ended: { said: now, corrections } }: { readonly ended: EndedView }) {
  const when = useWhen();
  const who = useWhoSaid();
  if (corrections.length === 0) return null;
  return (
    <ul className="saidbefore">
      {corrections.map(({ at, by, why, before }, place) => (
        <li key={`${at} ${before.at}`} className="second">
          {said.before(noticeSaid.found[before.found], noticeSaid.done[before.done], before.words)}{' '}
          {said.saidBy(who(before.by), when(before.at))}{' '}
          {(now === undefined && place === corrections.length - 1 ? said.takenBack : said.corrected)(
            who(by),
            when(at),
            why,
          )}
        </li>
      ))}
    </ul>
  );
}

/** Says it otherwise, or takes it back; what was to be said here and came second is filled in already. */
function Correcting({
  notice,
  of,
  said: now,
}: {
  readonly notice: string;
  readonly of: string;
  readonly said: SaidView;
}) {
  const enter = useEnter();
  const dismiss = useDismiss();
  const refused = useRefused(notice);
  const base = refused ?? now;
  const [found, find] = useState(base.found);
  const [done, doIt] = useState(base.done);
  const [typed, type] = useState(base.words ?? '');
  const [why, because] = useState('');
  const isSent = useHeld(({ sent }) =>
    sent.some(({ entry, state }) => state === 'onItsWay' && entry.kind === 'correction' && entry.of === of),
  );
  const text = typed.trim();
  const reason = why.trim();
  const isChanged = found !== now.found || done !== now.done || text !== (now.words ?? '');
  const send = (isWithdrawn: boolean) => {
    const body = {
      kind: 'noticeClosed',
      notice,
      found,
      done,
      ...(text === '' ? {} : { words: text }),
    } as const;
    enter({ kind: 'correction', of, was: 'noticeClosed', why: reason, ...(isWithdrawn ? {} : { body }) });
    if (refused) dismiss(refused.id);
  };
  if (isSent) return <p>{said.sent}</p>;
  return (
    <details className="noprint" open={refused !== undefined}>
      <summary>{said.correct}</summary>
      {refused && <p role="status">{said.second}</p>}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (isChanged && reason !== '') send(false);
        }}
      >
        <div className="answers">
          <Choice legend={said.found} of={FOUND} names={noticeSaid.found} chosen={found} choose={find} />
          <Choice legend={said.done} of={DONE} names={noticeSaid.done} chosen={done} choose={doIt} />
        </div>
        <div className="typed-line">
          <TypedLine label={said.words} value={typed} type={type} />
          <TypedLine label={said.why} value={why} type={because} />
          <button type="submit" className="btn plain" disabled={!isChanged || reason === ''}>
            {said.keepCorrection}
          </button>
          <button type="button" className="btn plain" disabled={reason === ''} onClick={() => send(true)}>
            {said.withdraw}
          </button>
        </div>
        <p className="second">{said.withdrawMeans}</p>
        <NeedsLogIn act="correct" />
      </form>
    </details>
  );
}

function TypedLine({
  label,
  value,
  type,
}: {
  readonly label: string;
  readonly value: string;
  readonly type: (typed: string) => void;
}) {
  return (
    <label>
      <span>{label}</span>
      <input
        value={value}
        maxLength={ENTRY_MOST.words}
        autoComplete="off"
        onChange={(event) => type(event.target.value)}
      />
    </label>
  );
}

function useWhen(): (at: number) => string {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  return (at) => words.screen.notices.when(at, clock, zone);
}
