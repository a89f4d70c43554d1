import type { IncomingHttpHeaders } from 'node:http';

/** Browsers say which page asks. A page of another site may not enter anything here, nor read; programs say nothing. */
export function isOfThisSite({ origin, host }: IncomingHttpHeaders): boolean {
  if (origin === undefined) return true;
  return URL.canParse(origin) && new URL(origin).host === host;
}

/** Whether a request asks for nothing to be changed (RFC 9110, safe methods). */
export function onlyReads(method: string): boolean {
  return method === 'GET' || method === 'HEAD' || method === 'OPTIONS';
}
