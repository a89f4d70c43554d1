import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { Typing } from '../entries/fields.tsx';
import { CloseFinding } from '../matters/close-finding.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { closingOf, useDraft } from '../store/drafts.ts';
import { useEnter } from '../store/use.tsx';
import { useSending } from './acts.ts';
import { Answers } from './answers.tsx';
import { NO_ANSWERS, type Typed, typedAnswers, WORDS_MOST } from './closingDraft.ts';
import { Before, Said } from './saying.tsx';

const said = words.screen.notices.close;
const { noticeSaid } = words;

/** What was found and what was done: two answers. Of one that has ended by itself they can be given later. */
export function Closing({ notice, acted }: { readonly notice: NoticeView; readonly acted: () => void }) {
  const { facts, state, ended } = notice;
  const sent = useSending(notice.id, 'noticeClosed');
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
  if (sent)
    return (
      <section className="closing">
        <p>{said.sent}</p>
        <p>{said.said(noticeSaid.found[sent.found], noticeSaid.done[sent.done])}</p>
        {sent.words !== undefined && <p>{sent.words}</p>}
      </section>
    );
  return (
    <>
      {ended && <Before ended={ended} />}
      <CloseForm notice={notice} acted={acted} />
    </>
  );
}

function CloseForm({ notice, acted }: { readonly notice: NoticeView; readonly acted: () => void }) {
  const { id, kind, state, taken } = notice;
  const enter = useEnter();
  const { fields, change } = useDraft<Typed>((line) => closingOf(line, id), NO_ANSWERS);
  const { found, done, words: text } = typedAnswers(fields, kind);
  const may = (taken !== undefined || state === 'ended') && found !== undefined && done !== undefined;
  return (
    <form
      className="closing noprint"
      onSubmit={(event) => {
        event.preventDefault();
        if (!may) return;
        enter({ kind: 'noticeClosed', notice: id, found, done, ...(text === '' ? {} : { words: text }) });
        acted();
      }}
    >
      <Answers kind={kind} found={found} done={done} change={change} />
      <p className="second">{state === 'ended' ? said.later : said.falsely}</p>
      <div className="typed-line">
        <Typing
          label={said.words}
          value={fields.words}
          most={WORDS_MOST}
          type={(next) => change({ words: next })}
        />
        <button type="submit" className="btn plain" disabled={!may}>
          {state === 'ended' ? said.buttonLater : said.button}
        </button>
      </div>
      {!may && state !== 'ended' && <p className="second">{said.needs}</p>}
      <NeedsLogIn act="closeNotice" />
    </form>
  );
}
