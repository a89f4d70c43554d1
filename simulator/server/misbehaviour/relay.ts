import { connect, createServer, type Socket } from 'node:net';
import { refuse } from '../portTaken.ts';

/** The cable between a server and its clients: a port of its own that passes on what comes. */
export interface Relay {
  readonly port: number;
  /** The server's port on loopback, which may be another one after a restart. */
  lead(to: number): void;
  /** Breaks every connection, so that both ends see it. */
  breakAll(): void;
  /** While it is cut nobody gets through; while it is dark nothing is passed on, and nobody is told. */
  set(state: { readonly cut: boolean; readonly dark: boolean }): void;
  close(): Promise<void>;
}

/**
 * Listens where clients come. What is sent into the dark waits and comes late, as TCP would send it again; an end of a
 * connection is not heard in the dark either. A connection that breaks meanwhile takes with it what was on its way.
 */
export async function openRelay(port: number, host: string): Promise<Relay> {
  const pairs = new Set<Pair>();
  let target: number | undefined;
  let [cut, dark] = [false, false];
  const server = createServer({ allowHalfOpen: true }, (near) => {
    if (cut || target === undefined) {
      near.on('error', () => undefined);
      near.destroy();
      return;
    }
    const far = connect({ port: target, host: '127.0.0.1', allowHalfOpen: true });
    const pair = new Pair(near, far, () => pairs.delete(pair));
    pairs.add(pair);
    pair.set(dark);
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, resolve);
  }).catch((error: unknown) => refuse(port, error));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('Mistake in the simulator: no port');
  const breakAll = () => {
    for (const pair of pairs) pair.break();
  };
  return {
    port: address.port,
    lead: (to) => {
      target = to;
    },
    breakAll,
    set: (state) => {
      ({ cut, dark } = state);
      if (cut) breakAll();
      for (const pair of pairs) pair.set(dark);
    },
    close: async () => {
      breakAll();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}

/** One connection of a client through the cable. */
class Pair {
  private readonly near: Socket;
  private readonly far: Socket;
  private dark = false;
  /** What an end did in the dark, of which the other is told afterwards. */
  private untold: (() => void)[] = [];

  constructor(near: Socket, far: Socket, over: () => void) {
    this.near = near;
    this.far = far;
    this.join(near, far, over);
    this.join(far, near, over);
  }

  set(dark: boolean): void {
    this.dark = dark;
    for (const socket of [this.near, this.far]) {
      if (dark) socket.pause();
      else socket.resume();
    }
    if (dark) return;
    for (const tell of this.untold.splice(0)) tell();
  }

  break(): void {
    this.dark = false;
    this.near.destroy();
    this.far.destroy();
  }

  private join(from: Socket, to: Socket, over: () => void): void {
    const tell = (what: () => void) => {
      if (this.dark) this.untold.push(what);
      else what();
    };
    from.setNoDelay(true);
    from.on('data', (data) => to.write(data));
    from.on('end', () => tell(() => to.end()));
    from.on('error', () => undefined);
    from.on('close', () =>
      tell(() => {
        to.destroy();
        over();
      }),
    );
  }
}
