import { createHmac } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { webhookBody, webhookWay } from '../../../gateway/notices/ways/webhook.ts';
import type { Failed, Outcome } from '../../../gateway/notices/ways/way.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { certificateFor } from './certificate.ts';
import { hookServer } from './hookServer.ts';
import { talker } from './mailServer.ts';
import { AT, messageOf, parcel } from './parcels.ts';

const KEY = 'a key that is long enough for a test';
const ours = certificateFor('127.0.0.1');
const others = certificateFor('pager.plant.example');

interface Wish {
  readonly trusted?: string;
  readonly patienceMs?: number;
  readonly signal?: AbortSignal;
  readonly key?: () => string;
  readonly now?: number;
}

function send(
  address: string,
  { trusted, patienceMs = 60_000, signal, key = () => KEY, now = AT }: Wish = {},
) {
  const settings = { id: 'pager', address, key: { env: 'UNUSED' } };
  const parts = { settings, secret: key, now: () => now, patienceMs };
  const way = webhookWay({ ...parts, ...(trusted === undefined ? {} : { trusted }) });
  return way.send(parcel('n1', 'pager'), signal ?? new AbortController().signal);
}

const failure = (trouble: Failed['why']['trouble'], lasting: boolean, code?: string): Outcome => ({
  kind: 'failed',
  lasting,
  why: { trouble, ...(code === undefined ? {} : { code }) },
});

describe('webhook to a receiver that takes it', () => {
  it('is JSON with numbers for people, signed over its moment and its body', async () => {
    const { address, heard } = await hookServer();
    expect(await send(address)).toEqual({ kind: 'told' });
    const { path, headers, body } = heard[0]!;
    expect(path).toBe('/calls');
    expect(JSON.parse(body)).toEqual({
      id: parcel('n1', 'pager').id,
      person: '12',
      notice: 'n1',
      level: 'call',
      at: '2026-03-03T09:00:00.000Z',
      line: { id: 'line-3', name: 'Line 3' },
      station: { id: 'fold', name: 'Fold bottom flap' },
      what: messageOf('n1').what,
      text: messageOf('n1').text,
      link: messageOf('n1').link,
      round: 0,
    });
    const stamp = headers['scoreline-timestamp'];
    expect(stamp).toBe(String(AT / 1000));
    const signed = createHmac('sha256', KEY)
      .update(`${String(stamp)}.${body}`)
      .digest('hex');
    expect(headers['scoreline-signature']).toBe(`sha256=${signed}`);
    expect(headers['content-type']).toBe('application/json');
  });

  it('[RP20] bears where its moment is replayed', () => {
    const replay = 'https://line3.plant.example/replay?line=line-3&at=1';
    expect(JSON.parse(webhookBody(parcel('n1', 'pager', '12', { replay })))).toMatchObject({ replay });
  });

  it('has the same key and body each time it is sent, and a signature of its own moment', async () => {
    const { address, heard } = await hookServer();
    await send(address);
    await send(address, { now: AT + 60_000 });
    const [first, again] = heard;
    expect(first!.headers['idempotency-key']).toBe(`"${parcel('n1', 'pager').id}"`);
    expect(again!.headers['idempotency-key']).toBe(first!.headers['idempotency-key']);
    expect(again!.body).toBe(first!.body);
    expect(again!.headers['scoreline-signature']).not.toBe(first!.headers['scoreline-signature']);
  });

  it('names no station where the notice is about none', () => {
    const { station, stationName, ...message } = messageOf('n1');
    expect([station, stationName]).toEqual(['fold', 'Fold bottom flap']);
    expect(JSON.parse(webhookBody({ ...parcel('n1'), message }))).not.toHaveProperty('station');
  });

  it('goes by https where the certificate is trusted, and sends nothing where it is not', async () => {
    const { address, heard } = await hookServer(undefined, ours);
    expect(await send(address, { trusted: ours.cert })).toEqual({ kind: 'told' });
    expect(await send(address, { trusted: others.cert })).toMatchObject({
      why: { trouble: 'certificate', code: 'DEPTH_ZERO_SELF_SIGNED_CERT' },
      lasting: false,
    });
    const foreign = await hookServer(undefined, others);
    expect(await send(foreign.address, { trusted: others.cert })).toEqual(
      failure('certificate', false, 'ERR_TLS_CERT_ALTNAME_INVALID'),
    );
    expect([heard.length, foreign.heard.length]).toEqual([1, 0]);
  });

  it('is told as soon as the receiver says so, whatever becomes of the rest of its answer', async () => {
    const cut = await hookServer((response) => {
      response.writeHead(202, { 'content-length': '1000' });
      response.write('half of', () => response.destroy());
    });
    expect(await send(cut.address)).toEqual({ kind: 'told' });
    const endless = await hookServer((response) => {
      response.writeHead(200);
      const timer = setInterval(() => response.write('more '), 5);
      response.on('close', () => clearInterval(timer));
    });
    expect(await send(endless.address)).toEqual({ kind: 'told' });
  });
});

describe('webhook to a receiver that does not take it', () => {
  it.each([
    [400, 'refused', true],
    [404, 'refused', true],
    [413, 'refused', true],
    [401, 'logIn', false],
    [408, 'notNow', false],
    [429, 'notNow', false],
    [500, 'notNow', false],
    [503, 'notNow', false],
    [307, 'elsewhere', true],
  ] as const)('%i is %s; given up at once: %s', async (status, trouble, lasting) => {
    const target = await hookServer();
    const { address, heard } = await hookServer((response) => {
      response.writeHead(status, { location: target.address }).end();
    });
    expect(await send(address)).toEqual(failure(trouble, lasting, String(status)));
    expect([heard.length, target.heard.length]).toEqual([1, 0]);
  });

  it('is not tried before the receiver asks, in seconds or as a date', async () => {
    for (const [text, waitMs] of [
      ['120', 120_000],
      ['Tue, 03 Mar 2026 09:01:00 GMT', 60_000],
      ['Tue, 03 Mar 2026 08:00:00 GMT', 0],
      ['soon', undefined],
    ] as const) {
      const { address } = await hookServer((response) => {
        response.writeHead(503, { 'retry-after': text }).end();
      });
      const { waitMs: found } = (await send(address)) as Failed;
      expect(found, text).toBe(waitMs);
    }
  });

  it('is tried again where nobody listens, or the connection ends before the answer', async () => {
    expect(await send('http://127.0.0.1:1/')).toEqual(failure('notReached', false, 'ECONNREFUSED'));
    const { address } = await hookServer((response) => response.destroy());
    expect(await send(address)).toEqual(failure('closed', false));
  });

  it('is broken off when the receiver says nothing, or talks on without an end to its head', async () => {
    const silent = await hookServer(() => {});
    expect(await send(silent.address, { patienceMs: 100 })).toEqual(failure('hung', false));
    const ending = new AbortController();
    let said = 0;
    const port = await talker((socket, line) => {
      if (!line.startsWith('POST')) return;
      socket.write('HTTP/1.1 200 OK\r\n');
      const timer = setInterval(() => {
        said += 1;
        socket.write('x: y\r\n');
        if (said === 3) ending.abort();
      }, 20);
      socket.on('close', () => clearInterval(timer));
    });
    expect(await send(`http://127.0.0.1:${port}/`, { signal: ending.signal })).toEqual(
      failure('hung', false),
    );
  });

  it('is not understood by what does not speak HTTP', async () => {
    const port = await talker((socket) => void socket.write('220 mail.example ESMTP\r\n'));
    expect(await send(`http://127.0.0.1:${port}/`)).toEqual(failure('notUnderstood', false));
  });

  it('sends nothing while its key cannot be read', async () => {
    const { address, heard } = await hookServer();
    const unread = () => {
      throw new LineError('No key.', { why: 'Unset.', mend: 'Set it.' });
    };
    expect(await send(address, { key: unread })).toEqual(failure('secret', false));
    expect(heard).toEqual([]);
  });
});
