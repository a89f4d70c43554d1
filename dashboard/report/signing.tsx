import { type FormEvent, useState } from 'react';
import { type ReportAnswer, SIGNED_AS, type SignedAs } from '../../model/report/report.ts';
import { words } from '../app/words.ts';
import { Choice } from '../past/choose.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useOwnNumber } from '../people/session.ts';

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
      {answer.signed?.report && <Since since={answer.since} />}
      <h2>{said.sign}</h2>
      {answer.now.goesOn ? (
        <p className="second">{said.running}</p>
      ) : (
        path && <Form key={path} path={path} read={answer.signed?.mark ?? answer.mark} again={again} />
      )}
    </section>
  );
}

/** What of the page is known otherwise since it was signed. */
function Since({ since }: { readonly since: ReportAnswer['since'] }) {
  const { figures, why } = since;
  return (
    <div className="since">
      <h2>{why === undefined ? said.same : said.since(since)}</h2>
      {why !== undefined && <p>{said.why[why]}</p>}
      <ul>
        {figures.map((one) => (
          <li key={one.figure} data-figure={one.figure}>
            {said.difference(one)}
          </li>
        ))}
      </ul>
    </div>
  );
}

type Sending =
  | { readonly kind: 'rest' | 'sending' | 'done' }
  | { readonly kind: 'failed'; readonly why: string };

function Form({
  path,
  read,
  again,
}: {
  readonly path: string;
  /** Mark of the page that is signed. */
  readonly read: string;
  readonly again: () => void;
}) {
  const [as, choose] = useState<SignedAs>('handsOver');
  const [sending, set] = useState<Sending>({ kind: 'rest' });
  const own = useOwnNumber();
  const [id, renew] = useState(() => crypto.randomUUID());
  const send = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = event.currentTarget;
    const field = (name: string) => String(new FormData(form).get(name) ?? '').trim();
    set({ kind: 'sending' });
    const why = await sendSignature(path, {
      id,
      read,
      person: field('person'),
      as,
      words: field('words'),
    });
    set(why === undefined ? { kind: 'done' } : { kind: 'failed', why });
    if (why !== undefined) return;
    form.reset();
    // the same id counts once: another signature is another one
    renew(crypto.randomUUID());
    again();
  };
  return (
    <form onSubmit={(event) => void send(event)}>
      <NeedsLogIn act="sign" />
      <Choice
        label={said.as}
        options={SIGNED_AS.map((one) => ({ id: one, said: said.asKinds[one] }))}
        chosen={as}
        choose={(one) => choose((one as SignedAs | undefined) ?? 'handsOver')}
      />
      <label>
        {said.person}
        <input
          key={own}
          name="person"
          defaultValue={own}
          readOnly={own !== undefined}
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
      {/* there from the beginning: what comes into it later is read out */}
      <p role="status">{sending.kind === 'done' && said.done}</p>
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
  }: {
    readonly id: string;
    readonly read: string;
    readonly person: string;
    readonly as: SignedAs;
    readonly words: string;
  },
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
