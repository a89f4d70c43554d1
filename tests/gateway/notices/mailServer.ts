import { once } from 'node:events';
import { type AddressInfo, createServer, type Socket } from 'node:net';
import { text as textOf } from 'node:stream/consumers';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';
import { onTestFinished } from 'vitest';

export interface Mail {
  readonly from: string;
  readonly to: readonly string[];
  readonly text: string;
  readonly encrypted: boolean;
  readonly user: string | undefined;
}

export interface MailServer {
  readonly port: number;
  readonly mails: Mail[];
}

/** A mail server on loopback that takes everything, unless `wish` says otherwise. */
export async function mailServer(wish: SMTPServerOptions = {}): Promise<MailServer> {
  const mails: Mail[] = [];
  const server = new SMTPServer({
    authOptional: true,
    logger: false,
    disabledCommands: wish.key === undefined ? ['STARTTLS', 'AUTH'] : [],
    onData: (stream, session, done) => {
      textOf(stream).then((text) => {
        const { mailFrom, rcptTo } = session.envelope;
        mails.push({
          from: mailFrom === false ? '' : mailFrom.address,
          to: rcptTo.map(({ address }) => address),
          text,
          encrypted: session.secure,
          user: session.user === undefined ? undefined : String(session.user),
        });
        done();
      }, done);
    },
    ...wish,
  });
  server.on('error', () => {}); // a client that goes away in the middle is what some tests are about
  const listening = server.listen(0, '127.0.0.1');
  await once(listening, 'listening');
  onTestFinished(() => new Promise<void>((resolve) => server.close(() => resolve())));
  return { port: (listening.address() as AddressInfo).port, mails };
}

/** What a server does with a refusal: an error with the number of its reply. */
export function reply(responseCode: number, text: string): Error {
  return Object.assign(new Error(text), { responseCode });
}

/** Something that speaks a line at a time as a mail server would, or not at all; `act` sees each line that comes. */
export async function talker(act: (socket: Socket, line: string) => void): Promise<number> {
  const sockets = new Set<Socket>();
  const server = createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => {}); // the other side broke it off, as it should
    act(socket, '');
    socket.on('data', (bytes) => {
      for (const line of String(bytes).split('\r\n').filter(Boolean)) act(socket, line);
    });
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(async () => {
    for (const socket of sockets) socket.destroy();
    await new Promise<void>((resolve) => server.close(() => resolve()));
  });
  return (server.address() as AddressInfo).port;
}

/** Answers as far as a command, and does something of its own there. */
export function talksUntil(command: string, act: (socket: Socket) => void) {
  let inData = false;
  return (socket: Socket, line: string): void => {
    if (line.startsWith(command) && (line !== '' || command === '')) return act(socket);
    if (inData) {
      if (line !== '.') return;
      inData = false;
      return void socket.write('250 2.0.0 taken\r\n');
    }
    if (line === '') return void socket.write('220 mail.example ESMTP\r\n');
    if (line.startsWith('DATA')) {
      inData = true;
      return void socket.write('354 go on\r\n');
    }
    return void socket.write('250 mail.example\r\n');
  };
}
