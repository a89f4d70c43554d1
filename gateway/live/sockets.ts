import type { Server as HttpServer } from 'node:http';
import { Server, type Socket } from 'socket.io';
import { LineError } from '../../model/trouble/trouble.ts';
import type { ClientToServer, EntryAnswer, ServerToClient } from '../../model/view/protocol.ts';
import { wordsIn } from '../../model/words/words.ts';
import { readEntry } from '../api/entrySchema.ts';
import type { KnownHost } from '../api/hostNames.ts';
import { createGate, type Gate } from '../people/gate.ts';
import { Pages } from '../notices/pages.ts';
import type { People } from '../people/people.ts';
import { isOfThisSite } from '../people/sameSite.ts';
import { type Entrance, plainEntrance } from '../tls/entrance.ts';
import { BEHIND, passOver } from './behind.ts';
import { type Broadcast, startBroadcast } from './broadcast.ts';
import type { LiveLine } from './liveLine.ts';
import { createQuota } from './quota.ts';
import { takeEntry } from './takeEntry.ts';

const words = wordsIn('en').gateway;

/** No message of a screen is larger than this. Bytes. */
const MESSAGE_MOST = 16_384;
/** Entries that one screen may make: so many at once, and so many a minute. */
const ENTRIES = { burst: 20, perMinute: 30 };
/** Whole views that one screen may ask for: a screen that loses every part asks once a second. */
const JOINS = { burst: 20, perMinute: 120 };

export interface Sockets {
  stop(): Promise<void>;
}

/** Who is let in, and who it is. */
export interface SocketDoors {
  readonly known: KnownHost;
  readonly people?: People | undefined;
  readonly entrance?: Entrance;
  /** Where pages that sound are known. */
  readonly pages?: Pages;
}

/**
 * Screens by socket.io. A screen joins a line and gets the whole view, then the parts that change; one that falls
 * behind misses parts, sees the hole in their numbers, and joins again. Nothing is kept for it here, so a stalled
 * screen costs nothing.
 */
export function startSockets(
  http: HttpServer,
  lines: ReadonlyMap<string, LiveLine>,
  now: () => number,
  { known, people, entrance = plainEntrance, pages = new Pages() }: SocketDoors,
): Sockets {
  const gate = createGate(people);
  const io = new Server<ClientToServer, ServerToClient>(http, {
    serveClient: false,
    maxHttpBufferSize: MESSAGE_MOST,
    cors: { origin: false },
    allowRequest: (request, answer) => {
      const { headers } = request;
      const comesIn = entrance.came(request).refused === undefined;
      answer(null, comesIn && known(headers.host) && isOfThisSite(headers));
    },
  });
  const broadcasts = new Map<string, Broadcast>();
  for (const [id, live] of lines) {
    const tell: Parameters<typeof startBroadcast>[1] = ({ number, parts }) => {
      passOver(io.sockets.sockets.values());
      io.to(id).except(BEHIND).emit('parts', { line: id, number, parts });
    };
    broadcasts.set(
      id,
      startBroadcast(live, tell, () => (io.sockets.adapter.rooms.get(id)?.size ?? 0) > 0),
    );
  }
  io.on('connection', (socket) => serve(socket, { lines, broadcasts, now, gate, pages }));
  return {
    stop: async () => {
      for (const broadcast of broadcasts.values()) broadcast.stop();
      await io.close();
    },
  };
}

type ScreenSocket = Socket<ClientToServer, ServerToClient>;

interface Ground {
  readonly lines: ReadonlyMap<string, LiveLine>;
  readonly broadcasts: ReadonlyMap<string, Broadcast>;
  readonly now: () => number;
  readonly gate: Gate;
  readonly pages: Pages;
}

function serve(socket: ScreenSocket, ground: Ground): void {
  const { broadcasts, now } = ground;
  const quota = createQuota(ENTRIES, now);
  const joins = createQuota(JOINS, now);
  socket.on('join', (message, answer) => {
    if (typeof answer !== 'function') return;
    // whole views are kept until the screen takes them: one that asks and does not take would fill the memory
    if (!joins.take()) return void socket.disconnect(true);
    const line = readJoin(message);
    const broadcast = broadcasts.get(line);
    if (!broadcast) return answer({ ok: false, trouble: words.noSuchLine(line) });
    const { number, view } = broadcast.current();
    void socket.join(line);
    if (message.have !== number) socket.emit('whole', { line, number, view });
    return answer({ ok: true });
  });
  // who is logged in there is asked anew each time: a log-in ends by itself
  const who = () => ground.gate.asker(socket.handshake.headers)?.number;
  socket.on('sounds', (message) => {
    const on: unknown = (message as { readonly on?: unknown } | null | undefined)?.on;
    ground.pages.sounds(socket.id, who, on === true);
  });
  socket.on('disconnect', () => ground.pages.closed(socket.id));
  socket.on('enter', (message, answer) => {
    if (typeof answer !== 'function') return;
    void enter(socket, ground, message, quota.take()).then(answer);
  });
}

/** The line a screen asks for; what is no name at all is the name of no line. */
function readJoin(message: unknown): string {
  const line: unknown = (message as { readonly line?: unknown } | null | undefined)?.line;
  return typeof line === 'string' ? line.slice(0, 64) : '';
}

/** Who is logged in is asked anew for each entry, by what the screen brought when it connected. */
async function enter(
  { handshake }: ScreenSocket,
  { lines, now, gate }: Ground,
  message: unknown,
  allowed: boolean,
): Promise<EntryAnswer> {
  try {
    if (!allowed)
      throw new LineError(words.tooManyEntries, {
        why: words.tooManyEntriesWhy,
        mend: words.tooManyEntriesMend,
      });
    const { line, entry } = readEntry(message, now());
    const live = lines.get(line);
    if (!live)
      throw new LineError(words.noSuchLine(line), { why: words.noSuchLineWhy, mend: words.noSuchLineMend });
    return await takeEntry(live, gate.entryBy(entry, handshake.headers));
  } catch (error) {
    if (error instanceof LineError)
      return { ok: false, trouble: error.message, why: error.why, mend: error.mend };
    throw error;
  }
}
