import { createServer } from 'node:http';
import { once } from 'node:events';
import { afterEach, describe, expect, it } from 'vitest';
import { isLoopback, listen, type Web } from '../../../gateway/commands/web.ts';
import { LineError } from '../../../model/trouble/trouble.ts';

const opened: Web[] = [];
afterEach(async () => {
  for (const web of opened.splice(0)) await web.stop();
});

async function open(port: number, host: string): Promise<Web> {
  const web = await listen((_request, response) => void response.end('here'), port, host);
  opened.push(web);
  return web;
}

async function refusal(port: number, host: string): Promise<LineError> {
  const error: unknown = await open(port, host).then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (!(error instanceof LineError)) throw new Error(`not refused with words: ${String(error)}`);
  return error;
}

describe('the port of the screens', () => {
  it('gives the address that it really has', async () => {
    const { address } = await open(0, '127.0.0.1');
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(await (await fetch(address)).text()).toBe('here');
  });

  it('that is taken is said so, and the one who has it goes on', async () => {
    const { address } = await open(0, '127.0.0.1');
    const port = Number(new URL(address).port);
    const { message, why, mend } = await refusal(port, '127.0.0.1');
    expect(message).toBe(`Port ${port} on 127.0.0.1 is taken.`);
    expect([why, mend]).toEqual([
      'Another program, or another Scoreline, listens there.',
      'End it, or choose another with --port N.',
    ]);
    expect((await fetch(address)).status).toBe(200);
  });

  it('on an address that is not of this machine is refused with words', async () => {
    // 192.0.2.0/24 is set aside for documentation (RFC 5737): no machine has an address of it
    const { message, why, mend } = await refusal(0, '192.0.2.1');
    expect(why).toBe('This machine does not have that address.');
    expect(message).toBe('Port 0 on 192.0.2.1 cannot be opened.');
    expect(mend).toContain('--host');
  });

  it('closes although somebody holds a connection open, and a second time', async () => {
    const web = await open(0, '127.0.0.1');
    const answer = await fetch(web.address, { headers: { connection: 'keep-alive' } });
    await answer.text();
    await web.stop();
    await web.stop();
    await expect(fetch(web.address)).rejects.toThrow();
    const again = createServer();
    again.listen(Number(new URL(web.address).port), '127.0.0.1');
    await once(again, 'listening');
    again.close();
  });

  it.each([
    ['127.0.0.1', true],
    ['127.8.9.10', true],
    ['localhost', true],
    ['::1', true],
    ['0.0.0.0', false],
    ['::', false],
    ['127.0.0.1.example', false],
    ['192.0.2.1', false],
  ])('on %s is of this machine alone: %s', (host, alone) => {
    expect(isLoopback(host)).toBe(alone);
  });
});
