import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { Logger } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
import type { EpochMs, Millis } from '../../model/units/units.ts';
import type { Outside } from '../../model/view/lineView.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Bound } from '../binding/binding.ts';
import type { Intake, IntakeOptions, IntakeStatus } from '../intake/intake.ts';
import { lastKnown } from '../live/lastKnown.ts';
import type { LiveLine } from '../live/liveLine.ts';

const words = wordsIn('en').gateway;

export interface IntakeParts {
  readonly bound: Bound;
  readonly live: LiveLine;
  readonly data: string;
  readonly log: Logger;
  readonly stopping: AbortSignal;
  /** The server's clock runs as it likes. */
  readonly simulated?: boolean;
  /** Between two tries to record; for tests. Milliseconds. */
  readonly retryMs?: number;
}

/** What the intake of one server of a line needs. */
export function intakeOptions(server: Bound['servers'][number], parts: IntakeParts): IntakeOptions {
  const { bound, live, data, log } = parts;
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
    take: recording(parts),
    known: (signal) => lastKnown(live, signal),
    lineAhead: parts.simulated ? undefined : live.fold().state.leads[server.id],
    log: log.child({ server: server.id }),
    now: () => Date.now(),
  };
}

/** Between two tries to record. Milliseconds. */
const RETRY_MS = 1000;

/**
 * What cannot be recorded is not shown. A disk that is full may have room again, a file that is held may be let go: it is
 * tried until it works or the gateway ends. Meanwhile the intake takes no more, the server's queues hold what comes, and
 * what they lose is marked as a gap. The same trouble is told once, until something was recorded again. What is given up
 * at the gateway's end is a hole that the next start declares: nothing may be recorded behind it.
 */
function recording({ live, log, stopping, retryMs = RETRY_MS }: IntakeParts): IntakeOptions['take'] {
  let told: string | undefined;
  let givenUp = false;
  return async (changes) => {
    while (!givenUp) {
      try {
        await live.offer(changes);
        if (told !== undefined) log.warn(words.recordedAgain);
        told = undefined;
        return;
      } catch (error) {
        if (!(error instanceof LineError)) throw error;
        const trouble = words.inOneLine(error);
        if (trouble !== told) log.error(trouble);
        told = trouble;
        givenUp = stopping.aborted;
        await setTimeout(retryMs, undefined, { signal: stopping }).catch(() => undefined);
      }
    }
  };
}

/** What screens show of the servers beside what the tape says. `simulated`: their clock is not to be held against ours. */
export function outsideOf(bound: Bound, intakes: readonly Intake[], simulated: boolean): Outside {
  return {
    servers: bound.servers.map(({ id }, place) => {
      const status = intakes[place]?.status();
      return {
        id,
        up: status?.up ?? false,
        ...(status?.since === undefined ? {} : { since: status.since as EpochMs }),
        ...(simulated || status?.clockOffsetMs === undefined ? {} : clockOf(status, status.clockOffsetMs)),
      };
    }),
  };
}

/** What line time makes of a clock, and by how much somebody set that. */
function clockOf({ clockSetMs }: IntakeStatus, offsetMs: number): { clockOffset: Millis; clockSet: Millis } {
  return { clockOffset: (offsetMs - clockSetMs) as Millis, clockSet: clockSetMs as Millis };
}
