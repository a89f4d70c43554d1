import { useState } from 'react';
import type { RecipientSettings } from '../../model/notices/recipients.ts';
import type { EpochMs } from '../../model/units/units.ts';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useEnter, useMoment, usePart } from '../store/use.tsx';
import { useWhoSaid } from './who.ts';

const said = words.screen.notices;
const WORDS_MOST = 200;
const HOUR_MS = 3_600_000;
/** Who is told seldom changes. */
const ASK_MS = 60_000;

/** Handed over to somebody whom notices reach. */
export function HandOver({ notice: { id, owner } }: { readonly notice: NoticeView }) {
  const line = usePart('line').id;
  const enter = useEnter();
  const [to, choose] = useState('');
  const asked = useAsked<{ readonly settings: { readonly who: RecipientSettings } }>(
    `/api/lines/${encodeURIComponent(line)}/notices/settings`,
    ASK_MS,
  );
  const people = asked.data?.settings.who.recipients.map(({ person }) => person) ?? [];
  const others = people.filter((person) => person !== owner);
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

type Until = keyof typeof said.shelve.choices;

/** Put aside, always with an end and a reason; and taken back before that. */
export function Shelve({ notice: { id, shelved } }: { readonly notice: NoticeView }) {
  const { zone } = usePart('line');
  const { shift } = usePart('plan');
  const { clock } = useMoment();
  const enter = useEnter();
  const who = useWhoSaid();
  const [until, choose] = useState<Until>('twoHours');
  const [typed, type] = useState('');
  const ends: Readonly<Record<Until, number | undefined>> = {
    twoHours: clock + 2 * HOUR_MS,
    shiftEnd: shift?.to,
    tomorrow: nextSix(clock, zone),
    week: clock + 7 * 24 * HOUR_MS - HOUR_MS,
  };
  if (shelved)
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
  return (
    <details>
      <summary>{said.shelve.title}</summary>
      <form
        className="typed-line"
        onSubmit={(event) => {
          event.preventDefault();
          const end = ends[until];
          const text = typed.trim();
          if (end !== undefined && text !== '')
            enter({ kind: 'noticeShelved', notice: id, until: Math.round(end) as EpochMs, words: text });
        }}
      >
        <label>
          <span>{said.shelve.until}</span>
          <select value={until} onChange={(event) => choose(event.target.value as Until)}>
            {(Object.keys(ends) as Until[])
              .filter((name) => ends[name] !== undefined)
              .map((name) => (
                <option key={name} value={name}>
                  {said.shelve.choices[name]}
                </option>
              ))}
          </select>
        </label>
        <label>
          <span>{said.shelve.why}</span>
          <input
            value={typed}
            maxLength={WORDS_MOST}
            autoComplete="off"
            onChange={(event) => type(event.target.value)}
          />
        </label>
        <button type="submit" className="btn plain" disabled={typed.trim() === ''}>
          {said.shelve.button}
        </button>
      </form>
      <NeedsLogIn act="shelveNotice" />
    </details>
  );
}

/** The next six in the morning by the line's clocks, at least four hours away. */
function nextSix(now: number, zone: string): number {
  const hourAt = (at: number) =>
    Number(
      new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', hourCycle: 'h23' }).format(at),
    );
  const whole = Math.ceil(now / HOUR_MS) * HOUR_MS;
  for (let at = whole + 4 * HOUR_MS; at < whole + 30 * HOUR_MS; at += HOUR_MS)
    if (hourAt(at) === 6) return at;
  return whole + 24 * HOUR_MS;
}
