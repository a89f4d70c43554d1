import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { LineError } from '../../../model/trouble/trouble.ts';
import { openRelay, type Relay } from '../../../simulator/server/misbehaviour/relay.ts';
import { until } from './until.ts';

const CEILING = 600_000;
let server: Server;
let relay: Relay;
/** What the server heard so far. */
let heard = '';

beforeAll(async () => {
  server = createServer((socket) => {
    socket.on('error', () => undefined);
    socket.on('data', (data) => {
      heard += String(data);
      socket.write(`yes ${data}`);
    });
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  relay = await openRelay(0, '127.0.0.1');
  relay.lead((server.address() as { port: number }).port);
}, CEILING);

afterAll(async () => {
  await relay.close();
  server.close();
}, CEILING);

interface Client {
  readonly socket: Socket;
  heard: string;
  closed: boolean;
}

function call(): Client {
  const socket = connect(relay.port, '127.0.0.1');
  const client: Client = { socket, heard: '', closed: false };
  socket.on('data', (data) => {
    client.heard += String(data);
  });
  socket.on('error', () => undefined);
  socket.on('close', () => {
    client.closed = true;
  });
  return client;
}

it(
  'passes on what comes, both ways',
  async () => {
    const client = call();
    client.socket.write('a');
    await until(() => client.heard === 'yes a');
    client.socket.destroy();
  },
  CEILING,
);

it(
  'cut, both ends see it, and nobody gets through until it is mended',
  async () => {
    const client = call();
    client.socket.write('b');
    await until(() => client.heard === 'yes b');
    relay.set({ cut: true, dark: false });
    await until(() => client.closed);
    const refused = call();
    await until(() => refused.closed);
    relay.set({ cut: false, dark: false });
    const again = call();
    again.socket.write('c');
    await until(() => again.heard === 'yes c');
    again.socket.destroy();
  },
  CEILING,
);

it(
  'dark, nothing comes through and nobody is told; afterwards it comes late',
  async () => {
    const [client, witness] = [call(), call()];
    witness.socket.write('w');
    await until(() => witness.heard === 'yes w');
    client.socket.write('d');
    await until(() => client.heard === 'yes d');
    heard = '';
    relay.set({ cut: false, dark: true });
    client.socket.write('e');
    const late = call();
    late.socket.write('f');
    witness.socket.end();
    await until(() => late.socket.readyState === 'open' && client.socket.bytesWritten === 2);
    for (let turn = 0; turn < 20; turn += 1) await new Promise((resolve) => setTimeout(resolve, 5));
    expect([heard, client.heard, client.closed, witness.closed]).toEqual(['', 'yes d', false, false]);
    relay.set({ cut: false, dark: false });
    await until(() => client.heard === 'yes dyes e' && late.heard === 'yes f' && witness.closed);
    client.socket.destroy();
    late.socket.destroy();
  },
  CEILING,
);

it(
  'what was on its way in the dark is lost with a connection that breaks',
  async () => {
    const client = call();
    client.socket.write('g');
    await until(() => client.heard === 'yes g');
    heard = '';
    relay.set({ cut: false, dark: true });
    client.socket.write('h');
    await until(() => client.socket.bytesWritten === 2);
    relay.breakAll();
    relay.set({ cut: false, dark: false });
    await until(() => client.closed);
    const next = call();
    next.socket.write('i');
    await until(() => next.heard === 'yes i');
    expect(heard).toBe('i');
    next.socket.destroy();
  },
  CEILING,
);

it(
  'a port in use is something to mend',
  async () => {
    await expect(openRelay(relay.port, '127.0.0.1')).rejects.toBeInstanceOf(LineError);
  },
  CEILING,
);
