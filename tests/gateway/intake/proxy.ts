import { connect, createServer, type Server, type Socket } from 'node:net';

/** A cable between a client and a server on loopback that can be cut, or go dark without either side noticing. */
export interface Cable {
  readonly endpoint: string;
  /** Nothing passes any more, in either direction, and nobody is told. */
  dark(): void;
  /** Breaks every connection and lets none through. */
  cut(): void;
  mend(): void;
  close(): Promise<void>;
}

export async function lay(port: number): Promise<Cable> {
  const pairs = new Set<readonly [Socket, Socket]>();
  let passing = true;
  let dark = false;
  const server: Server = createServer((near) => {
    if (!passing) {
      near.destroy();
      return;
    }
    const far = connect(port, '127.0.0.1');
    const pair = [near, far] as const;
    pairs.add(pair);
    for (const [from, to] of [pair, [far, near] as const]) {
      from.on('data', (data) => {
        if (!dark) to.write(data);
      });
      from.on('error', () => to.destroy());
      from.on('close', () => {
        to.destroy();
        pairs.delete(pair);
      });
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no port');
  const breakAll = () => {
    for (const pair of pairs) for (const socket of pair) socket.destroy();
  };
  return {
    endpoint: `opc.tcp://127.0.0.1:${address.port}`,
    dark: () => {
      dark = true;
    },
    cut: () => {
      passing = false;
      breakAll();
    },
    mend: () => {
      passing = true;
      dark = false;
    },
    close: async () => {
      breakAll();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
