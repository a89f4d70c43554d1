import { once } from 'node:events';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { text as textOf } from 'node:stream/consumers';
import { onTestFinished } from 'vitest';
import type { Certificate } from './certificate.ts';

export interface Heard {
  readonly path: string;
  readonly headers: IncomingMessage['headers'];
  readonly body: string;
}

export interface HookServer {
  readonly address: string;
  readonly heard: Heard[];
}

type Act = (response: ServerResponse, heard: Heard, count: number) => void;

/** A receiver on loopback that takes everything, unless `act` does something else once it has the whole request. */
export async function hookServer(
  act: Act = (response) => response.end(),
  secure?: Certificate,
): Promise<HookServer> {
  const heard: Heard[] = [];
  const listener = async (request: IncomingMessage, response: ServerResponse) => {
    const body = await textOf(request);
    const one = { path: request.url ?? '', headers: request.headers, body };
    heard.push(one);
    act(response, one, heard.length);
  };
  const server = secure ? createSecureServer(secure, listener) : createServer(listener);
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(async () => {
    server.closeAllConnections();
    await new Promise<void>((resolve) => server.close(() => resolve()));
  });
  const { port } = server.address() as AddressInfo;
  return { address: `${secure ? 'https' : 'http'}://127.0.0.1:${port}/calls`, heard };
}
