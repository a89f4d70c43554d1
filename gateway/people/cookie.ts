import type { IncomingHttpHeaders } from 'node:http';

const NAME = 'scoreline_session';
/** As `sessions.ts` makes them; what is anything else is no token, and is not looked up. */
const TOKEN = /^[\w-]{43}$/;

/** The token that a browser sends; undefined without one. Of two the first counts, as browsers put the narrower first. */
export function tokenOf({ cookie = '' }: IncomingHttpHeaders): string | undefined {
  for (const part of cookie.split(';')) {
    const [name = '', value = ''] = part.split('=');
    if (name.trim() === NAME && TOKEN.test(value.trim())) return value.trim();
  }
  return undefined;
}

/**
 * Tells a browser its token. No script can read it, no other site can have it sent, and it ends with the browser; where
 * the browser came by HTTPS, also through a proxy, it never goes out in the clear.
 */
export function setToken(token: string, secure: boolean): string {
  return cookieOf(token, secure);
}

export function dropToken(secure: boolean): string {
  return `${cookieOf('', secure)}; Max-Age=0`;
}

function cookieOf(token: string, secure: boolean): string {
  return `${NAME}=${token}; Path=/; HttpOnly; SameSite=Strict${secure ? '; Secure' : ''}`;
}
