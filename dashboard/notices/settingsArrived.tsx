import { useState } from 'react';
import { ColumnHeads } from '../app/columnHeads.tsx';
import { words } from '../app/words.ts';
import { useAsked } from '../past/asked.ts';
import { send } from '../people/session.ts';
import { usePart } from '../store/use.tsx';

const said = words.screen.noticeWho.arrived;
const AGAIN_MS = 10_000;
/** So many of the newest that were taken back are listed. */
const TAKEN_BACK = 20;

interface OutboxTold {
  readonly running: boolean;
  readonly counts: { readonly waiting: number; readonly sending: number; readonly dead: number };
  readonly letters: readonly LetterTold[];
}

/** A notice that was to go to one person, and was given up or taken back. */
interface LetterTold {
  readonly id: string;
  readonly notice: string;
  readonly what: string;
  readonly raisedAt: number;
  readonly person: string;
  readonly way: string;
  readonly tries: number;
  readonly why: { readonly words: string } | null;
  /** What became of the notice, where it was taken back before it went out. */
  readonly withdrawn: { readonly words: string } | null;
}

/** What was given up on its way, with why; each can be tried once more. */
export function NotArrived({ may }: { readonly may: boolean }) {
  const outbox = useAsked<OutboxTold>('/api/notices/outbox?state=dead', AGAIN_MS);
  const [told, tell] = useState<string>();
  if (!outbox.data?.running) return null;
  const { counts, letters } = outbox.data;
  return (
    <section className="sheet arrived" aria-labelledby="arrived">
      <h2 id="arrived">{said.title}</h2>
      <p className="second">
        {letters.length === 0 && said.none} {said.waiting(counts.waiting + counts.sending)}
      </p>
      {letters.length > 0 && (
        <div className="scrolls">
          <table>
            <ColumnHeads columns={said.columns} keyed />
            <tbody>
              {letters.map((letter) => (
                <Letter key={letter.id} letter={letter} may={may} again={outbox.again} tell={tell} />
              ))}
            </tbody>
          </table>
        </div>
      )}
      {told !== undefined && <p role="status">{told}</p>}
    </section>
  );
}

/** The newest that were taken back before they went out: somebody had taken the notice, or it was over. */
export function TakenBack() {
  const { zone } = usePart('line');
  const outbox = useAsked<OutboxTold>(`/api/notices/outbox?state=withdrawn&most=${TAKEN_BACK}`, AGAIN_MS);
  const letters = outbox.data?.letters ?? [];
  if (letters.length === 0) return null;
  return (
    <section className="sheet arrived" aria-labelledby="taken-back">
      <h2 id="taken-back">{said.takenBack.title}</h2>
      <p className="second">{said.takenBack.about(letters.length)}</p>
      <div className="scrolls">
        <table>
          <ColumnHeads columns={said.columns} />
          <tbody>
            {letters.map(({ id, notice, what, raisedAt, person, way, withdrawn }) => (
              <tr key={id}>
                <td>{said.raised(raisedAt, zone)}</td>
                <td>
                  <a href={`/notices/${encodeURIComponent(notice)}`}>{what}</a>
                </td>
                <td>{said.to(person, way)}</td>
                <td>{withdrawn?.words ?? said.unknown}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Letter({
  letter,
  may,
  again,
  tell,
}: {
  readonly letter: LetterTold;
  readonly may: boolean;
  readonly again: () => void;
  readonly tell: (what: string) => void;
}) {
  const { zone } = usePart('line');
  const [busy, setBusy] = useState(false);
  const tryAgain = async () => {
    setBusy(true);
    const sent = await send('POST', `/api/notices/outbox/${encodeURIComponent(letter.id)}/again`, {});
    setBusy(false);
    tell(sent.ok ? said.onItsWay : sent.why === words.screen.people.noAnswer ? said.noAnswer : sent.why);
    // what goes out again is no longer among these
    again();
  };
  const { id, notice, what, raisedAt, person, way, tries, why } = letter;
  return (
    <tr data-letter={id}>
      <td>{said.raised(raisedAt, zone)}</td>
      <td>
        <a href={`/notices/${encodeURIComponent(notice)}`}>{what}</a>
      </td>
      <td>{said.to(person, way)}</td>
      <td>
        {why?.words ?? said.unknown} <small>{said.tries(tries)}</small>
      </td>
      <td>
        {may && (
          <button type="button" className="btn plain" disabled={busy} onClick={() => void tryAgain()}>
            {said.again}
          </button>
        )}
      </td>
    </tr>
  );
}
