import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Intake, type IntakeOptions, startIntake } from '../../../gateway/intake/intake.ts';
import type { Change, Signal } from '../../../model/signals/signals.ts';
import { after, type Instant, instantFromMs, type Span } from '../../../model/units/units.ts';
import { namespace } from './testServer.ts';

const keys = mkdtempSync(join(tmpdir(), 'scoreline-test-intake-'));

export const signals: readonly Signal[] = [
  { index: 0, id: 'state', role: 'state', machine: 'm', server: 'plc', type: 'number' },
  { index: 1, id: 'count', role: 'goodCount', machine: 'm', server: 'plc', type: 'number' },
  { index: 2, id: 'stop', role: 'stopDevice', machine: 'm', server: 'plc', type: 'boolean' },
  { index: 3, id: 'text', role: 'alarmText', machine: 'm', server: 'plc', type: 'text' },
];
export const link = 9;

export interface Recorded {
  readonly intake: Intake;
  readonly changes: Change[];
  readonly batches: Change[][];
  readonly said: string[];
  of(signal: number): Change[];
}

export type Wish = Partial<Omit<IntakeOptions, 'server'>> & {
  endpoint: string;
  tags?: readonly string[];
} & Partial<IntakeOptions['server']>;

/** An intake of the four tags State, Count, Stop and Text, and everything it hands over. */
export function record(wish: Wish): Recorded {
  const { endpoint, security = 'none', clock = 'utc', tags = ['State', 'Count', 'Stop', 'Text'] } = wish;
  const changes: Change[] = [];
  const batches: Change[][] = [];
  const said: string[] = [];
  const say = (words: string) => void said.push(words);
  const take = async (some: Change[]) => {
    await wish.take?.(some);
    batches.push(some);
    changes.push(...some);
  };
  const intake = startIntake({
    signals: tags.map((tag, place) => ({ signal: signals[place]!, tag })),
    linkSignal: link,
    zone: 'Europe/Berlin',
    pkiFolder: keys,
    log: { info: say, warn: say },
    now: () => Date.now(),
    ...wish,
    // only the test of it wants the server's being heard written as well
    settings: { retryMs: 200, heardMs: 3_600_000, ...wish.settings },
    server: { id: 'plc', endpoint, security, clock, namespace: wish.namespace ?? namespace },
    take,
  });
  return { intake, changes, batches, said, of: (signal) => changes.filter((one) => one.signal === signal) };
}

/** Waits until something holds. The ceiling is for a run that hangs, not for a slow machine. */
export async function until(what: string, holds: () => boolean): Promise<void> {
  const ceiling = Date.now() + 120_000;
  while (!holds()) {
    if (Date.now() > ceiling) throw new Error(`Never came: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

export function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

/** The present moment, and `ticks` more. */
export function moment(ticks = 0): Instant {
  return after(instantFromMs(Date.now()), ticks as Span);
}
