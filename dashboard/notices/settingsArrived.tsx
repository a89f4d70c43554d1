import { useState } from 'react';
import type { NoticeLevel } from '../../model/notices/recipients.ts';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { send } from '../people/session.ts';
import { usePart } from '../store/use.tsx';
import { wayName } from './settingsWays.tsx';

const said = words.screen.noticeWho.ways;
const AGAIN_MS = 10_000;

interface OutboxTold {
  readonly running: boolean;
  readonly counts: { readonly waiting: number; readonly told: number; readonly dead: number };
  readonly letters: readonly LetterTold[];
}

/** A notice that was to go to one person, and was given up. */
interface LetterTold {
  readonly id: string;
  readonly notice: string;
  readonly level: NoticeLevel;
  readonly what: string;
  readonly person: string;
  readonly way: string;
  readonly since: number;
  readonly why: { readonly words: string } | null;
}

/** What was given up on its way, with why; each can be tried once more. */
export function NotArrived({ may }: { readonly may: boolean }) {
  const outbox = useAsked<OutboxTold>('/api/notices/outbox?state=dead', AGAIN_MS);
  if (!outbox.data?.running) return null;
  const { counts, letters } = outbox.data;
  return (
    <section className="sheet waysout" aria-labelledby="arrived">
      <h2 id="arrived">{said.arrived}</h2>
      <p>
        {said.counts(counts.waiting, counts.told)}{' '}
        {counts.dead === 0 ? said.allArrived : said.dead(counts.dead)}
      </p>
      {letters.length > 0 && (
        <ul className="givenup">
          {letters.map((letter) => (
            <GivenUp key={letter.id} letter={letter} may={may} again={outbox.again} />
          ))}
        </ul>
      )}
    </section>
  );
}

function GivenUp({
  letter,
  may,
  again,
}: {
  readonly letter: LetterTold;
  readonly may: boolean;
  readonly again: () => void;
}) {
  const { zone } = usePart('line');
  const [why, tell] = useState<string>();
  const [busy, setBusy] = useState(false);
  const tryAgain = async () => {
    setBusy(true);
    const sent = await send('POST', `/api/notices/outbox/${encodeURIComponent(letter.id)}/again`, {});
    setBusy(false);
    tell(sent.ok ? undefined : sent.why);
    // what goes out again is no longer among these
    again();
  };
  const { id, notice, what, person, way, since } = letter;
  return (
    <li data-letter={id}>
      <p>
        <a href={`/notices/${encodeURIComponent(notice)}`}>{what}</a>
        <small>{said.to(person, wayName(way), since, zone)}</small>
        <small>{letter.why?.words ?? said.noWhy}</small>
      </p>
      {may && (
        <button type="button" className="btn plain noprint" disabled={busy} onClick={() => void tryAgain()}>
          {said.again}
        </button>
      )}
      {why !== undefined && (
        <p role="alert" className="wrong">
          {why}
        </p>
      )}
    </li>
  );
}
