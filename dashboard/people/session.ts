import { useEffect, useSyncExternalStore } from 'react';
import type { Act, Role, SecretKind } from '../../model/access/access.ts';
import type { Author } from '../../model/entries/entries.ts';
import { words } from '../app/words.ts';

/** Who is logged in on this screen, as the gateway tells it. */
export interface Session {
  readonly person: {
    readonly number: string;
    readonly name: string | null;
    readonly roles: readonly Role[];
    readonly allRoles: readonly Role[];
    readonly by: SecretKind;
    readonly mustChoose: boolean;
    readonly until: number;
  } | null;
  /** Whether anybody has a number here. */
  readonly people: boolean;
  readonly may: readonly Act[];
}

/** How often it is asked whether the log-in goes on, while somebody is logged in; and told, that somebody is there. */
const ASK_MS = 30_000;
const HERE_MS = 60_000;
const HERE = '/api/session/here';

let session: Session | undefined;
let asked = false;
const listeners = new Set<() => void>();
/** Told when a log-in was made, changed or ended here, whatever is known of it. */
const renewals = new Set<() => void>();

/** Undefined until the gateway has told it, and where it knows of no people. */
export function useSession(): Session | undefined {
  useEffect(() => {
    if (asked) return;
    asked = true;
    void askAgain();
    keepGoing();
  }, []);
  return useSyncExternalStore(subscribe, read, read);
}

/** The number of who is logged in; undefined for nobody, and while a secret of one's own has yet to be chosen. */
export function useOwnNumber(): string | undefined {
  const person = useSession()?.person;
  return person?.mustChoose ? undefined : person?.number;
}

/** The author of what is entered here: a panel's position whoever stands there, else who is logged in. */
export function authorNow(author: Author): Author {
  const person = session?.person;
  if (author.kind !== 'screen' || !person || person.mustChoose) return author;
  return { kind: 'person', number: person.number };
}

/** Who is logged in, also at a panel: for what bears the number of a person wherever it is entered. */
export function personNow(): Author | undefined {
  const person = session?.person;
  return person && !person.mustChoose ? { kind: 'person', number: person.number } : undefined;
}

/** Acts whenever there is another log-in from then on, or none; also one of the same person, here or in another window. */
export function whenLogInChanges(act: () => void): void {
  renewals.add(act);
  let before = logIn();
  listeners.add(() => {
    if (logIn() === before) return;
    before = logIn();
    act();
  });
}

function logIn(): string {
  const { number, until } = session?.person ?? {};
  return `${number} ${until}`;
}

/** Sends something about people; undefined once it is done, else why it is not, in words. The session is asked anew. */
export async function send(
  method: 'POST' | 'PUT' | 'PATCH' | 'DELETE',
  path: string,
  body?: object,
): Promise<Sent> {
  try {
    const response = await fetch(path, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    const answer = (await response.json()) as { readonly code?: string; readonly said?: string } & Trouble;
    if (!response.ok) return { ok: false, why: [answer.trouble, answer.mend].filter(Boolean).join(' ') };
    if (path.startsWith('/api/session') && path !== HERE) {
      for (const act of renewals) act();
      await askAgain();
    }
    return { ok: true, code: answer.code, said: answer.said };
  } catch {
    return { ok: false, why: words.screen.people.noAnswer };
  }
}

export type Sent =
  /** `said`: what became of it, in words, where the answer says so. */
  | { readonly ok: true; readonly code: string | undefined; readonly said: string | undefined }
  | { readonly ok: false; readonly why: string };

interface Trouble {
  readonly trouble?: string;
  readonly mend?: string;
}

async function askAgain(): Promise<void> {
  try {
    const response = await fetch('/api/session');
    // a gateway without people answers that there is no such address
    tell(response.ok ? ((await response.json()) as Session) : undefined);
  } catch {
    // the gateway does not answer, which the screen says; who was logged in still is, as far as anybody knows
  }
}

/** As long as somebody is logged in: whether that goes on, and that somebody is there. */
function keepGoing(): void {
  setInterval(() => session?.person && void askAgain(), ASK_MS);
  let told = 0;
  const here = ({ timeStamp }: Event) => {
    if (!session?.person || timeStamp - told < HERE_MS) return;
    told = timeStamp;
    void send('POST', HERE);
  };
  addEventListener('pointerdown', here);
  addEventListener('keydown', here);
}

function tell(next: Session | undefined): void {
  if (JSON.stringify(next) === JSON.stringify(session)) return;
  session = next;
  for (const told of [...listeners]) told();
}

function subscribe(told: () => void): () => void {
  listeners.add(told);
  return () => void listeners.delete(told);
}

function read(): Session | undefined {
  return session;
}
