import { io, type Socket } from 'socket.io-client';
import { afterEach, describe, expect, it } from 'vitest';
import type {
  ClientToServer,
  EntryAnswer,
  JoinAnswer,
  ServerToClient,
} from '../../../model/view/protocol.ts';
import { changes, goods } from '../../model/smallLine.ts';
import { openSite, line, type Site } from '../api/web.ts';

type Screen = Socket<ServerToClient, ClientToServer>;
type Whole = Parameters<ServerToClient['whole']>[0];
type Parts = Parameters<ServerToClient['parts']>[0];

const opened: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of opened.splice(0).reverse()) await one.close();
});

async function site(wish?: Parameters<typeof openSite>[0]): Promise<Site> {
  const made = await openSite(wish);
  opened.push(made);
  return made;
}

function screen(address: string, headers: Record<string, string> = {}) {
  const socket: Screen = io(address, {
    transports: ['websocket'],
    extraHeaders: headers,
    reconnection: false,
  });
  opened.push({ close: () => socket.disconnect() });
  const wholes: Whole[] = [];
  const parts: Parts[] = [];
  socket.on('whole', (message) => void wholes.push(message));
  socket.on('parts', (message) => void parts.push(message));
  return {
    socket,
    wholes,
    parts,
    join: (have: number | undefined, id = line.id) =>
      new Promise<JoinAnswer>((resolve) => void socket.emit('join', { line: id, have }, resolve)),
    enter: (message: unknown) =>
      new Promise<EntryAnswer>((resolve) => void socket.emit('enter', message as never, resolve)),
  };
}

async function until(what: string, holds: () => boolean): Promise<void> {
  const ceiling = Date.now() + 60_000;
  while (!holds()) {
    if (Date.now() > ceiling) throw new Error(`Never came: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

const author = { kind: 'position', position: 'front' };

describe('a screen', () => {
  it('gets the whole view on joining, and what changed after it with the next number', async () => {
    const { address, live, clock } = await site();
    const { join, wholes, parts } = screen(address);
    expect(await join(undefined)).toEqual({ ok: true });
    await until('the whole view', () => wholes.length === 1);
    expect(wholes[0]!.view.plan.good).toBe(20);
    clock.second = 22;
    await live.offer(changes(line, [...goods(21, 21, 21), [22, 'state', 11]]));
    await until('parts', () => parts.some((message) => message.parts.head?.kind === 'stopped'));
    const numbers = parts.map((message) => message.number);
    expect(numbers[0]).toBeGreaterThan(wholes[0]!.number);
    expect(numbers).toEqual(numbers.map((_, place) => numbers[0]! + place));
  });

  it('that says it has the newest number gets no view again, and one that is behind does', async () => {
    const { address } = await site();
    const { join, wholes } = screen(address);
    await join(undefined);
    await until('the whole view', () => wholes.length === 1);
    await join(wholes[0]!.number + 1000);
    await until('the whole view again', () => wholes.length === 2);
  });

  it('is told when there is no such line', async () => {
    const { address } = await site();
    expect(await screen(address).join(undefined, 'other')).toEqual({
      ok: false,
      trouble: 'There is no line “other”.',
    });
  });

  it('that asks with what is no name gets an answer, and the gateway goes on', async () => {
    const { address } = await site();
    const { socket, join } = screen(address);
    const odd = [
      null,
      undefined,
      7,
      'small',
      [],
      {},
      { line: null },
      { line: { toString: null } },
      { line: ['x'] },
    ];
    for (const message of odd) {
      const answer = await new Promise<JoinAnswer>(
        (resolve) => void socket.emit('join', message as never, resolve),
      );
      expect(answer, JSON.stringify(message)).toMatchObject({ ok: false });
    }
    socket.emit('join', { line: 'small', have: undefined } as never, 'no function' as never);
    socket.emit('enter', null as never, null as never);
    expect(await join(undefined)).toEqual({ ok: true });
  });

  it('enters something: answered once it is on the tape, and once however often it is sent', async () => {
    const { address, tape, live } = await site();
    const { enter } = screen(address);
    const before = tape.end(line.id);
    const message = { line: line.id, entry: { id: 'n-1', author, kind: 'note', words: 'guide rattles' } };
    expect(await enter(message)).toEqual({ ok: true, position: before + 1 });
    expect(await enter(message)).toEqual({ ok: true, position: before + 1 });
    expect(tape.end(line.id)).toBe(before + 1);
    expect(live.fold().state.notes.map((note) => note.words)).toEqual(['guide rattles']);
  });

  it('is told what was wrong with an entry and how to mend it; nothing is recorded', async () => {
    const { address, tape } = await site();
    const { enter } = screen(address);
    const before = tape.end(line.id);
    for (const message of [
      null,
      {},
      { line: line.id },
      { line: 'other', entry: { id: 'a', author, kind: 'crew', people: 1 } },
    ]) {
      const answer = await enter(message);
      expect(answer).toMatchObject({
        ok: false,
        trouble: expect.stringMatching(/\.$/),
        mend: expect.stringMatching(/\.$/),
      });
    }
    expect(tape.end(line.id)).toBe(before);
  });

  it('may make so many entries and no more', async () => {
    const { address, tape } = await site();
    const { enter } = screen(address);
    const before = tape.end(line.id);
    const answers: EntryAnswer[] = [];
    for (let n = 0; n < 25; n += 1) {
      answers.push(await enter({ line: line.id, entry: { id: `c-${n}`, author, kind: 'crew', people: 2 } }));
    }
    expect(answers.filter(({ ok }) => ok)).toHaveLength(20);
    expect(tape.end(line.id)).toBe(before + 20);
  });

  it('that asks for the whole view over and over is let go', async () => {
    const { address } = await site();
    const { socket, join } = screen(address);
    let gone = false;
    socket.on('disconnect', () => {
      gone = true;
    });
    await until('connected', () => socket.connected);
    for (let n = 0; n < 40; n += 1) void join(undefined);
    await until('let go', () => gone);
  });

  it('of another site is refused, one of this site and a program are not', async () => {
    const { address } = await site();
    const refused = screen(address, { origin: 'http://elsewhere.example' });
    let error: Error | undefined;
    refused.socket.on('connect_error', (why) => {
      error = why;
    });
    await until('refused', () => error !== undefined);
    expect(refused.socket.connected).toBe(false);
    // that its page has the same name does not help: the name is not ours
    const renamed = screen(address, { origin: 'http://elsewhere.example', host: 'elsewhere.example' });
    let second: Error | undefined;
    renamed.socket.on('connect_error', (why) => {
      second = why;
    });
    await until('refused by its name', () => second !== undefined);
    for (const headers of [{ origin: address }, {}]) {
      expect(await screen(address, headers).join(undefined)).toEqual({ ok: true });
    }
  });

  it('that sends a message larger than any screen would is cut off, and the others are not', async () => {
    const { address } = await site();
    const large = screen(address);
    const other = screen(address);
    await other.join(undefined);
    let gone = false;
    large.socket.on('disconnect', () => {
      gone = true;
    });
    await until('connected', () => large.socket.connected);
    void large.enter({ line: line.id, entry: 'x'.repeat(100_000) });
    await until('cut off', () => gone);
    expect(await other.join(undefined)).toEqual({ ok: true });
  });
});
