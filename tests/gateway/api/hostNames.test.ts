import { once } from 'node:events';
import { get, type IncomingMessage } from 'node:http';
import { afterEach, describe, expect, it } from 'vitest';
import { knownHost } from '../../../gateway/api/hostNames.ts';
import { openSite, type Site } from './web.ts';

let site: Site | undefined;

afterEach(async () => {
  await site?.close();
  site = undefined;
});

/** Status and body of a request that names `host`. */
async function ask(address: string, host: string): Promise<{ status: number | undefined; body: unknown }> {
  const request = get(`${address}/healthz`, { headers: { host } });
  const [response] = (await once(request, 'response')) as [IncomingMessage];
  const text = (await response.setEncoding('utf8').toArray()).join('');
  return { status: response.statusCode, body: JSON.parse(text) };
}

describe('the names a gateway goes by', () => {
  const known = knownHost(['Scoreline.plant.example'], 'box7.plant.example');

  it.each([
    'localhost:8080',
    'LOCALHOST',
    '127.0.0.1:8080',
    '10.1.2.3',
    '[::1]:8080',
    'box7.plant.example:8080',
    'box7',
    'scoreline.plant.example',
    undefined,
  ])('%s is one', (host) => {
    expect(known(host)).toBe(true);
  });

  it.each([
    'elsewhere.example',
    'elsewhere.example:8080',
    'localhost.elsewhere.example',
    '127.0.0.1.elsewhere.example',
    'box7.elsewhere.example',
    '',
    'a b',
    'user@elsewhere.example',
  ])('“%s” is none', (host) => {
    expect(known(host)).toBe(false);
  });

  it('a page that let its own name point here reads nothing, and is told why', async () => {
    site = await openSite();
    expect(await ask(site.address, 'elsewhere.example')).toMatchObject({
      status: 421,
      body: { ok: false, trouble: expect.stringContaining('elsewhere.example') as string },
    });
    expect((await ask(site.address, 'scoreline.plant.example')).status).toBe(200);
  });
});
