import { onTestFinished } from 'vitest';
import { openSite, type Site } from '../api/web.ts';

export const PASSWORD = 'correct horse 9';

/** What came of a request: its status, its words, and the cookie that it set. */
export interface Answered {
  readonly status: number;
  readonly body: Record<string, unknown>;
  readonly cookie: string;
  readonly setCookie: string;
}

export interface PeopleSite extends Site {
  ask(method: string, path: string, body?: unknown, headers?: Record<string, string>): Promise<Answered>;
  /** The first admin, by the printed code: number 1. Answers the cookie. */
  admin(): Promise<string>;
  /** Somebody with a secret of their own, logged in: the cookie. */
  person(number: string, roles: readonly string[], secret?: string): Promise<string>;
}

export async function peopleSite(wish?: Parameters<typeof openSite>[0]): Promise<PeopleSite> {
  const site = await openSite(wish);
  onTestFinished(() => site.close());
  const ask: PeopleSite['ask'] = async (method, path, body, headers = {}) => {
    const response = await fetch(`${site.address}${path}`, {
      method,
      headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
      ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    });
    const setCookie = response.headers.get('set-cookie') ?? '';
    return {
      status: response.status,
      body: (await response.json()) as Record<string, unknown>,
      cookie: setCookie.split(';')[0] ?? '',
      setCookie,
    };
  };
  let first: string | undefined;
  const admin = async () => {
    const code = site.people.firstCode ?? site.people.newAdminCode();
    first ??= (await ask('POST', '/api/session/admin', { code, number: '1', secret: PASSWORD })).cookie;
    return first;
  };
  const person: PeopleSite['person'] = async (number, roles, secret = '480216') => {
    const { body } = await ask('POST', '/api/people', { number, roles }, { cookie: await admin() });
    const code = String(body.code);
    const { cookie } = await ask('POST', '/api/session', { number, secret: code });
    const own = await ask('PUT', '/api/session/secret', { secret: code, next: secret }, { cookie });
    return own.cookie;
  };
  return { ...site, ask, admin, person };
}
