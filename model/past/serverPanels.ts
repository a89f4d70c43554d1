import type { SignalReading } from './signalSheets.ts';

/** One server as the gateway tells it now. */
export interface ServerReading {
  readonly id: string;
  readonly endpoint: string;
  readonly security: string;
  readonly up: boolean;
  /** Milliseconds since 1970. */
  readonly since: number | null;
  readonly lastDataAt: number | null;
  readonly clockOffsetMs: number | null;
  readonly clockSetMs: number;
  readonly fingerprint: string | null;
  readonly trouble: { readonly what: string; readonly why: string; readonly mend: string } | null;
}

/** And as it stands on its panel. */
export interface ServerPanel extends ServerReading {
  readonly signals: number;
  /** Milliseconds since it told anything; undefined before that. */
  readonly age: number | undefined;
  /** Where its clock stands on a scale from −1 to 1, which is two seconds; undefined while it is not known. */
  readonly clock: { readonly place: number; readonly beyond: boolean } | undefined;
  /** Hexadecimal digits in groups of four; empty without a certificate. */
  readonly groups: readonly string[];
}

/** Half of the scale on which clocks are drawn. Milliseconds. */
export const CLOCK_SCALE = 2000;

export function serverPanels(
  servers: readonly ServerReading[],
  readings: readonly Pick<SignalReading, 'server'>[],
  now: number,
): readonly ServerPanel[] {
  return servers.map((server) => {
    const share = server.clockOffsetMs === null ? undefined : server.clockOffsetMs / CLOCK_SCALE;
    return {
      ...server,
      signals: readings.filter((reading) => reading.server === server.id).length,
      age: server.lastDataAt === null ? undefined : Math.max(0, now - server.lastDataAt),
      clock:
        share === undefined
          ? undefined
          : { place: Math.max(-1, Math.min(1, share)), beyond: Math.abs(share) > 1 },
      groups: server.fingerprint?.replaceAll(/[^0-9A-Fa-f]/g, '').match(/.{1,4}/g) ?? [],
    };
  });
}
