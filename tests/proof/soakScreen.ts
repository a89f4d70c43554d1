import { io, type Socket } from 'socket.io-client';
import type { ClientToServer, ServerToClient } from '../../model/view/protocol.ts';
import type { LineView } from '../../model/view/view.ts';

/** A screen that follows a line for hours, as the dashboard does: whole view, parts, and the whole again after a hole. */
export interface SoakScreen {
  /** True while it shows a line that is heard now. */
  live(): boolean;
  /** Parts taken, and holes seen in their numbers, so far. */
  readonly parts: number;
  readonly holes: number;
  close(): void;
}

export function followLine(address: string, line: string): SoakScreen {
  const socket: Socket<ServerToClient, ClientToServer> = io(address, { transports: ['websocket'] });
  let shown: LineView | undefined;
  let number: number | undefined;
  let parts = 0;
  let holes = 0;
  const join = () => void socket.emit('join', { line, have: number }, () => undefined);
  socket.on('connect', join);
  socket.on('whole', (message) => {
    shown = message.view;
    number = message.number;
  });
  socket.on('parts', (message) => {
    if (number === undefined || shown === undefined) return;
    if (message.number !== number + 1) {
      holes += 1;
      number = undefined;
      join();
      return;
    }
    number = message.number;
    shown = { ...shown, ...message.parts };
    parts += 1;
  });
  return {
    live: () => shown?.sight.kind === 'live' && shown.sight.servers.every(({ up }) => up),
    get parts() {
      return parts;
    },
    get holes() {
      return holes;
    },
    close: () => void socket.disconnect(),
  };
}
