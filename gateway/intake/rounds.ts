import type { ClockWatch } from './clockWatch.ts';
import type { Connection } from './connection.ts';
import type { Inbox } from './inbox.ts';
import { isMissing } from './itemStatus.ts';
import type { IntakeSettings } from './settings.ts';

export interface RoundsParts {
  readonly settings: IntakeSettings;
  readonly clocks: ClockWatch;
  readonly inbox: Inbox;
  /** False for a connection that was given up while it was asked. */
  readonly isCurrent: (connection: Connection) => boolean;
}

/** What a live connection is asked now and then, and asked again when it fails: the server's clock, and missing tags. */
export class Rounds {
  private readonly parts: RoundsParts;
  private clockReadAt = 0;
  private missingReadAt = 0;

  constructor(parts: RoundsParts) {
    this.parts = parts;
  }

  /** `now` by `performance.now()`. */
  look(connection: Connection, now: number): void {
    const { settings } = this.parts;
    if (now - this.clockReadAt > settings.clockMs) {
      this.clockReadAt = now;
      void this.readClock(connection).catch(() => undefined);
    }
    if (now - this.missingReadAt > settings.missingMs) {
      this.missingReadAt = now;
      void this.tryMissing(connection).catch(() => undefined);
    }
  }

  private async readClock(connection: Connection): Promise<void> {
    const { clocks, inbox, isCurrent } = this.parts;
    const reading = await clocks.readServer(connection);
    if (isCurrent(connection)) inbox.push({ kind: 'clock', reading });
  }

  /** A server may bring a tag later than itself. Once it is there, the subscription is made anew. */
  private async tryMissing(connection: Connection): Promise<void> {
    const missing = connection.items().flatMap(({ status }, place) => (isMissing(status) ? [place] : []));
    if (missing.length === 0) return;
    const found = (await connection.read(missing)).some(({ status }) => !isMissing(status));
    if (found && this.parts.isCurrent(connection)) this.parts.inbox.push({ kind: 'dead' });
  }
}
