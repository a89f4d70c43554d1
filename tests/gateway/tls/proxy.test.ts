import { once } from 'node:events';
import { type IncomingMessage, request as httpRequest } from 'node:http';
import { createServer, request as httpsRequest } from 'node:https';
import { type AddressInfo, connect } from 'node:net';
import { text as textOf } from 'node:stream/consumers';
import { io } from 'socket.io-client';
import { describe, expect, it, onTestFinished } from 'vitest';
import { createEntrance } from '../../../gateway/tls/entrance.ts';
import type { LineView } from '../../../model/view/view.ts';
import { line } from '../api/web.ts';
import { certificateFor } from '../notices/certificate.ts';
import { PASSWORD, type PeopleSite, peopleSite } from '../people/peopleSite.ts';

/** Linux has all of 127.0.0.0/8 on this machine: the proxy asks from an address that nobody else asks from. */
const PROXY = '127.0.0.2';
const SCREEN = '127.0.0.3';
const certificate = certificateFor('127.0.0.1');

/** A proxy with HTTPS as a plant would have one: it keeps Host, and says for whom it asks. */
async function proxyBefore(site: PeopleSite): Promise<string> {
  const port = Number(new URL(site.address).port);
  const told = (request: IncomingMessage) => ({
    ...request.headers,
    'x-forwarded-for': [request.headers['x-forwarded-for'], request.socket.remoteAddress]
      .filter(Boolean)
      .join(', '),
    'x-forwarded-proto': 'https',
  });
  const server = createServer(certificate, (request, response) => {
    const { method, url: path } = request;
    const asking = httpRequest({
      ...{ host: '127.0.0.1', port, localAddress: PROXY, method, path, headers: told(request) },
    });
    asking.on('response', (answer) => {
      response.writeHead(answer.statusCode ?? 500, answer.headers);
      answer.pipe(response);
    });
    asking.on('error', () => response.destroy());
    request.pipe(asking);
  });
  server.on('upgrade', (request, socket, head: Buffer) => {
    const to = connect({ host: '127.0.0.1', port, localAddress: PROXY });
    const lines = Object.entries(told(request)).map(([name, value]) => `${name}: ${String(value)}`);
    to.write([`${request.method} ${request.url} HTTP/1.1`, ...lines, '', ''].join('\r\n'));
    to.write(head);
    to.pipe(socket).pipe(to);
    to.on('error', () => socket.destroy());
    socket.on('error', () => to.destroy());
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(async () => {
    server.closeAllConnections();
    await new Promise<void>((resolve) => server.close(() => resolve()));
  });
  return `https://127.0.0.1:${(server.address() as AddressInfo).port}`;
}

const entrance = createEntrance({ kind: 'proxy', proxies: [PROXY], clearText: false }, undefined);

async function ask(address: string, body: object, headers: Record<string, string> = {}) {
  const asking = httpsRequest(`${address}/api/session`, {
    ...{ method: 'POST', agent: false as const, ca: certificate.cert, localAddress: SCREEN },
    headers: { 'content-type': 'application/json', ...headers },
  });
  asking.end(JSON.stringify(body));
  const [answer] = (await once(asking, 'response')) as [IncomingMessage];
  await textOf(answer);
  return { status: answer.statusCode, cookie: answer.headers['set-cookie']?.[0] ?? '' };
}

describe('behind a proxy', () => {
  it('people log in by HTTPS, and screens follow the line by wss', async () => {
    const site = await peopleSite({ entrance });
    await site.admin();
    const address = await proxyBefore(site);
    const { status, cookie } = await ask(address, { number: '1', secret: PASSWORD });
    expect([status, cookie]).toEqual([201, expect.stringMatching(/; Secure$/)]);
    const socket = io(address, { transports: ['websocket'], ca: certificate.cert } as object);
    onTestFinished(() => void socket.close());
    const whole = new Promise<{ view: LineView }>((resolve) => socket.on('whole', resolve));
    socket.emit('join', { line: line.id, have: undefined }, () => {});
    expect((await whole).view.line.id).toBe(line.id);
  });

  it('what somebody else says of the way that they came counts for nothing', async () => {
    const site = await peopleSite({ entrance });
    await site.admin();
    const spoofed = { 'x-forwarded-for': '198.51.100.4', 'x-forwarded-proto': 'https' };
    const { setCookie } = await site.ask('POST', '/api/session', { number: '1', secret: PASSWORD }, spoofed);
    expect(setCookie).toMatch(/SameSite=Strict$/);
    expect((await site.get('/api/lines', spoofed)).headers.get('strict-transport-security')).toBeNull();
    // each guess from another address, as it says: it is held off by the one that it comes from
    const statuses: number[] = [];
    for (let n = 0; n < 21; n += 1) {
      const body = { number: String(100 + n), secret: '111222' };
      const headers = { ...spoofed, 'x-forwarded-for': `198.51.100.${n}` };
      statuses.push((await site.ask('POST', '/api/session', body, headers)).status);
    }
    expect(statuses.at(-1)).toBe(429);
    // who comes by the proxy meanwhile is somebody else
    const address = await proxyBefore(site);
    const through = await ask(
      address,
      { number: '1', secret: PASSWORD },
      { 'x-forwarded-for': '198.51.100.9' },
    );
    expect(through.status).toBe(201);
  });
});
