/** Messages that may wait for a screen, and the room of those for which so many wait. */
const PENDING_MOST = 8;
export const BEHIND = ' behind';

/** What is asked of a screen's socket: whether it takes messages, and the rooms it is in. */
export interface Screen {
  readonly rooms: ReadonlySet<string>;
  join(room: string): unknown;
  leave(room: string): unknown;
  readonly conn: { readonly transport: { readonly writable: boolean } };
}

/**
 * A screen that has not taken the last few messages gets no more of them until it has: when it does, it sees the hole
 * in the numbers and joins again. (socket.io's volatile messages would be lost already while one is on its way.)
 */
export function passOver(screens: Iterable<Screen>): void {
  for (const screen of screens) {
    const behind = screen.conn.transport.writable ? false : pending(screen) >= PENDING_MOST;
    if (behind) void screen.join(BEHIND);
    else if (screen.rooms.has(BEHIND)) void screen.leave(BEHIND);
  }
}

/** Inside the library (version pinned): messages that its transport has not taken yet. */
function pending({ conn }: Screen): number {
  return (conn as unknown as { readonly writeBuffer: readonly unknown[] }).writeBuffer.length;
}
