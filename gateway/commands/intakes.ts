import { join } from 'node:path';
import type { Logger } from 'pino';
import type { Change } from '../../model/signals/signals.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { EpochMs, Millis } from '../../model/units/units.ts';
import type { Outside } from '../../model/view/lineView.ts';
import type { Bound } from '../binding/binding.ts';
import type { Intake, IntakeOptions } from '../intake/intake.ts';
import type { LiveLine } from '../live/liveLine.ts';

export interface IntakeParts {
  readonly bound: Bound;
  readonly live: LiveLine;
  readonly data: string;
  readonly log: Logger;
  /** What cannot be recorded is never shown: the gateway has to end, and this is told why. */
  readonly failed: (error: LineError) => void;
}

/** What the intake of one server of a line needs. */
export function intakeOptions(server: Bound['servers'][number], parts: IntakeParts): IntakeOptions {
  const { bound, live, data, log, failed } = parts;
  const signals = bound.line.signals.flatMap((signal) => {
    const bind = bound.tags.get(signal.index);
    return bind?.server === server.id ? [{ signal, tag: bind.tag }] : [];
  });
  return {
    server,
    signals,
    linkSignal: bound.line.signals.findIndex(
      (signal) => signal.role === 'link' && signal.server === server.id,
    ),
    zone: bound.line.zone,
    pkiFolder: join(data, 'certificates'),
    take: (changes) => offer(live, changes, failed),
    known: (signal) => {
      const { values, ats } = live.fold().state;
      const value = values[signal];
      return value === null || value === undefined ? undefined : { at: ats[signal]!, value };
    },
    log: log.child({ server: server.id }),
    now: () => Date.now(),
  };
}

async function offer(
  live: LiveLine,
  changes: readonly Change[],
  failed: IntakeParts['failed'],
): Promise<void> {
  try {
    await live.offer(changes);
  } catch (error) {
    if (!(error instanceof LineError)) throw error;
    failed(error);
  }
}

/** What screens show of the servers beside what the tape says. */
export function outsideOf(bound: Bound, intakes: readonly Intake[]): Outside {
  return {
    servers: bound.servers.map(({ id }, place) => {
      const status = intakes[place]?.status();
      return {
        id,
        up: status?.up ?? false,
        ...(status?.since === undefined ? {} : { since: status.since as EpochMs }),
        ...(status?.clockOffsetMs === undefined ? {} : { clockOffset: status.clockOffsetMs as Millis }),
      };
    }),
  };
}
