import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import type { Change } from '../../model/signals/signals.ts';
import { GOOD } from '../../model/status/status.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { type Instant, instantFromMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Bound } from '../binding/binding.ts';
import { changesIn, placesOf, simulator } from './demoRows.ts';

const words = wordsIn('en').gateway;

export interface HistoryWish {
  readonly bound: Bound;
  readonly data: string;
  readonly seed: number;
  /** Milliseconds since 1970. */
  readonly from: number;
  readonly to: number;
  readonly stopping: AbortSignal;
}

/**
 * Days of the simulated line before the one that is watched began: another run of the same machine, as fast as it goes. Throws
 * a `LineError` where the simulator ends before it was done; ends without a word when it is stopped.
 */
export async function* demoHistory(wish: HistoryWish): AsyncGenerator<readonly Change[]> {
  const { bound, data, seed, from, to, stopping } = wish;
  const iso = (ms: number) => new Date(ms).toISOString();
  const child = spawn(
    process.execPath,
    [
      ...['--import', 'tsx', simulator, '--seed', String(seed), '--port', '0'],
      ...['--history', iso(from), '--start', iso(to), '--certificates', join(data, 'simulator')],
    ],
    { stdio: ['pipe', 'pipe', 'pipe'], detached: true },
  );
  const ended = once(child, 'exit');
  // what it says of itself is of interest only where it fails
  const said: string[] = [];
  child.stderr!.setEncoding('utf8').on('data', (text: string) => said.push(text));
  const stop = () => child.stdin!.end();
  stopping.addEventListener('abort', stop);
  try {
    for await (const changes of whole(child, bound, said))
      yield changes.filter(({ at }) => at < lastMoment(to));
    yield [seam(bound, to)];
  } finally {
    stopping.removeEventListener('abort', stop);
    stop();
    child.stdout!.resume();
    await ended;
  }
}

/** What follows is another run's: its counters have nothing to do with this one's. */
function seam(bound: Bound, to: number): Change {
  const signal = bound.line.signals.findIndex(({ role }) => role === 'link');
  const at = lastMoment(to);
  return { signal, at, received: at, status: GOOD, value: 'anew' };
}

/** The last moment before another one, in milliseconds. */
function lastMoment(to: number): Instant {
  return (instantFromMs(to) - 1) as Instant;
}

async function* whole(
  child: ChildProcess,
  bound: Bound,
  said: readonly string[],
): AsyncGenerator<readonly Change[]> {
  for await (const { changes, ready } of changesIn(child.stdout!, placesOf(bound))) {
    if (changes.length > 0) yield changes;
    if (ready !== undefined) return;
  }
  process.stderr.write(said.join(''));
  throw new LineError(words.simulatorEnded(String(child.exitCode ?? child.signalCode)), {
    why: words.simulatorEndedWhy,
    mend: words.simulatorEndedMend,
  });
}
