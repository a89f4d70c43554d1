import { once } from 'node:events';
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway;

export interface Web {
  readonly server: Server;
  readonly address: string;
  stop(): Promise<void>;
}

/** Whether an address reaches this machine alone. */
export function isLoopback(host: string): boolean {
  return host === 'localhost' || host === '::1' || /^127\.\d+\.\d+\.\d+$/.test(host);
}

/** Opens the port for the screens. */
export async function listen(handler: RequestListener, port: number, host: string): Promise<Web> {
  const server = createServer(handler);
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
    address: `http://${name.includes(':') ? `[${name}]` : name}:${opened}/`,
    stop: () => close(server),
  };
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

async function close(server: Server): Promise<void> {
  server.closeAllConnections();
  if (!server.listening) return;
  const closed = once(server, 'close');
  server.close();
  await closed;
}
