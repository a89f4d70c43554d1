import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { shiftAt } from '../../model/calendar/calendar.ts';
import type { Line } from '../../model/line/line.ts';
import type { Change } from '../../model/signals/signals.ts';
import { GOOD } from '../../model/status/status.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { after, epochMs, type Instant, instantFromMs, type Span } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Bound } from '../binding/binding.ts';
import { changesIn, type Places, placesOf, simulator } from './demoRows.ts';

const words = wordsIn('en').gateway;

/** The bundled line. */
export const demoLineFile = fileURLToPath(new URL('../../simulator/lines/line-3.yaml', import.meta.url));

export interface Demo {
  readonly endpoint: string;
  /** Resolves when the process has ended by itself. */
  readonly ended: Promise<LineError>;
  stop(): Promise<void>;
}

/** What makes the simulated machine the same at each start. */
export interface Run {
  readonly seed: number;
  /** True: the clock of the machine begins at `began` when the process does, and has no past. */
  readonly fixed: boolean;
  /** Machine time at which this simulated machine began. */
  readonly began: number;
  /** One that ran faster than the clock has put on its tape what lies ahead of it. */
  readonly speed: number;
}

const HOUR_MS = 3_600_000;
/**
 * A simulated machine older than this is replaced by a new one, as each start runs it through all its past. That costs
 * 20 ms of one core an hour (measured: 48 h 1.2 s, 168 h 3.5 s, 336 h 6.7 s): three days are under two seconds, beside the
 * five or six that loading the OPC UA library takes.
 */
const RUN_MOST_MS = 72 * HOUR_MS;
/**
 * So is one that was off for longer. What passed meanwhile is played in, at 0.2 s of one core an hour (measured: 60 h 11 s);
 * a new machine begins with the shift before this, at most 16 hours ago on the bundled line. So no start has more than
 * four seconds to play in.
 */
const OFF_MOST_MS = 16 * HOUR_MS;

/**
 * Starts the simulated line as a process of its own. The machine never stops: it began at the start of a shift, and at
 * each start of Scoreline it is run through all that has passed since, so that the shift so far is there to be seen.
 * `past` gets what happened up to now; what lies before `newest`, the moment last heard, is left out.
 */
export async function startDemo(
  bound: Bound,
  options: {
    readonly data: string;
    readonly run: Run;
    readonly speed: number;
    readonly newest: Instant;
    /** Where the tape says that the PLC is not heard: since when. */
    readonly apart: Instant | undefined;
    readonly past: (changes: readonly Change[]) => Promise<void>;
  },
): Promise<Demo> {
  const { run } = options;
  const args = ['--seed', String(run.seed), '--speed', String(options.speed), '--port', '0'];
  args.push(
    '--certificates',
    join(options.data, 'simulator'),
    run.fixed ? '--start' : '--history',
    new Date(run.began).toISOString(),
  );
  if (options.newest >= 0 && !run.fixed)
    args.push('--send-from', new Date(epochMs(options.newest) - 1).toISOString());
  const child = spawn(process.execPath, ['--import', 'tsx', simulator, ...args], {
    stdio: ['pipe', 'pipe', 'inherit'],
    // Ctrl-C in a terminal reaches only this process, which then ends the other one in its turn
    detached: true,
  });
  const ended = once(child, 'exit').then(([code, signal]) => endedError(String(code ?? signal)));
  const endpoint = await Promise.race([readHistory(child, bound, options), ended]);
  if (endpoint instanceof LineError) throw endpoint;
  return { endpoint, ended, stop: () => stop(child, ended) };
}

/** Where a data folder says that it is the demo's, and of which run. */
export function runFile(data: string): string {
  return join(data, 'demo.json');
}

/**
 * What a data folder says of its run. Undefined where it says nothing, or nothing that can be read: a power cut may have left
 * half a file, and then nobody knows which machine the tape is of.
 */
export function readRun(data: string): Run | undefined {
  const file = runFile(data);
  if (!existsSync(file)) return undefined;
  try {
    return runShape.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof z.ZodError) return undefined;
    throw error;
  }
}

const runShape = z.object({
  seed: z.number(),
  fixed: z.boolean(),
  began: z.number(),
  speed: z.number().default(1),
});

/** Whether a simulated machine that began earlier, and whose tape was last written to at `seen`, is the one to be shown. */
export function goesOn(run: Run, now: number, seen = now): boolean {
  return !run.fixed && run.speed === 1 && now - run.began < RUN_MOST_MS && now - seen < OFF_MOST_MS;
}

interface RunWish {
  readonly data: string;
  readonly seed: number | undefined;
  readonly from: number | undefined;
  readonly speed: number;
  readonly now: () => number;
}

/** Seed of the demo unless another is asked for. */
const SEED = 3;

/** The same seed and beginning as before, kept beside the tape; a new one begins with the shift before this. */
export function runOf(line: Line, { data, seed, from, speed, now }: RunWish): Run {
  const before = readRun(data);
  if (before && goesOn(before, now())) return before;
  mkdirSync(data, { recursive: true });
  const began = from ?? beginning(line, instantFromMs(now()));
  const run: Run = { seed: seed ?? SEED, began, fixed: from !== undefined, speed };
  writeFileSync(runFile(data), `${JSON.stringify(run)}\n`);
  return run;
}

/** The shift before the present one: so much has happened that the line has a normal of its own. */
function beginning(line: Line, now: Instant): number {
  const shift = shiftAt(line.calendar, line.zone, now);
  const before = shift && shiftAt(line.calendar, line.zone, after(shift.from, -1 as Span));
  return epochMs(before?.from ?? shift?.from ?? now);
}

interface Past {
  readonly newest: Instant;
  readonly apart: Instant | undefined;
  readonly past: (changes: readonly Change[]) => Promise<void>;
}

async function readHistory(
  child: ChildProcess,
  bound: Bound,
  { past, newest, ...gap }: Past,
): Promise<string> {
  const places = placesOf(bound);
  let { apart } = gap;
  for await (const { changes, ready } of changesIn(child.stdout!, places)) {
    const fresh = changes.filter(({ at }) => at > newest);
    const heard = apart === undefined ? undefined : heardAfter(apart, fresh, places);
    apart = undefined;
    const all = heard ? [heard, ...fresh] : fresh;
    if (all.length > 0) await past(all);
    if (ready !== undefined) return ready;
  }
  return new Promise(() => {}); // the process ended without being ready: `ended` tells
}

/**
 * The gateway was off, and now gets all that it missed, as if it had been heard: nothing is missing since `apart`.
 * Unless the PLC itself was dark then, which shows in its getting power first.
 */
function heardAfter(apart: Instant, history: readonly Change[], { link }: Places): Change | undefined {
  const first = history.find((change) => change.signal === link);
  if (history.length === 0 || first?.value === true) return undefined;
  return { signal: link, at: apart, received: apart, status: GOOD, value: 'whole' };
}

async function stop(child: ChildProcess, ended: Promise<LineError>): Promise<void> {
  child.stdin?.end();
  await ended;
}

function endedError(code: string): LineError {
  return new LineError(words.simulatorEnded(code), {
    why: words.simulatorEndedWhy,
    mend: words.simulatorEndedMend,
  });
}
