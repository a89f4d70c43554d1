import { words } from '../app/words.ts';

const said = words.screen.noticeWho.ways;

/** By which ways notices can go out, as the gateway tells it: no password, and no address of a person. */
export interface WaysTold {
  readonly running: boolean;
  readonly mail: {
    readonly host: string;
    readonly security: 'tls' | 'startTls' | 'none';
    readonly people: readonly string[];
  } | null;
  readonly webhooks: readonly { readonly id: string; readonly origin: string }[];
  readonly push: object | null;
}

/** Ways that can be chosen for somebody, and whose mail addresses are kept, where that is known. */
export interface WaysIn {
  readonly ways: readonly string[];
  readonly mailed: readonly string[] | undefined;
}

/** An open page always is one. */
export function waysIn(ways: WaysTold | undefined): WaysIn {
  if (ways === undefined) return { ways: ['page'], mailed: undefined };
  const { mail, webhooks, push } = ways;
  return {
    ways: ['page', ...(mail ? ['mail'] : []), ...webhooks.map(({ id }) => id), ...(push ? ['push'] : [])],
    mailed: mail?.people,
  };
}

/** In words; a webhook goes by the name that it has in the file of ways. */
export function wayName(way: string): string {
  return words.screen.noticeWho.recipient.wayNames[way] ?? way;
}

/** The ways there are; they are set up in a file, and not here. */
export function Ways({ ways }: { readonly ways: WaysTold | undefined }) {
  return (
    <section className="sheet waysout" aria-labelledby="waysout">
      <h2 id="waysout">{said.title}</h2>
      {ways ? <WaysList ways={ways} /> : <p className="second">{said.noAnswer}</p>}
    </section>
  );
}

function WaysList({ ways: { running, mail, webhooks, push } }: { readonly ways: WaysTold }) {
  return (
    <ul className="plainlist">
      <li>{said.page}</li>
      {!running && <li>{said.none}</li>}
      {mail && <li>{said.mail(mail.host, mail.security, mail.people.length)}</li>}
      {webhooks.map(({ id, origin }) => (
        <li key={id}>{said.hook(id, origin)}</li>
      ))}
      {push && <li>{said.push}</li>}
    </ul>
  );
}
