import { io, type Socket } from 'socket.io-client';
import { ACT_OF_ENTRY, bearsNumber } from '../../model/access/access.ts';
import type { Author, PersonEntryBody } from '../../model/entries/entries.ts';
import type { ClientToServer, EntryAnswer, NewEntry, ServerToClient } from '../../model/view/protocol.ts';
import { words } from '../app/words.ts';
import { authorNow, personNow, whenLogInChanges } from '../people/session.ts';
import { sendsInOrder } from './inOrder.ts';
import { keptFor } from './keptFor.ts';
import { isKept, type Made, type Store } from './store.ts';
import type { Doors } from './use.tsx';

const ANSWER_MS = 8_000;
const AGAIN_MS = 2_000;

/** Ties the store to the gateway: joins the line, follows its parts, sends entries until each is answered. */
export function linkTo(store: Store, asked: string | undefined, author: Author): Doors {
  const socket: Socket<ServerToClient, ClientToServer> = io({ transports: ['websocket', 'polling'] });
  let line: string | undefined = asked;

  let waits = false;
  let sounding = false;

  // Asks for the whole view: on a new connection the gateway may be another one that counts from one again.
  const join = async () => {
    if (waits) return;
    waits = true;
    line ??= await firstLine();
    const joined = line;
    if (joined === undefined) return again();
    socket.timeout(ANSWER_MS).emit('join', { line: joined, have: undefined }, (late, result) => {
      if (late) again();
      else if (result.ok) {
        store.linked('up');
        if (sounding) socket.emit('sounds', { on: true });
        sendAll();
      } else {
        store.linked('refused', result.trouble);
        again();
      }
    });
  };
  const again = () => {
    waits = false;
    setTimeout(() => socket.connected && void join(), AGAIN_MS);
  };
  socket.on('connect', () => {
    waits = false;
    void join();
  });
  socket.on('disconnect', () => store.linked('down'));
  socket.on('connect_error', () => store.linked('down'));
  socket.on('whole', ({ line: of, number, view }) => {
    if (of !== line) return;
    waits = false;
    store.whole(number, view, performance.now());
  });
  socket.on('parts', ({ line: of, number, parts }) => {
    if (of === line && !store.parts(number, parts, performance.now())) void join();
  });

  // who is logged in is told by the connection, when it is made
  whenLogInChanges(() => {
    if (socket.connected) socket.disconnect().connect();
  });

  const ready = () => socket.connected && line !== undefined;
  const offer = (entry: NewEntry & { keptFor?: number }, done: (answer: EntryAnswer | undefined) => void) =>
    socket
      .timeout(ANSWER_MS)
      .emit('enter', { line: line!, entry }, (late, answer) => done(late ? undefined : answer));
  const inOrder = sendsInOrder({
    first: () => store.get().sent.find(({ state, entry }) => state === 'onItsWay' && isKept(entry)),
    ready,
    offer: ({ entry, made }, done) => offer({ ...entry, keptFor: keptFor(made, madeNow()) }, done),
    answered: (id, answer) => store.answered(id, answer),
    now: () => performance.now(),
    later: (act, wait) => void setTimeout(act, wait),
  });
  const send = (entry: NewEntry) => {
    if (isKept(entry)) return inOrder.go();
    // Unsent entries wait in the store, not in the socket's own buffer: that one has no bound.
    if (!ready()) return;
    inOrder.counted();
    offer(entry, (answer) => {
      if (answer !== undefined) store.answered(entry.id, answer);
      else if (socket.connected) send(entry);
    });
  };
  const sendAll = () => {
    for (const { entry, state } of store.get().sent) if (state === 'onItsWay' && !isKept(entry)) send(entry);
    inOrder.anew();
  };
  setInterval(() => store.tick(performance.now()), 1_000);
  return {
    store,
    sounds: (on) => {
      if (on === sounding) return;
      sounding = on;
      // a connection that is made anew is told when it has joined
      if (socket.connected) socket.emit('sounds', { on });
    },
    enter: (body: PersonEntryBody) => {
      const entry = { ...body, id: newId(), author: authorOf(body, author) };
      const { full } = isKept(entry) ? words.screen.sheet.kept : words.screen.entry;
      const made = madeNow();
      const { view, received } = store.get();
      const at = view === undefined ? {} : { line: view.at + made.clock - received };
      if (store.enter(entry, full, { ...made, ...at }) === 'taken') send(entry);
    },
    again: (id) => {
      store.again(id);
      sendAll();
    },
  };
}

/**
 * What is kept and bears a number may be sent when somebody else is logged in: it says under whose it was entered, so that
 * the gateway refuses it then.
 */
function authorOf(body: PersonEntryBody, author: Author): Author {
  const own = isKept(body) && bearsNumber(ACT_OF_ENTRY[body.kind]) ? personNow() : undefined;
  return own ?? authorNow(author);
}

function madeNow(): Made & { readonly clock: number } {
  return { clock: performance.now(), day: Date.now() };
}

/** The first line this gateway serves; undefined while it does not answer. */
async function firstLine(): Promise<string | undefined> {
  try {
    const answer = await fetch('/healthz');
    const { lines } = (await answer.json()) as { readonly lines: readonly { readonly id: string }[] };
    return lines[0]?.id;
  } catch {
    return undefined; // asked again: the screen says meanwhile that the gateway does not answer
  }
}

/** A name for an entry made here. `randomUUID` needs HTTPS, and a plant's screens often have none. */
function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
