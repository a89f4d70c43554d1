import { useState } from 'react';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { shelfOf, useDraft } from '../store/drafts.ts';
import { useEnter, useMoment, usePart } from '../store/use.tsx';
import { useSending } from './acts.ts';
import { useReachable } from './reachable.ts';
import { shelfEnds, shelfTrouble, type Until } from './shelving.ts';
import { useWhoSaid } from './who.ts';

const said = words.screen.notices;
const WORDS_MOST = 200;
const FIRST: Until = 'twoHours';
const SHELF = { until: FIRST as string, moment: '', why: '' };
/** Handed over to somebody whom notices reach. */
export function HandOver({
  notice: { id, owner },
  acted,
}: {
  readonly notice: NoticeView;
  readonly acted: () => void;
}) {
  const enter = useEnter();
  const [to, choose] = useState('');
  const others = useReachable(owner).people;
  return (
    <details>
      <summary>{said.hand.title}</summary>
      {others.length === 0 ? (
        <p className="second">{said.hand.nobody}</p>
      ) : (
        <form
          className="typed-line"
          onSubmit={(event) => {
            event.preventDefault();
            const person = to === '' ? others[0] : to;
            if (person === undefined) return;
            enter({ kind: 'noticeHanded', notice: id, to: person });
            acted();
          }}
        >
          <label>
            <span>{said.hand.to}</span>
            <select value={to} onChange={(event) => choose(event.target.value)}>
              {others.map((person) => (
                <option key={person}>{person}</option>
              ))}
            </select>
          </label>
          <button type="submit" className="btn plain">
            {said.hand.button}
          </button>
        </form>
      )}
      <NeedsLogIn act="handNotice" />
    </details>
  );
}

/** Put aside, always with an end and a reason; and taken back before that. */
export function Shelve({ notice, acted }: { readonly notice: NoticeView; readonly acted: () => void }) {
  const sent = useSending(notice.id, 'noticeShelved');
  if (notice.shelved) return <Shelved id={notice.id} shelved={notice.shelved} acted={acted} />;
  if (sent) return null;
  return (
    <details>
      <summary>{said.shelve.title}</summary>
      <ShelveForm id={notice.id} acted={acted} />
      <NeedsLogIn act="shelveNotice" />
    </details>
  );
}

function Shelved({
  id,
  shelved,
  acted,
}: {
  readonly id: string;
  readonly acted: () => void;
  readonly shelved: NonNullable<NoticeView['shelved']>;
}) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const enter = useEnter();
  const who = useWhoSaid();
  return (
    <div>
      <p>{said.shelve.said(said.when(shelved.until, clock, zone), shelved.words, who(shelved.by))}</p>
      <button
        type="button"
        className="btn plain"
        onClick={() => {
          enter({ kind: 'noticeUnshelved', notice: id });
          acted();
        }}
      >
        {said.shelve.back}
      </button>
      <NeedsLogIn act="shelveNotice" />
    </div>
  );
}

function ShelveForm({ id, acted }: { readonly id: string; readonly acted: () => void }) {
  const { zone } = usePart('line');
  const { shift } = usePart('plan');
  const { clock } = useMoment();
  const enter = useEnter();
  const { fields, change } = useDraft((line) => shelfOf(line, id), SHELF);
  const ends = shelfEnds(clock, zone, shift?.to, fields.moment);
  const until = (Object.keys(ends) as Until[]).find((name) => name === fields.until) ?? FIRST;
  const end = ends[until];
  const trouble = end === undefined ? undefined : shelfTrouble(end, clock);
  const reason = fields.why.trim();
  const may = end !== undefined && trouble === undefined && reason !== '';
  return (
    <form
      className="shelveform"
      onSubmit={(event) => {
        event.preventDefault();
        if (!may) return;
        enter({ kind: 'noticeShelved', notice: id, until: end, words: reason });
        acted();
      }}
    >
      <label>
        <span>{said.shelve.until}</span>
        <select value={until} onChange={(event) => change({ until: event.target.value })}>
          {(Object.keys(ends) as Until[])
            .filter((name) => name === 'chosen' || ends[name] !== undefined)
            .map((name) => (
              <option key={name} value={name}>
                {said.shelve.choices[name]}
              </option>
            ))}
        </select>
      </label>
      {until === 'chosen' && (
        <label>
          <span>{said.shelve.moment}</span>
          <input
            type="datetime-local"
            value={fields.moment}
            onChange={(event) => change({ moment: event.target.value })}
          />
        </label>
      )}
      {trouble && <p>{said.shelve[trouble]}</p>}
      <label>
        <span>{said.shelve.why}</span>
        <input
          value={fields.why}
          maxLength={WORDS_MOST}
          autoComplete="off"
          onChange={(event) => change({ why: event.target.value })}
        />
      </label>
      <button type="submit" className="btn plain" disabled={!may}>
        {said.shelve.button}
      </button>
    </form>
  );
}
