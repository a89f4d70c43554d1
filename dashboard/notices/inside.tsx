import { useState } from 'react';
import type { RecipientSettings } from '../../model/notices/recipients.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, useMoment, usePart } from '../store/use.tsx';
import { shelfEnds, shelfTrouble, type Until } from './shelving.ts';
import { useWhoSaid } from './who.ts';

const said = words.screen.notices;
const WORDS_MOST = 200;
/** Who is told seldom changes. */
const ASK_MS = 60_000;

interface HandedTo {
  readonly settings: { readonly who: RecipientSettings };
  readonly shutOff: readonly string[];
}

/** Handed over to somebody whom notices reach. */
export function HandOver({ notice: { id, owner } }: { readonly notice: NoticeView }) {
  const line = usePart('line').id;
  const enter = useEnter();
  const [to, choose] = useState('');
  const asked = useAsked<HandedTo>(`/api/lines/${encodeURIComponent(line)}/notices/settings`, ASK_MS);
  const people = asked.data?.settings.who.recipients.map(({ person }) => person) ?? [];
  // whose access has ended would never see it
  const others = people.filter((person) => person !== owner && !asked.data?.shutOff.includes(person));
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
            if (person !== undefined) enter({ kind: 'noticeHanded', notice: id, to: person });
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
export function Shelve({ notice }: { readonly notice: NoticeView }) {
  if (notice.shelved) return <Shelved id={notice.id} shelved={notice.shelved} />;
  return (
    <details>
      <summary>{said.shelve.title}</summary>
      <ShelveForm id={notice.id} />
      <NeedsLogIn act="shelveNotice" />
    </details>
  );
}

function Shelved({
  id,
  shelved,
}: {
  readonly id: string;
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
        onClick={() => enter({ kind: 'noticeUnshelved', notice: id })}
      >
        {said.shelve.back}
      </button>
      <NeedsLogIn act="shelveNotice" />
    </div>
  );
}

function ShelveForm({ id }: { readonly id: string }) {
  const { zone } = usePart('line');
  const { shift } = usePart('plan');
  const { clock } = useMoment();
  const enter = useEnter();
  const [until, choose] = useState<Until>('twoHours');
  const [typed, type] = useState('');
  const [moment, pick] = useState('');
  const ends = shelfEnds(clock, zone, shift?.to, moment);
  const end = ends[until];
  const trouble = end === undefined ? undefined : shelfTrouble(end, clock);
  const reason = typed.trim();
  const may = end !== undefined && trouble === undefined && reason !== '';
  return (
    <form
      className="shelveform"
      onSubmit={(event) => {
        event.preventDefault();
        if (may) enter({ kind: 'noticeShelved', notice: id, until: end, words: reason });
      }}
    >
      <label>
        <span>{said.shelve.until}</span>
        <select value={until} onChange={(event) => choose(event.target.value as Until)}>
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
          <input type="datetime-local" value={moment} onChange={(event) => pick(event.target.value)} />
        </label>
      )}
      {trouble && <p>{said.shelve[trouble]}</p>}
      <label>
        <span>{said.shelve.why}</span>
        <input
          value={typed}
          maxLength={WORDS_MOST}
          autoComplete="off"
          onChange={(event) => type(event.target.value)}
        />
      </label>
      <button type="submit" className="btn plain" disabled={!may}>
        {said.shelve.button}
      </button>
    </form>
  );
}
