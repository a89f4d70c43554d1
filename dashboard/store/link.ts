import { io, type Socket } from 'socket.io-client';
import type { Author, PersonEntryBody } from '../../model/entries/entries.ts';
import type { ClientToServer, NewEntry, ServerToClient } from '../../model/view/protocol.ts';
import { words } from '../app/words.ts';
import { authorNow, whenLogInChanges } from '../people/session.ts';
import type { Store } from './store.ts';
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

  const send = (entry: NewEntry) => {
    // Unsent entries wait in the store, not in the socket's own buffer: that one has no bound.
    if (!socket.connected || line === undefined) return;
    socket.timeout(ANSWER_MS).emit('enter', { line, entry }, (late, answer) => {
      if (late) {
        if (socket.connected) send(entry);
        return;
      }
      store.answered(entry.id, answer);
    });
  };
  const sendAll = () => {
    for (const { entry, state } of store.get().sent) if (state === 'onItsWay') send(entry);
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
      const entry = { ...body, id: newId(), author: authorNow(author) };
      if (store.enter(entry, words.screen.entry.full) === 'taken') send(entry);
    },
  };
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
