import { io, type Socket } from 'socket.io-client';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { ClientToServer, ServerToClient } from '../../../model/view/protocol.ts';
import { type PeopleSite, peopleSite } from '../people/peopleSite.ts';

/** An open page of whoever has the cookie, connected. */
async function page({ address }: PeopleSite, cookie = ''): Promise<Socket<ServerToClient, ClientToServer>> {
  const socket: Socket<ServerToClient, ClientToServer> = io(address, {
    transports: ['websocket'],
    extraHeaders: cookie === '' ? {} : { cookie },
    reconnection: false,
  });
  onTestFinished(() => void socket.disconnect());
  await new Promise<void>((resolve) => socket.on('connect', resolve));
  return socket;
}

const open = (site: PeopleSite, person: string) =>
  expect.poll(() => site.pages.isOpenFor(person), { timeout: 60_000 });

describe('a page that sounds', () => {
  it('is a way to whoever is logged in there, as long as it is open and sounds', async () => {
    const site = await peopleSite();
    const cookie = await site.person('12', ['maintenance']);
    const one = await page(site, cookie);
    expect(site.pages.isOpenFor('12')).toBe(false);
    one.emit('sounds', { on: true });
    await open(site, '12').toBe(true);
    expect(site.pages.isOpenFor('13')).toBe(false);
    one.emit('sounds', { on: false });
    await open(site, '12').toBe(false);
    one.emit('sounds', { on: true });
    await open(site, '12').toBe(true);
    one.disconnect();
    await open(site, '12').toBe(false);
  });

  it('is a way to nobody without a log-in, and once that has ended', async () => {
    const site = await peopleSite();
    const cookie = await site.person('12', ['maintenance']);
    const [nobody, logged] = [await page(site), await page(site, cookie)];
    nobody.emit('sounds', { on: true });
    logged.emit('sounds', { on: true });
    await open(site, '12').toBe(true);
    await site.ask('DELETE', '/api/session', undefined, { cookie });
    await open(site, '12').toBe(false);
  });

  it('takes what is no message of ours for silence', async () => {
    const site = await peopleSite();
    const one = await page(site, await site.person('12', ['maintenance']));
    for (const odd of [undefined, null, 'on', { on: 'yes' }, [true]]) one.emit('sounds', odd as never);
    one.emit('sounds', { on: true });
    await open(site, '12').toBe(true);
    one.emit('sounds', null as never);
    await open(site, '12').toBe(false);
  });
});
