import type { IncomingMessage } from 'node:http';
import { describe, expect, it } from 'vitest';
import { createEntrance, type Entrance, isNetwork, isThisMachine } from '../../../gateway/tls/entrance.ts';
import { tellWay, type TlsAsked } from '../../../gateway/tls/tls.ts';
import { PASSWORD, peopleSite } from '../people/peopleSite.ts';

type Asking = Pick<IncomingMessage, 'headers' | 'socket'>;

function from(remoteAddress: string, headers: Record<string, string> = {}, encrypted = false): Asking {
  return { headers, socket: { remoteAddress, encrypted } as unknown as IncomingMessage['socket'] };
}

function entrance(asked: TlsAsked | undefined): Entrance {
  return createEntrance(asked, undefined);
}

const behind = (...proxies: string[]) => entrance({ kind: 'proxy', proxies, clearText: false });
const HTTPS = { 'x-forwarded-proto': 'https' };

describe('the way in', () => {
  it('believes what is forwarded by the proxy, and nobody else', () => {
    const way = behind('192.0.2.1');
    const sent = { ...HTTPS, 'x-forwarded-for': '198.51.100.4' };
    expect(way.came(from('192.0.2.1', sent))).toEqual({ address: '198.51.100.4', encrypted: true });
    expect(way.came(from('::ffff:192.0.2.1', sent))).toEqual({ address: '198.51.100.4', encrypted: true });
    expect(way.came(from('192.0.2.2', sent))).toEqual({
      address: '192.0.2.2',
      encrypted: false,
      refused: 'passedBy',
    });
    expect(entrance({ kind: 'clearText' }).came(from('192.0.2.1', sent))).toEqual({
      address: '192.0.2.1',
      encrypted: false,
    });
    expect(entrance(undefined).came(from('127.0.0.1', sent))).toEqual({
      address: '127.0.0.1',
      encrypted: false,
    });
  });

  it('has its proxy on this machine unless another is said', () => {
    const sent = { ...HTTPS, 'x-forwarded-for': '198.51.100.4' };
    expect(behind().came(from('::1', sent)).address).toBe('198.51.100.4');
    expect(behind('192.0.2.0/24').came(from('192.0.2.200', sent)).address).toBe('198.51.100.4');
    expect(behind('192.0.2.1').came(from('127.0.0.1', sent))).toEqual({
      address: '127.0.0.1',
      encrypted: false,
    });
  });

  it('takes the address that the proxy put last: those before it anybody can have written', () => {
    const address = (text: string) =>
      behind('192.0.2.0/24').came(from('192.0.2.1', { ...HTTPS, 'x-forwarded-for': text })).address;
    expect(address('203.0.113.9, 198.51.100.4')).toBe('198.51.100.4');
    expect(address('198.51.100.4, 192.0.2.2')).toBe('198.51.100.4');
    expect(address('192.0.2.3, 192.0.2.2')).toBe('192.0.2.3');
    expect(address('2001:db8::4')).toBe('2001:db8::4');
    expect(address('198.51.100.4, somebody')).toBe('192.0.2.1');
    expect(address('')).toBe('192.0.2.1');
  });

  it('answers nothing that came to the proxy in clear text, or of which it does not say how it came', () => {
    for (const sent of [
      { 'x-forwarded-proto': 'http' },
      { 'x-forwarded-proto': 'https, http' },
      { 'x-forwarded-for': '198.51.100.4' },
    ])
      expect(behind().came(from('127.0.0.1', sent)).refused, JSON.stringify(sent)).toBe('cameClear');
    expect(behind('192.0.2.1').came(from('192.0.2.1')).refused).toBe('cameClear');
    expect(behind().came(from('127.0.0.1')).refused).toBeUndefined();
  });

  it('with a certificate of its own may stand behind a proxy too', () => {
    const way = entrance({ kind: 'own', proxies: ['192.0.2.1'] });
    const sent = { ...HTTPS, 'x-forwarded-for': '198.51.100.4' };
    expect(way.came(from('192.0.2.1', sent, true))).toEqual({ address: '198.51.100.4', encrypted: true });
    expect(way.came(from('192.0.2.2', sent, true))).toEqual({ address: '192.0.2.2', encrypted: true });
    const clear = { ...sent, 'x-forwarded-proto': 'http' };
    expect(way.came(from('192.0.2.1', clear, true)).refused).toBe('cameClear');
  });

  it('says that it is in clear text only where that was accepted', () => {
    const clear = (asked: TlsAsked | undefined) => entrance(asked).clearText;
    expect(clear(undefined)).toBe(false);
    expect(clear({ kind: 'clearText' })).toBe(true);
    expect(clear({ kind: 'own', proxies: [] })).toBe(false);
    expect(clear({ kind: 'proxy', proxies: [], clearText: false })).toBe(false);
    expect(clear({ kind: 'proxy', proxies: ['192.0.2.1'], clearText: true })).toBe(true);
  });

  it('is told at the start: where the proxy is, and that nothing is encrypted', () => {
    const said = (asked: TlsAsked | undefined) => {
      const told: string[] = [];
      tellWay(asked, (text) => void told.push(text));
      return told;
    };
    expect(said(undefined)).toEqual([]);
    expect(said({ kind: 'own', proxies: [] })).toEqual([]);
    expect(said({ kind: 'clearText' })).toEqual([
      'Nothing is encrypted between screens and Scoreline: every screen says so.',
    ]);
    expect(said({ kind: 'proxy', proxies: [], clearText: false })).toEqual([
      'Screens are answered by way of a proxy alone, which is at: this machine',
    ]);
    expect(said({ kind: 'proxy', proxies: ['192.0.2.1'], clearText: true })).toHaveLength(2);
  });

  it.each([
    ['192.0.2.1', true, false],
    ['192.0.2.0/24', true, false],
    ['2001:db8::/32', true, false],
    ['127.0.0.1', true, true],
    ['127.0.0.0/8', true, true],
    ['127.0.0.0/7', true, false],
    ['::1', true, true],
    ['::1/127', true, false],
    ['192.0.2.0/33', false, false],
    ['192.0.2.0/', false, false],
    ['192.0.2.0/24/8', false, false],
    ['proxy.plant.example', false, false],
    ['', false, false],
  ])('takes “%s” for a network: %s, for this machine: %s', (text, network, own) => {
    expect(isNetwork(text)).toBe(network);
    if (network) expect(isThisMachine(text)).toBe(own);
  });
});

describe('people behind a proxy', () => {
  const forwarded = (address: string, proto = 'https') => ({
    'x-forwarded-for': address,
    'x-forwarded-proto': proto,
  });

  it('get a cookie that never goes out in the clear, and are told to come by HTTPS alone', async () => {
    const site = await peopleSite({ entrance: behind() });
    const body = { code: site.people.firstCode, number: '1', secret: PASSWORD };
    const { status, setCookie } = await site.ask(
      'POST',
      '/api/session/admin',
      body,
      forwarded('198.51.100.4'),
    );
    expect(status).toBe(201);
    expect(setCookie).toMatch(/; Secure$/);
    const told = await site.get('/api/lines', forwarded('198.51.100.4'));
    expect(told.headers.get('strict-transport-security')).toBe('max-age=15552000');
    const direct = await site.get('/api/lines');
    expect([direct.status, direct.headers.get('strict-transport-security')]).toEqual([200, null]);
  });

  it('are held off each by the own address, and nobody escapes by writing another one', async () => {
    const site = await peopleSite({ entrance: behind() });
    await site.admin();
    const guess = (headers: Record<string, string>) =>
      site.ask('POST', '/api/session', { number: '77', secret: '111222' }, headers);
    const statuses: number[] = [];
    // each time another number is guessed, so that it is the address that is held off
    for (let n = 0; n < 21; n += 1) {
      const body = { number: String(100 + n), secret: '111222' };
      const { status } = await site.ask(
        'POST',
        '/api/session',
        body,
        forwarded(`203.0.113.${n}, 198.51.100.4`),
      );
      statuses.push(status);
    }
    expect(statuses.filter((status) => status === 429)).toHaveLength(1);
    expect((await guess(forwarded('198.51.100.4'))).status).toBe(429);
    expect((await guess(forwarded('198.51.100.5'))).status).toBe(403);
  });

  it('who reach past it, or came to it in clear text, are told so and get nothing', async () => {
    const site = await peopleSite({ entrance: behind('192.0.2.1') });
    const spoofed = await site.ask('GET', '/api/session', undefined, forwarded('198.51.100.4'));
    expect(spoofed.status).toBe(200); // this machine itself, whose words about others count for nothing
    const clear = await peopleSite({ entrance: behind() });
    const { status, body } = await clear.ask(
      'GET',
      '/api/lines',
      undefined,
      forwarded('198.51.100.4', 'http'),
    );
    expect([status, body.trouble]).toEqual([403, 'This came to the proxy without encryption.']);
    const socket = await clear.get('/socket.io/?EIO=4&transport=polling', forwarded('198.51.100.4', 'http'));
    expect(socket.status).toBe(403);
    const through = await clear.get('/socket.io/?EIO=4&transport=polling', forwarded('198.51.100.4'));
    expect(through.status).toBe(200);
  });

  it('learn whether a screen has to say that it is not encrypted', async () => {
    const asked = async (way: Entrance) =>
      (await (await (await peopleSite({ entrance: way })).get('/api/encryption')).json()) as unknown;
    expect(await asked(behind())).toEqual({ clearText: false, by: 'proxy', certificateUntil: null });
    expect(await asked(entrance({ kind: 'clearText' }))).toEqual({
      clearText: true,
      by: null,
      certificateUntil: null,
    });
  });
});
