import { createServer } from 'node:http';
import type { AddressInfo, Socket as NetSocket } from 'node:net';
import { afterEach, expect, it } from 'vitest';
import { Server, type Socket } from 'socket.io';
import { io, type Socket as Client } from 'socket.io-client';
import { BEHIND, passOver } from '../../../gateway/live/behind.ts';
import { until } from '../intake/fixture.ts';

const ends: (() => unknown)[] = [];

afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

/** A screen whose network can be made to take nothing, and the gateway's end of it. */
async function screen(): Promise<{ there: Socket; here: Client; net: () => NetSocket; server: Server }> {
  const http = createServer();
  const server = new Server(http);
  ends.push(() => server.close());
  await new Promise<void>((resolve) => http.listen(0, '127.0.0.1', resolve));
  const connected = new Promise<Socket>((resolve) => server.on('connection', resolve));
  const here = io(`http://127.0.0.1:${(http.address() as AddressInfo).port}`, { transports: ['websocket'] });
  ends.push(() => here.disconnect());
  const there = await connected;
  const net = () => (here.io.engine.transport as unknown as { ws: { _socket: NetSocket } }).ws._socket;
  return { there, here, net, server };
}

it('a screen that takes nothing is passed over, whatever is told, and told again once it takes it', async () => {
  const { there, here, net, server } = await screen();
  const seen: number[] = [];
  here.on('parts', ({ number }: { number: number }) => void seen.push(number));
  let number = 0;
  const tell = () => {
    number += 1;
    passOver(server.sockets.sockets.values());
    server.except(BEHIND).emit('parts', { number, more: 'x'.repeat(200_000) });
  };
  tell();
  await until('the first', () => seen.length === 1);
  net().pause();
  await until('passed over', () => {
    tell();
    return there.rooms.has(BEHIND);
  });
  const waiting = () => (there.conn as unknown as { writeBuffer: unknown[] }).writeBuffer.length;
  const most = waiting();
  for (let n = 0; n < 500; n += 1) tell();
  expect(waiting()).toBe(most);
  const passed = number;
  net().resume();
  await until('taken', () => waiting() === 0);
  await until('told again', () => {
    tell();
    return (seen.at(-1) ?? 0) > passed;
  });
  // what it has seen has a hole, by which it knows that it must ask for the whole
  expect(seen.some((one, place) => place > 0 && one !== seen[place - 1]! + 1)).toBe(true);
});
