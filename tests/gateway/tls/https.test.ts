import { once } from 'node:events';
import { type IncomingMessage, request as httpRequest } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { text as textOf } from 'node:stream/consumers';
import { connect as tlsConnect } from 'node:tls';
import { io } from 'socket.io-client';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { Web } from '../../../gateway/commands/web.ts';
import { createEntrance } from '../../../gateway/tls/entrance.ts';
import type { LineView } from '../../../model/view/view.ts';
import { line } from '../api/web.ts';
import { PASSWORD } from '../people/peopleSite.ts';
import { DAY, folder, writeGiven } from './certificates.ts';
import { encryptedSite as opened } from './encryptedSite.ts';

const portOf = ({ server }: Web) => (server.address() as AddressInfo).port;

describe('the port by HTTPS', () => {
  it('answers who trusts the certificate of its own, and nobody else takes it for ours', async () => {
    const { web, ask } = await opened();
    expect(web.address).toMatch(/^https:\/\/127\.0\.0\.1:\d+\/$/);
    const { statusCode, body } = await ask('api/encryption');
    expect([statusCode, JSON.parse(body)]).toEqual([
      200,
      { clearText: false, by: 'own', certificateUntil: expect.any(Number) as number },
    ]);
    await expect(fetch(web.address)).rejects.toThrow();
    await expect(ask('api/lines', { ca: (await opened()).certificate.current().cert })).rejects.toThrow();
  });

  it('gives a cookie that never goes out in the clear', async () => {
    const { ask, code } = await opened();
    const first = { code, number: '1', secret: PASSWORD };
    const { headers } = await ask('api/session/admin', { method: 'POST', body: first });
    expect(headers['set-cookie']).toEqual([expect.stringMatching(/HttpOnly; SameSite=Strict; Secure$/)]);
    const [cookie = ''] = headers['set-cookie']![0]!.split(';');
    const { body } = await ask('api/session', { headers: { cookie } });
    expect(JSON.parse(body)).toMatchObject({ person: { number: '1' } });
  });

  it('has browsers keep to HTTPS only where no warning can keep people out', async () => {
    const own = await (await opened()).ask('api/lines');
    expect(own.headers['strict-transport-security']).toBeUndefined();
    // a given one that is signed by its own key has to be trusted by hand as well
    const files = await writeGiven(folder(), { made: Date.now() });
    const given = await opened({ kind: 'files', ...files, proxies: [] });
    expect((await given.ask('api/lines')).headers['strict-transport-security']).toBeUndefined();
    const vouched = {
      ...given.certificate,
      current: () => ({ ...given.certificate.current(), ownSigned: false }),
    };
    const asked = { kind: 'files', ...files, proxies: [] } as const;
    expect(createEntrance(asked, vouched).strict()).toBe(true);
  });

  it('lets screens follow the line by wss', async () => {
    const { web, certificate } = await opened();
    const socket = io(web.address, { transports: ['websocket'], ca: certificate.current().cert } as object);
    onTestFinished(() => void socket.close());
    const whole = new Promise<{ view: LineView }>((resolve) => socket.on('whole', resolve));
    socket.emit('join', { line: line.id, have: undefined }, () => {});
    expect((await whole).view.line.id).toBe(line.id);
  });

  it('takes a renewed certificate over without a start, and those who are connected stay', async () => {
    const { web, certificate, clock, ask } = await opened();
    const before = certificate.current().cert;
    const socket = io(web.address, { transports: ['websocket'], ca: before } as object);
    onTestFinished(() => void socket.close());
    await new Promise<void>((resolve) => socket.on('connect', resolve));
    clock.ahead = 800 * DAY;
    await certificate.look();
    expect(certificate.current().cert).not.toBe(before);
    await expect(ask('api/encryption', { ca: before })).rejects.toThrow();
    const { body } = await ask('api/encryption', { ca: before + certificate.current().cert }).catch(() => ({
      body: 'not good yet by the real clock',
    }));
    expect(body).toBe('not good yet by the real clock');
    const shown = tlsConnect({ port: portOf(web), host: '127.0.0.1', rejectUnauthorized: false });
    await once(shown, 'secureConnect');
    expect(shown.getPeerX509Certificate()?.toString()).toBe(certificate.current().cert);
    shown.destroy();
    expect(socket.connected).toBe(true);
  });

  it('tells who comes by HTTP in a sentence to put https before it', async () => {
    const { web, ask } = await opened();
    const asking = httpRequest({ port: portOf(web), host: '127.0.0.1', path: '/api/lines' });
    asking.end();
    const [answer] = (await once(asking, 'response')) as [IncomingMessage];
    expect([answer.statusCode, await textOf(answer)]).toEqual([
      400,
      'Scoreline is reached by HTTPS here: put https:// before the address.\n',
    ]);
    expect((await ask('api/lines')).statusCode).toBe(200);
  });

  it.each([
    ['nothing, and goes', ''],
    ['one byte of a handshake', '\x16'],
    ['a handshake that is none', `\x16\x03\x01\x00\x05hello${'x'.repeat(4000)}`],
    ['a line of mail', 'EHLO plant.example\r\n'],
    ['a mebibyte of noise', '\x00'.repeat(1024 * 1024)],
  ])('goes on after somebody sends %s', async (_what, sent) => {
    const { web, ask } = await opened();
    const socket = connect(portOf(web), '127.0.0.1');
    socket.on('error', () => {});
    await once(socket, 'connect');
    socket.resume().end(sent, 'latin1');
    await once(socket, 'close');
    expect((await ask('api/lines')).statusCode).toBe(200);
  });

  it('refuses what came before TLS 1.2', async () => {
    const { web } = await opened();
    const attempt = (version: 'TLSv1.1' | 'TLSv1.2') =>
      new Promise((resolve) => {
        const socket = tlsConnect({
          ...{ port: portOf(web), host: '127.0.0.1', rejectUnauthorized: false },
          ...{ minVersion: 'TLSv1' as const, maxVersion: version, ciphers: 'DEFAULT@SECLEVEL=0' },
        });
        socket.on('secureConnect', () => resolve(socket.getProtocol())).on('error', () => resolve('refused'));
        onTestFinished(() => void socket.destroy());
      });
    expect(await attempt('TLSv1.2')).toBe('TLSv1.2');
    expect(await attempt('TLSv1.1')).toBe('refused');
  });

  it.each([
    ['nothing', ''],
    ['half a greeting', '\x16\x03\x01\x02\x00'],
  ])('ends at once although somebody is connected who has said %s', async (_what, sent) => {
    const { web } = await opened();
    const silent = connect(portOf(web), '127.0.0.1');
    silent.on('error', () => {});
    await once(silent, 'connect');
    if (sent !== '') silent.write(sent, 'latin1');
    // it has reached the server when what came after it has
    await once(
      tlsConnect({ port: portOf(web), host: '127.0.0.1', rejectUnauthorized: false }),
      'secureConnect',
    );
    const ended = once(silent, 'close');
    await web.stop();
    await ended;
    await expect(fetch(web.address)).rejects.toThrow();
  });
});
