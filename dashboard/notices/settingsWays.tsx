import type { Reach } from '../../model/notices/reach.ts';
import { words } from '../app/words.ts';

const said = words.screen.noticeWho.ways;

/** By which ways notices can go out, as the gateway tells it: no password, and no address of a person. */
export interface WaysTold {
  readonly running: boolean;
  readonly mail: {
    readonly host: string;
    readonly port: number;
    readonly security: 'tls' | 'startTls' | 'none';
  } | null;
  readonly webhooks: readonly { readonly id: string; readonly origin: string }[];
  readonly push: object | null;
  readonly reach: Reach;
  readonly faults: readonly WaysFaultTold[];
}

/** What is wrong in the file of ways, at which place. */
interface WaysFaultTold {
  readonly line: number;
  readonly column: number;
  readonly ways: readonly string[];
  readonly what: string;
  readonly why: string;
  readonly mend: string;
}

/** Ways that can be chosen for somebody; an open page always is one. */
export function waysIn(ways: WaysTold | undefined): readonly string[] {
  if (ways === undefined) return ['page'];
  const { mail, webhooks, push } = ways;
  return ['page', ...(mail ? ['mail'] : []), ...webhooks.map(({ id }) => id), ...(push ? ['push'] : [])];
}

/** The ways there are; they are set up in a file, and not here. */
export function Ways({ ways }: { readonly ways: WaysTold | undefined }) {
  if (ways === undefined) return null;
  const { running, mail, webhooks, push, reach, faults } = ways;
  return (
    <section className="sheet ways" aria-labelledby="ways">
      <h2 id="ways">{said.title}</h2>
      <p className="second">{running ? said.about : said.none}</p>
      {faults.length > 0 && <Faults faults={faults} />}
      <ul>
        <li>{said.page}</li>
        {running && (
          <li>
            {mail
              ? `${said.mail(mail.host, mail.port, reach.mail.length)} ${said.security[mail.security]}`
              : said.noMail}
          </li>
        )}
        {webhooks.map(({ id, origin }) => (
          <li key={id}>{said.webhook(id, origin)}</li>
        ))}
        {running && webhooks.length === 0 && <li>{said.noWebhook}</li>}
        {running && <li>{push ? said.push : said.noPush}</li>}
      </ul>
    </section>
  );
}

function Faults({ faults }: { readonly faults: readonly WaysFaultTold[] }) {
  return (
    <ul className="waysfaults" aria-label={said.faults}>
      {faults.map(({ line, column, what, why, mend }) => (
        <li key={`${line} ${column} ${what} ${why}`} className="unreached">
          <b>
            {said.faultAt(line, column)} {what}
          </b>{' '}
          {why} {mend}
        </li>
      ))}
    </ul>
  );
}
