/** What a gateway's process holds at a moment, after its memory was cleared of what is not held. */
export interface SoakReading {
  /** Milliseconds since 1970. */
  readonly at: number;
  readonly heapBytes: number;
  readonly rssBytes: number;
  /** What keeps the process going, by kind: sockets, timers, pipes. */
  readonly handles: Readonly<Record<string, number>>;
  /** Undefined where the system has no such list. */
  readonly descriptors: number | undefined;
  /** The tape's file, and the log of SQLite beside it. */
  readonly tapeBytes: number;
  /** Position after the newest change of the tape. */
  readonly changes: number;
  /** How late the event loop came to what was due, p99 since the reading before, milliseconds. */
  readonly lateMs: number;
}

export type SoakWord =
  | { readonly kind: 'opened'; readonly address: string }
  | { readonly kind: 'reading'; readonly reading: SoakReading }
  | { readonly kind: 'stopped' };

export const READ_EVERY_MS = 30_000;
