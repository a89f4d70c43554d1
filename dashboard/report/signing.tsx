import { type FormEvent, useState } from 'react';
import { type ReportAnswer, SIGNED_AS, type SignedAs } from '../../model/report/report.ts';
import { words } from '../app/words.ts';
import { Choice } from '../past/choose.tsx';

const said = words.screen.past.report.signed;

/** What is known otherwise since it was signed, and a signature of one's own. */
export function Signing({
  answer,
  path,
  again,
}: {
  readonly answer: ReportAnswer;
  readonly path: string | undefined;
  readonly again: () => void;
}) {
  return (
    <section className="sheet signing noprint">
      {answer.signed && (
        <div className="since">
          <h2>{answer.since.length === 0 ? said.same : said.since(answer.since.length)}</h2>
          <ul>
            {answer.since.map((one) => (
              <li key={one.figure} data-figure={one.figure}>
                {said.difference(one)}
              </li>
            ))}
          </ul>
        </div>
      )}
      <h2>{said.sign}</h2>
      {answer.now.goesOn ? (
        <p className="second">{said.running}</p>
      ) : (
        path && <Form path={path} again={again} />
      )}
    </section>
  );
}

type Sending = { readonly kind: 'rest' | 'sending' } | { readonly kind: 'failed'; readonly why: string };

function Form({ path, again }: { readonly path: string; readonly again: () => void }) {
  const [as, choose] = useState<SignedAs>('handsOver');
  const [sending, set] = useState<Sending>({ kind: 'rest' });
  const [id, renew] = useState(() => crypto.randomUUID());
  const send = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = event.currentTarget;
    const field = (name: string) => String(new FormData(form).get(name) ?? '').trim();
    set({ kind: 'sending' });
    const why = await sendSignature(path, { id, person: field('person'), as, words: field('words') });
    set(why === undefined ? { kind: 'rest' } : { kind: 'failed', why });
    if (why !== undefined) return;
    form.reset();
    // the same id counts once: another signature is another one
    renew(crypto.randomUUID());
    again();
  };
  return (
    <form onSubmit={(event) => void send(event)}>
      <Choice
        label={said.as}
        options={SIGNED_AS.map((one) => ({ id: one, said: said.asKinds[one] }))}
        chosen={as}
        choose={(one) => choose((one as SignedAs | undefined) ?? 'handsOver')}
      />
      <label>
        {said.person}
        <input
          name="person"
          required
          maxLength={20}
          pattern="[\w.\/\-]*\d[\w.\/\-]*"
          title={said.personWhy}
        />
        <small>{said.personWhy}</small>
      </label>
      <label>
        {said.words}
        <textarea name="words" maxLength={500} rows={2} />
      </label>
      <button type="submit" className="btn" disabled={sending.kind === 'sending'}>
        {sending.kind === 'sending' ? said.sending : said.send}
      </button>
      {sending.kind === 'failed' && (
        <p role="alert">
          <b>{sending.why}</b>
        </p>
      )}
    </form>
  );
}

/** Undefined once it is on the tape; else why it is not, in words. */
async function sendSignature(
  path: string,
  {
    words: text,
    ...rest
  }: { readonly id: string; readonly person: string; readonly as: SignedAs; readonly words: string },
): Promise<string | undefined> {
  try {
    const response = await fetch(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(text === '' ? rest : { ...rest, words: text }),
    });
    if (response.ok) return undefined;
    const { trouble } = (await response.json()) as { readonly trouble?: string };
    return said.refused(trouble ?? String(response.status));
  } catch {
    return said.noAnswer;
  }
}
