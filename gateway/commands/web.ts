import { once } from 'node:events';
import { createServer, type RequestListener, type Server } from 'node:http';
import { createServer as createTlsServer, type Server as TlsServer } from 'node:https';
import type { AddressInfo, Socket } from 'node:net';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Secure } from '../tls/tls.ts';

const words = wordsIn('en').gateway;

export interface Web {
  readonly server: Server;
  readonly address: string;
  /** Another certificate from now on, for connections that are made from now on. Only where there was one. */
  renew(secure: Secure): void;
  stop(): Promise<void>;
}

/** Whether an address reaches this machine alone. */
export function isLoopback(host: string): boolean {
  return host === 'localhost' || host === '::1' || /^127\.\d+\.\d+\.\d+$/.test(host);
}

/** Opens the port for the screens; with a key and certificate it speaks HTTPS, and nothing else. */
export async function listen(
  handler: RequestListener,
  port: number,
  host: string,
  secure?: Secure,
): Promise<Web> {
  const begun = new Set<Socket>();
  const encrypted = secure && onlyTls(createTlsServer(contextOf(secure), handler), begun);
  const server = encrypted ?? createServer(handler);
  server.requestTimeout = 30_000;
  server.headersTimeout = 10_000;
  server.maxConnections = 2000;
  server.listen(port, host);
  try {
    await once(server, 'listening');
  } catch (error) {
    throw listenTrouble(error as NodeJS.ErrnoException, port, host);
  }
  const { port: opened } = server.address() as AddressInfo;
  const name = host === '0.0.0.0' || host === '::' ? 'localhost' : host;
  return {
    server,
    address: `http${secure ? 's' : ''}://${name.includes(':') ? `[${name}]` : name}:${opened}/`,
    renew: (next) => encrypted?.setSecureContext(contextOf(next)),
    stop: () => close(server, begun),
  };
}

/** What came before TLS 1.2 can be broken (RFC 8996). */
const ENCRYPTION = { minVersion: 'TLSv1.2', handshakeTimeout: 10_000 } as const;

function contextOf({ key, cert }: Secure) {
  return { key, cert, ...ENCRYPTION };
}

/** The first byte of whoever speaks TLS: a record of the handshake (RFC 8446, 5.1). */
const HANDSHAKE = 0x16;

/**
 * A person who leaves out https:// gets a short answer in words, where otherwise a browser would only say that the
 * connection broke. The rest of what was sent is not read. `begun`: who is connected, as long as that lasts.
 */
function onlyTls(server: TlsServer, begun: Set<Socket>): TlsServer {
  const speak = server.listeners('connection');
  server.removeAllListeners('connection');
  server.on('connection', (socket: Socket) => {
    begun.add(socket);
    socket.once('close', () => begun.delete(socket));
    const drop = () => void socket.destroy();
    socket.setTimeout(ENCRYPTION.handshakeTimeout, drop);
    socket.once('error', drop);
    socket.once('readable', () => {
      const first = socket.read(1) as Buffer | null;
      if (first === null) return drop();
      if (first[0] !== HANDSHAKE) return void socket.end(plainAnswer(), drop);
      socket.setTimeout(0);
      socket.off('timeout', drop).off('error', drop);
      socket.unshift(first);
      for (const begin of speak) begin.call(server, socket);
    });
  });
  // somebody who does not trust the certificate, or speaks no TLS after all: nothing that the gateway has to do with
  server.on('tlsClientError', (_error, socket) => void socket.destroy());
  return server;
}

function plainAnswer(): string {
  const body = `${words.tls.plainHere}\n`;
  const head = ['HTTP/1.1 400 Bad Request', 'Content-Type: text/plain; charset=utf-8', 'Connection: close'];
  return [...head, `Content-Length: ${Buffer.byteLength(body)}`, '', body].join('\r\n');
}

function listenTrouble(error: NodeJS.ErrnoException, port: number, host: string): Error {
  if (error.code === 'EADDRINUSE') {
    return new LineError(words.portTaken(port, host), { why: words.portTakenWhy, mend: words.portTakenMend });
  }
  return new LineError(words.portRefused(port, host), {
    why: words.system.why(error.code),
    mend: words.portRefusedMend,
  });
}

/** `begun`: connections that the server does not count as its own until their handshake is through. */
async function close(server: Server, begun: ReadonlySet<Socket>): Promise<void> {
  server.closeAllConnections();
  for (const socket of begun) socket.destroy();
  if (!server.listening) return;
  const closed = once(server, 'close');
  server.close();
  await closed;
}
