/** How the intake asks and how long it waits. Only tests change these. */
export interface IntakeSettings {
  /** Wanted time between two publishes. Milliseconds. */
  readonly publishingMs: number;
  /** Publishing intervals without a change after which the server says that it is still there. */
  readonly keepAliveCount: number;
  /** Publishing intervals without a request of ours after which the server forgets the subscription. */
  readonly lifetimeCount: number;
  /** 0: tell every change, however short. A server may revise it. */
  readonly samplingMs: number;
  /** Values the server is to keep of each tag between two publishes, or while the link is cut. */
  readonly queue: number;
  readonly sessionTimeoutMs: number;
  /** How often the session is seen to be alive, and how long a request may take. Milliseconds. */
  readonly keepAliveMs: number;
  readonly requestMs: number;
  /** Time between two tries to open a connection that was refused. Milliseconds. */
  readonly retryMs: number;
  /** A client that is answered for this long without bringing data back is replaced. Milliseconds. */
  readonly wedgedMs: number;
  /** Where nothing changes, it is written this often that the server is still heard. Milliseconds. */
  readonly heardMs: number;
  /** Time between two looks whether a tag that was missing is there now. Milliseconds. */
  readonly missingMs: number;
  /** Time between two readings of the server's clock. Milliseconds. */
  readonly clockMs: number;
  /** Values that may wait to be recorded before the server is asked for no more; it then keeps them in its queues. */
  readonly waitingMost: number;
  /** Values kept back while the link is being repaired; of more, the oldest are dropped and the gap is a gap. */
  readonly heldMost: number;
}

/** What worked against two independent server stacks: 30 ms pulses all seen, cuts of seconds without loss. */
export const usualSettings: IntakeSettings = {
  publishingMs: 250,
  keepAliveCount: 8,
  lifetimeCount: 2400,
  samplingMs: 0,
  queue: 100,
  sessionTimeoutMs: 60_000,
  keepAliveMs: 2000,
  requestMs: 5000,
  retryMs: 2000,
  wedgedMs: 15_000,
  heardMs: 5000,
  missingMs: 30_000,
  clockMs: 10_000,
  waitingMost: 20_000,
  heldMost: 100_000,
};
