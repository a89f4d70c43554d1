import { useState } from 'react';
import type { Matter } from '../../model/view/matter.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { useTold } from '../blank/told.ts';
import { Mark } from '../marks/symbols.tsx';
import { MARK_OF, SeeNotice } from '../notices/list.tsx';
import { lineRows, mattersBeside, shownNotices } from '../notices/shown.ts';
import { useEnter, useHeld, useMoment, usePart } from '../store/use.tsx';
import { Rich } from '../type/line.tsx';
import { Caution } from './caution.tsx';
import { CloseFinding } from './close-finding.tsx';
import { type Finding, isFinding, keyOfMatter, markOfMatter, warnsOf } from './matters.tsx';
import { numbersOfMatter } from './numbers.ts';
import { SeeIt } from '../replay/seeIt.tsx';

/** Open notices of desk and phone: the same ones as on the wall, and what can be answered is answered in its row. */
export function Matters() {
  const matters = usePart('matters');
  const notices = usePart('notices');
  const { open } = notices;
  const { matters: said } = words.screen.line;
  const shown = shownNotices(open, matters);
  const beside = mattersBeside(matters, shown);
  const besides = lineRows(notices, matters);
  const left = said.leftOut(notices.further, besides);
  return (
    <section className="matters">
      <h2>{said.title(notices.counts, besides)}</h2>
      {warnsOf(matters, shown) && <Caution text={words.screen.caution.short} mark={28} />}
      <ul>
        {shown.map((notice) => (
          <NoticeRow key={notice.id} notice={notice} />
        ))}
        {beside.map((matter) => (
          <MatterRow key={keyOfMatter(matter)} matter={matter} />
        ))}
      </ul>
      {left !== '' && <p className="second">{left}</p>}
    </section>
  );
}

/** The way to a notice: what is done about it is done there. */
function NoticeRow({ notice }: { readonly notice: NoticeView }) {
  const { zone } = usePart('line');
  const { now } = useMoment();
  return (
    <li>
      <Mark id={MARK_OF[notice.state]} size={32} />
      <div>
        <a href={`/notices/${encodeURIComponent(notice.id)}`}>
          <b>{words.noticeSaid.title(notice)}</b>
        </a>
        <span>{words.screen.notices.onWall(notice, now, zone)}</span>
      </div>
      <SeeNotice notice={notice} />
    </li>
  );
}

/** What still reads so cannot be done with. */
function closable(matter: Matter): matter is Finding {
  return isFinding(matter) && (matter.kind === 'olderFindings' || matter.lasted !== undefined);
}

function MatterRow({ matter }: { readonly matter: Matter }) {
  const told = useTold(useMoment());
  const { matters } = words.screen.line;
  const [title, more] = matters.said(matter, told);
  const asked = matter.kind === 'unexplainedStop' ? matters.whyAt(matter.at, told) : title;
  return (
    <li>
      <Mark id={markOfMatter(matter)} size={32} />
      <div>
        <b>
          <Rich text={asked} of={numbersOfMatter(matter)} />
        </b>
        <span>
          <Rich text={more} of={numbersOfMatter(matter)} />
        </span>
        {matter.kind === 'unexplainedStop' && <Reasons matter={matter} />}
        {matter.kind === 'whichButton' && <Buttons matter={matter} />}
        {closable(matter) && <CloseFinding finding={matter.id} />}
      </div>
      <SeeMatter matter={matter} named={title} />
    </li>
  );
}

/** The way to when it happened, where it is something that happened. */
function SeeMatter({ matter, named }: { readonly matter: Matter; readonly named: string }) {
  const { stations } = usePart('path');
  if (matter.kind === 'stationAbnormal')
    return <SeeIt at={matter.since} station={matter.station} named={named} />;
  if (matter.kind !== 'unexplainedStop' && matter.kind !== 'whichButton' && !isFinding(matter)) return null;
  if (!('at' in matter) || matter.at === undefined) return null;
  const until = 'lasted' in matter && matter.lasted !== undefined ? matter.at + matter.lasted : undefined;
  const name = matter.kind === 'unexplainedStop' ? matter.station : undefined;
  const station = stations.find((one) => one.name === name)?.id;
  return <SeeIt at={matter.at} until={until} station={station} named={named} />;
}

/** Four answers, "something else" last, which opens a line to type in. */
function Reasons({ matter }: { readonly matter: Extract<Matter, { kind: 'unexplainedStop' }> }) {
  const enter = useEnter();
  const [typing, setTyping] = useState(false);
  const sent = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) => state !== 'refused' && entry.kind === 'reason' && entry.stop === matter.stop,
    ),
  );
  const { matters } = words.screen.line;
  if (sent) return null;
  if (typing) {
    return (
      <Typed
        label={matters.otherWords}
        keep={(said) => enter({ kind: 'reason', stop: matter.stop, reason: 'other', words: said })}
      />
    );
  }
  return (
    <div className="why">
      {matter.answers.slice(0, 4).map((answer) => (
        <button
          type="button"
          key={answer.id}
          className="answer"
          onClick={() => enter({ kind: 'reason', stop: matter.stop, reason: answer.id })}
        >
          {answer.name}
        </button>
      ))}
      <button type="button" className="answer" onClick={() => setTyping(true)}>
        {matters.somethingElse}
      </button>
    </div>
  );
}

function Buttons({ matter }: { readonly matter: Extract<Matter, { kind: 'whichButton' }> }) {
  const enter = useEnter();
  const sent = useHeld((held) =>
    held.sent.some(
      ({ entry, state }) => state !== 'refused' && entry.kind === 'device' && entry.press === matter.press,
    ),
  );
  if (sent) return null;
  return (
    <div className="why">
      {matter.candidates.map((candidate) => (
        <button
          type="button"
          key={candidate.id}
          className="answer"
          onClick={() => enter({ kind: 'device', press: matter.press, candidate: candidate.id })}
        >
          {candidate.name}
        </button>
      ))}
    </div>
  );
}

const WORDS_MOST = 200;

/** A line to type in, sent by its key or by Enter. */
export function Typed({ label, keep }: { readonly label: string; readonly keep: (said: string) => void }) {
  const [said, say] = useState('');
  return (
    <form
      className="typed-line"
      onSubmit={(event) => {
        event.preventDefault();
        if (said.trim() === '') return;
        keep(said.trim());
        say('');
      }}
    >
      <label>
        <span>{label}</span>
        <input
          value={said}
          maxLength={WORDS_MOST}
          autoComplete="off"
          onChange={(event) => say(event.target.value)}
        />
      </label>
      <button type="submit" className="btn plain" disabled={said.trim() === ''}>
        {words.screen.line.matters.send}
      </button>
    </form>
  );
}
