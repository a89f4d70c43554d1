import { EPOCH_2020_MS, type Instant, instantFromMs } from '../../model/units/units.ts';
import { LocalClock } from './zone.ts';

/** How a server's stamps are to be read: as UTC, as local wall-clock time sent as if it were UTC, or not at all. */
export type ClockSetting = 'utc' | 'local' | 'received';

/** Stamps of one value as they came. Milliseconds since 1970; `sourceTicks` are the 100 ns within the millisecond. */
export interface Stamps {
  readonly sourceMs: number | undefined;
  readonly sourceTicks: number;
  readonly serverMs: number | undefined;
  readonly serverTicks: number;
}

/** A source time that its own server's stamp shows to be this far in the future cannot be right. */
const FUTURE_MOST_MS = 60_000;
/** The last moment that fits the tape's ticks, 2048. */
const LAST_MS = Date.UTC(2048, 0, 1);

/** Puts a server's stamps on the line's time. */
export class LineTime {
  private readonly local: LocalClock | undefined;

  private readonly setting: ClockSetting;

  constructor(setting: ClockSetting, zone: string) {
    this.setting = setting;
    this.local = setting === 'local' ? new LocalClock(zone) : undefined;
  }

  /** A moment of the server's clock in UTC, milliseconds since 1970. */
  utcMs(serverMs: number, near: number): number {
    return this.local ? this.local.toUtc(serverMs, near) : serverMs;
  }

  /** False where stamps are not to be trusted: then the time of receipt counts. */
  get trusted(): boolean {
    return this.setting !== 'received';
  }

  /**
   * The moment a value stands for, by its source time, else by the server's stamp; undefined where neither is given or
   * can be right. Whatever the setting, it tells one value of a tag from its repetition.
   */
  stampOf(stamps: Stamps, received: number): Instant | undefined {
    const { sourceMs, sourceTicks, serverMs, serverTicks } = stamps;
    const server = serverMs !== undefined && plausible(serverMs) ? serverMs : undefined;
    const future = sourceMs !== undefined && server !== undefined && sourceMs > server + FUTURE_MOST_MS;
    if (sourceMs !== undefined && plausible(sourceMs) && !future) {
      return instantFromMs(this.utcMs(sourceMs, received), sourceTicks);
    }
    return server === undefined ? undefined : instantFromMs(this.utcMs(server, received), serverTicks);
  }
}

/** Null times arrive as 1601; nothing before 2020 was written by a line that is now being watched. */
export function plausible(ms: number): boolean {
  return ms >= EPOCH_2020_MS && ms < LAST_MS;
}
