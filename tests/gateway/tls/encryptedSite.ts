import { once } from 'node:events';
import type { IncomingMessage } from 'node:http';
import { request } from 'node:https';
import { text as textOf } from 'node:stream/consumers';
import { onTestFinished } from 'vitest';
import { createApi } from '../../../gateway/api/api.ts';
import { knownHost } from '../../../gateway/api/hostNames.ts';
import { listen, type Web } from '../../../gateway/commands/web.ts';
import { startSockets } from '../../../gateway/live/sockets.ts';
import { openPeople } from '../../../gateway/people/people.ts';
import { openRecords } from '../../../gateway/records/records.ts';
import { createEntrance } from '../../../gateway/tls/entrance.ts';
import { type Certificate, openCertificate, type TlsAsked } from '../../../gateway/tls/tls.ts';
import { CHEAP, line } from '../api/web.ts';
import { stand } from '../live/shell.ts';
import { folder, machine, voices } from './certificates.ts';

export interface Encrypted {
  readonly web: Web;
  readonly certificate: Certificate;
  readonly code: string;
  /** The gateway's clock is so far ahead. Milliseconds. */
  readonly clock: { ahead: number };
  ask(path: string, options?: Asking): Promise<IncomingMessage & { readonly body: string }>;
}

interface Asking {
  readonly method?: string;
  readonly body?: object;
  readonly headers?: Record<string, string>;
  /** What is trusted; the certificate in use unless said. */
  readonly ca?: string;
}

/** The web side of a small line on loopback as the start command puts it together, by HTTPS. */
export async function encryptedSite(
  asked: TlsAsked = { kind: 'own', proxies: [] },
  dashboard?: string,
): Promise<Encrypted> {
  const data = folder();
  const records = openRecords(data);
  const { live, tape } = await stand(line, { second: 21, records });
  const clock = { ahead: 0 };
  const now = () => Date.now() + clock.ahead;
  const people = openPeople(data, { now, cost: CHEAP, durable: false });
  const parts = { ...voices(), ...{ data, names: [], host: '127.0.0.1', now, machine } };
  const certificate = (await openCertificate(asked, parts)) as Certificate;
  const entrance = createEntrance(asked, certificate);
  const lines = new Map([[line.id, live]]);
  const known = knownHost([]);
  const api = createApi({
    ...{ lines, tape, now, known, entrance, people, dashboard: dashboard ?? data },
    past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} },
    signals: () => [],
    servers: () => [],
    log: { error: () => {} },
  });
  const web = await listen(api, 0, '127.0.0.1', certificate.current());
  certificate.follow(web.renew);
  const sockets = startSockets(web.server, lines, now, { known, people, entrance });
  onTestFinished(async () => {
    certificate.stop();
    await sockets.stop();
    await web.stop();
    records.close();
    people.close();
  });
  const ask: Encrypted['ask'] = async (path, { method = 'GET', body, headers = {}, ca } = {}) => {
    const asking = request(`${web.address}${path}`, {
      ...{ method, agent: false as const },
      headers: { 'content-type': 'application/json', ...headers },
      ca: ca ?? certificate.current().cert,
    });
    asking.end(body && JSON.stringify(body));
    const [answer] = (await once(asking, 'response')) as [IncomingMessage];
    return Object.assign(answer, { body: await textOf(answer) });
  };
  return { web, certificate, code: people.firstCode!, clock, ask };
}
