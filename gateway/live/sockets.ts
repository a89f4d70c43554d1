import type { Server as HttpServer, IncomingHttpHeaders } from 'node:http';
import { Server, type Socket } from 'socket.io';
import { LineError } from '../../model/trouble/trouble.ts';
import type { ClientToServer, EntryAnswer, ServerToClient } from '../../model/view/protocol.ts';
import { wordsIn } from '../../model/words/words.ts';
import { readEntry } from '../api/entrySchema.ts';
import type { KnownHost } from '../api/hostNames.ts';
import { BEHIND, passOver } from './behind.ts';
import { type Broadcast, startBroadcast } from './broadcast.ts';
import type { LiveLine } from './liveLine.ts';
import { createQuota } from './quota.ts';

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

/**
 * Screens by socket.io. A screen joins a line and gets the whole view, then the parts that change; one that falls
 * behind misses parts, sees the hole in their numbers, and joins again. Nothing is kept for it here, so a stalled
 * screen costs nothing.
 */
export function startSockets(
  http: HttpServer,
  lines: ReadonlyMap<string, LiveLine>,
  now: () => number,
  known: KnownHost,
): Sockets {
  const io = new Server<ClientToServer, ServerToClient>(http, {
    serveClient: false,
    maxHttpBufferSize: MESSAGE_MOST,
    cors: { origin: false },
    allowRequest: ({ headers }, answer) => answer(null, known(headers.host) && isOfThisSite(headers)),
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
  io.on('connection', (socket) => serve(socket, lines, broadcasts, now));
  return {
    stop: async () => {
      for (const broadcast of broadcasts.values()) broadcast.stop();
      await io.close();
    },
  };
}

/** Browsers say which page asks. A page of another site may not enter anything here, nor read; programs say nothing. */
function isOfThisSite({ origin, host }: IncomingHttpHeaders): boolean {
  if (origin === undefined) return true;
  return URL.canParse(origin) && new URL(origin).host === host;
}

type ScreenSocket = Socket<ClientToServer, ServerToClient>;

function serve(
  socket: ScreenSocket,
  lines: ReadonlyMap<string, LiveLine>,
  broadcasts: ReadonlyMap<string, Broadcast>,
  now: () => number,
): void {
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
  socket.on('enter', (message, answer) => {
    if (typeof answer !== 'function') return;
    void enter(lines, message, quota.take(), now).then(answer);
  });
}

/** The line a screen asks for; what is no name at all is the name of no line. */
function readJoin(message: unknown): string {
  const line: unknown = (message as { readonly line?: unknown } | null | undefined)?.line;
  return typeof line === 'string' ? line.slice(0, 64) : '';
}

async function enter(
  lines: ReadonlyMap<string, LiveLine>,
  message: unknown,
  allowed: boolean,
  now: () => number,
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
    return { ok: true, position: await live.enter(entry) };
  } catch (error) {
    if (error instanceof LineError) return { ok: false, trouble: error.message, mend: error.mend };
    throw error;
  }
}
