import { createECDH, createPublicKey, randomBytes, verify } from 'node:crypto';
import { once } from 'node:events';
import type { IncomingHttpHeaders, ServerResponse } from 'node:http';
import { createServer } from 'node:https';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import { buffer } from 'node:stream/consumers';
import { onTestFinished } from 'vitest';
import type { Subscription } from '../../../gateway/people/subscriptions.ts';
import { certificateFor } from './certificate.ts';

// the library that decrypts comes with the one that encrypts, and has no types
const ece = createRequire(import.meta.url)('http_ece') as {
  decrypt(body: Buffer, keys: object): Buffer;
};

/** What a push service gets. */
export interface Pushed {
  readonly path: string;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

/** A browser's side of a subscription: it alone can read what comes. */
export interface PushBrowser {
  readonly subscription: Subscription;
  read(pushed: Pushed): unknown;
}

export interface PushReceiver {
  readonly pushed: Pushed[];
  readonly cert: string;
  readonly origin: string;
  browser(name: string): PushBrowser;
}

const certificate = certificateFor('localhost');

/** A push service on loopback that takes everything (RFC 8030), unless `act` does something else. */
export async function pushReceiver(
  act: (response: ServerResponse, pushed: Pushed) => void = (response) => void response.writeHead(201).end(),
): Promise<PushReceiver> {
  const pushed: Pushed[] = [];
  const server = createServer(certificate, async (request, response) => {
    const one = { path: request.url ?? '', headers: request.headers, body: await buffer(request) };
    pushed.push(one);
    act(response, one);
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(async () => {
    server.closeAllConnections();
    await new Promise<void>((resolve) => server.close(() => resolve()));
  });
  const origin = `https://localhost:${(server.address() as AddressInfo).port}`;
  return { pushed, cert: certificate.cert, origin, browser: (name) => browserAt(`${origin}/send/${name}`) };
}

export function browserAt(endpoint: string): PushBrowser {
  const keys = createECDH('prime256v1');
  const p256dh = keys.generateKeys('base64url');
  const auth = randomBytes(16).toString('base64url');
  return {
    subscription: { endpoint, p256dh, auth },
    read: ({ headers, body }) => {
      const version = headers['content-encoding'];
      const clear = ece.decrypt(body, { version, privateKey: keys, authSecret: auth });
      return JSON.parse(clear.toString()) as unknown;
    },
  };
}

/** What the gateway says of itself in a request, once its signature is checked (RFC 8292): claims, and its public key. */
export function vouched({ headers }: Pushed): {
  readonly claims: Record<string, unknown>;
  readonly key: string;
} {
  const [, token = '', key = ''] = /^vapid t=([\w.-]+), ?k=([\w-]+)$/.exec(headers.authorization ?? '') ?? [];
  const [head = '', body = '', signature = ''] = token.split('.');
  const point = Buffer.from(key, 'base64url');
  const jwk = {
    ...{ kty: 'EC', crv: 'P-256' },
    ...{ x: point.subarray(1, 33).toString('base64url'), y: point.subarray(33).toString('base64url') },
  };
  const good = verify(
    'sha256',
    Buffer.from(`${head}.${body}`),
    { key: createPublicKey({ key: jwk, format: 'jwk' }), dsaEncoding: 'ieee-p1363' },
    Buffer.from(signature, 'base64url'),
  );
  if (!good) throw new Error('the signature does not fit');
  return { claims: JSON.parse(Buffer.from(body, 'base64url').toString()) as Record<string, unknown>, key };
}
