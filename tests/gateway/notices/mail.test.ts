import { describe, expect, it } from 'vitest';
import { type MailSettings, mailWay, messageId } from '../../../gateway/notices/ways/mail.ts';
import type { Parcel } from '../../../gateway/notices/ways/way.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { certificateFor } from './certificate.ts';
import { mailServer, reply, talker, talksUntil } from './mailServer.ts';
import { messageOf, parcel } from './parcels.ts';

const PASSWORD = 'not-a-real-password';
const ours = certificateFor('127.0.0.1');
const others = certificateFor('mail.plant.example');

interface Wish extends Partial<MailSettings> {
  readonly trusted?: string;
  readonly patienceMs?: number;
  readonly parcel?: Parcel;
  readonly signal?: AbortSignal;
  readonly password?: () => string;
}

function send(port: number, wish: Wish = {}) {
  const {
    trusted,
    patienceMs = 60_000,
    password = () => PASSWORD,
    parcel: one = parcel('n1'),
    signal,
    ...more
  } = wish;
  const settings: MailSettings = {
    host: '127.0.0.1',
    port,
    security: 'none',
    from: 'line3@plant.example',
    ...more,
  };
  const way = mailWay({
    settings,
    ...(trusted === undefined ? {} : { trusted }),
    secret: password,
    addressOf: (person) => (person === '12' ? 'twelve@plant.example' : undefined),
    patienceMs,
  });
  return way.send(one, signal ?? new AbortController().signal);
}

const logIn = { user: 'line3', password: { env: 'UNUSED' } };
/** The lines of a mail's head that make it the same mail. */
const identity = (text: string) =>
  text.split('\r\n').filter((line) => /^(Message-ID|Date|Subject|To):/i.test(line));

describe('mail to a server that takes it', () => {
  it('is plain text with the catalogue’s words, to one person', async () => {
    const { port, mails } = await mailServer();
    expect(await send(port)).toEqual({ kind: 'told' });
    expect(mails).toHaveLength(1);
    const { from, to, text, encrypted } = mails[0]!;
    expect({ from, to, encrypted }).toEqual({
      from: 'line3@plant.example',
      to: ['twelve@plant.example'],
      encrypted: false,
    });
    expect(text).toContain('Subject: Call, Line 3: Fold bottom flap jams more than it used to.');
    expect(text).toMatch(/^Content-Type: text\/plain/m);
    expect(text).toContain('Auto-Submitted: auto-generated');
    expect(text).toContain(
      'Fold bottom flap jams more than it used to.\r\nIsolate and lock out first.\r\n\r\nIt stays open until',
    );
  });

  it('is the same message each time it is sent, and another one for another notice', async () => {
    const { port, mails } = await mailServer();
    for (const notice of ['n1', 'n1', 'n2']) await send(port, { parcel: parcel(notice) });
    const [first, again, other] = mails.map(({ text }) => identity(text));
    expect(first).toContain(`Message-ID: <${messageId(parcel('n1'), 'line3@plant.example')}>`);
    expect(again).toEqual(first);
    expect(other).not.toEqual(first);
  });

  it('lets nothing of a notice into its head', async () => {
    const { port, mails } = await mailServer();
    const what = 'Jam\r\nBcc: all@plant.example\r\n\r\nat the fold';
    const { message, ...rest } = parcel('n1');
    await send(port, { parcel: { ...rest, message: { ...message, ...messageOf('n1', { what }) } } });
    expect(mails[0]!.to).toEqual(['twelve@plant.example']);
    expect(mails[0]!.text.split('\r\n\r\n')[0]).not.toMatch(/^Bcc:/im);
  });

  it('goes encrypted with a log-in, by STARTTLS and by TLS from the first byte', async () => {
    for (const security of ['startTls', 'tls'] as const) {
      const { port, mails } = await mailServer({
        ...ours,
        secure: security === 'tls',
        authOptional: false,
        onAuth: ({ username, password }, _session, done) =>
          done(null, password === PASSWORD ? { user: username ?? '' } : {}),
      });
      expect(await send(port, { security, logIn, trusted: ours.cert })).toEqual({ kind: 'told' });
      expect(mails.map(({ encrypted, user }) => ({ encrypted, user }))).toEqual([
        { encrypted: true, user: 'line3' },
      ]);
    }
  });
});

describe('mail to a server that does not take it', () => {
  it('is tried again where nobody listens', async () => {
    const port = await talker((socket) => socket.destroy());
    expect(await send(port)).toMatchObject({ kind: 'failed', lasting: false, why: { trouble: 'closed' } });
    expect(await send(1)).toEqual({
      kind: 'failed',
      lasting: false,
      why: { trouble: 'notReached', code: 'ECONNREFUSED' },
    });
  });

  it('is given up when the address is refused for good, and tried again when only for now', async () => {
    const refusing = await mailServer({
      onRcptTo: (_to, _session, done) => done(reply(550, '5.1.1 nobody of that name')),
    });
    expect(await send(refusing.port)).toEqual({
      kind: 'failed',
      lasting: true,
      why: { trouble: 'refused', code: '550 5.1.1' },
    });
    const busy = await mailServer({
      onRcptTo: (_to, _session, done) => done(reply(451, '4.7.1 come back later')),
    });
    expect(await send(busy.port)).toEqual({
      kind: 'failed',
      lasting: false,
      why: { trouble: 'notNow', code: '451 4.7.1' },
    });
  });

  it('is tried again when a server refuses to talk at all, whatever number it says', async () => {
    const port = await talker(
      (socket, line) => void (line === '' && socket.end('554 5.3.2 no service here\r\n')),
    );
    expect(await send(port)).toEqual({
      kind: 'failed',
      lasting: false,
      why: { trouble: 'notNow', code: '554 5.3.2' },
    });
  });

  it('is broken off when the server says nothing: at the greeting, in the middle, after the text', async () => {
    for (const command of ['', 'MAIL', '.']) {
      const port = await talker(talksUntil(command, () => {}));
      expect(await send(port, { patienceMs: 150 }), command).toEqual({
        kind: 'failed',
        lasting: false,
        why: { trouble: 'hung' },
      });
    }
  });

  it('is broken off when it is told to, however slowly the server goes on talking', async () => {
    const ending = new AbortController();
    let said = 0;
    const port = await talker(
      talksUntil('MAIL', (socket) => {
        const timer = setInterval(() => {
          said += 1;
          socket.write('250-');
          if (said === 3) ending.abort();
        }, 20);
        socket.on('close', () => clearInterval(timer));
      }),
    );
    expect(await send(port, { signal: ending.signal })).toMatchObject({
      why: { trouble: 'hung' },
      lasting: false,
    });
  });

  it('is tried again when the server ends in the middle, or took the text and then died', async () => {
    for (const command of ['RCPT', '.']) {
      const port = await talker(talksUntil(command, (socket) => socket.destroy()));
      expect(await send(port), command).toEqual({
        kind: 'failed',
        lasting: false,
        why: { trouble: 'closed' },
      });
    }
  });

  it('is not understood by what is no mail server', async () => {
    const port = await talker(
      (socket, line) => void (line === '' && socket.write('HTTP/1.1 400 Bad Request\r\n')),
    );
    expect(await send(port)).toMatchObject({
      kind: 'failed',
      lasting: false,
      why: { trouble: 'notUnderstood' },
    });
  });

  it('sends nothing where the certificate is not trusted, or is another’s', async () => {
    for (const [certificate, trusted, code] of [
      [ours, others.cert, 'DEPTH_ZERO_SELF_SIGNED_CERT'],
      [others, others.cert, 'ERR_TLS_CERT_ALTNAME_INVALID'],
    ] as const) {
      for (const security of ['startTls', 'tls'] as const) {
        const { port, mails } = await mailServer({ ...certificate, secure: security === 'tls' });
        expect(await send(port, { security, trusted }), `${security} ${code}`).toEqual({
          kind: 'failed',
          lasting: false,
          why: { trouble: 'certificate', code },
        });
        expect(mails).toEqual([]);
      }
    }
  });

  it('sends neither text nor password where the server does not encrypt', async () => {
    const lines: string[] = [];
    const speak = talksUntil('NOTHING', () => {});
    const port = await talker((socket, line) => {
      lines.push(line);
      speak(socket, line.startsWith('STARTTLS') ? 'NOOP' : line);
    });
    expect(await send(port, { security: 'startTls', logIn, patienceMs: 2000 })).toMatchObject({
      kind: 'failed',
      lasting: false,
    });
    expect(lines.join('\n')).not.toMatch(/MAIL|AUTH/);
    const plain = await mailServer();
    expect(await send(plain.port, { security: 'startTls', logIn })).toMatchObject({
      why: { trouble: 'notEncrypted' },
      lasting: false,
    });
    expect(plain.mails).toEqual([]);
  });

  it('is tried again when the log-in is refused or the password cannot be read, and tells nobody either of them', async () => {
    const { port } = await mailServer({
      ...ours,
      secure: true,
      authOptional: false,
      onAuth: (_auth, _session, done) => done(reply(535, 'wrong')),
    });
    const secure = { security: 'tls', logIn, trusted: ours.cert } as const;
    const refused = await send(port, secure);
    expect(refused).toMatchObject({ kind: 'failed', lasting: false, why: { trouble: 'logIn' } });
    expect(JSON.stringify(refused)).not.toContain(PASSWORD);
    const unread = () => {
      throw new LineError('No password.', { why: 'Unset.', mend: 'Set it.' });
    };
    expect(await send(port, { ...secure, password: unread })).toEqual({
      kind: 'failed',
      lasting: false,
      why: { trouble: 'secret' },
    });
  });

  it('is given up for somebody without an address', async () => {
    const { port, mails } = await mailServer();
    expect(await send(port, { parcel: parcel('n1', 'mail', '99') })).toEqual({
      kind: 'failed',
      lasting: true,
      why: { trouble: 'noAddress' },
    });
    expect(mails).toEqual([]);
  });
});
