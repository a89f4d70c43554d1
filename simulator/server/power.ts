import type { Server as Socket } from 'node:net';
import { coerceNodeId, type OPCUAServer } from 'node-opcua';

/** Every connection breaks without a goodbye, and all sessions are forgotten with what they subscribed to. */
export function breakOff(server: OPCUAServer): void {
  for (const endpoint of server.endpoints) {
    for (const channel of endpoint.getChannels()) {
      for (const token of Object.keys(channel.sessionTokens)) {
        server.engine.closeSession(coerceNodeId(token), true, 'Terminated');
      }
    }
    endpoint.abruptlyInterruptChannels();
  }
}

/** Power off: the listening socket closes, and every connection breaks. */
export async function darken(server: OPCUAServer): Promise<void> {
  const released = server.suspendEndPoints();
  breakOff(server);
  await released;
}

/**
 * Power on. The library hangs two more listeners on its socket each time it listens again; the old ones are taken off
 * first, or Node would warn of a leak after ten times.
 */
export async function lighten(server: OPCUAServer): Promise<void> {
  for (const endpoint of server.endpoints) {
    const { _server: socket } = endpoint as unknown as { readonly _server?: Socket };
    socket?.removeAllListeners('error');
    socket?.removeAllListeners('listening');
  }
  await server.resumeEndPoints();
}
