import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import type { LineEvent } from '../../model/fold/events.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Change } from '../../model/signals/signals.ts';
import { after, between, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import { ledgerOf } from '../../simulator/ledger/ledger.ts';
import { openEntries, runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { stream, uniform } from '../../simulator/machine/random.ts';
import { boundLine, monday } from '../simulator/simulatedLine.ts';
import { type Judgement, judge } from './judge.ts';

const child = join(import.meta.dirname, 'killedGateway.ts');

/** What kills did to a gateway: a judgement of its whole tape, and all that was wrong after one of them. */
export interface Killed extends Judgement {
  readonly kills: number;
}

/** What a gateway had told when it was killed. */
interface Told {
  readonly resumed: { readonly position: number; readonly hash: string };
  readonly at: Instant;
  readonly position: number;
}

/** Kills a gateway so many times, each at a moment drawn from the seed, and away for up to a minute of the line's time. */
export async function killAgainAndAgain(seed: number, kills: number): Promise<Killed> {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-kills-'));
  const draw = stream(seed, 'kills');
  const { line } = boundLine();
  const faults: Fault[] = [];
  const wrong: string[] = [];
  let from = monday;
  let tape: Tape = { changes: [], events: [], fold: new LineFold(line), hash: '' };
  let to = from;
  try {
    for (let n = 0; n < kills; n += 1) {
      const told = await untilKilled({ folder, seed, from, lives: uniform(draw, 20, 300) });
      if (told.resumed.hash !== tape.hash && n > 0) wrong.push(`kill ${n}: resumed to another state`);
      tape = await tapeOf(folder);
      if (tape.changes.length < told.position)
        wrong.push(`kill ${n}: ${told.position} acknowledged, ${tape.changes.length} kept`);
      // what came after its last word may be recorded, too
      to = tape.changes.reduce((newest, { at }) => Math.max(newest, at) as Instant, told.at);
      const lasts = Math.round(uniform(draw, 1, 60) * SECOND) as Span;
      faults.push({ kind: 'killed', at: between(monday, to), lasts });
      from = after(to, lasts);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  const machine = startMachine({ seed, start: monday, lively: 2 });
  runUntil(machine, after(to, 1 as Span));
  const ledger = ledgerOf([...takeEntries(machine), ...openEntries(machine)]);
  const judged = judge({ line, ledger, ...tape, to }, faults, monday);
  return { ...judged, wrong: [...wrong, ...judged.wrong], kills };
}

/** Lives so many milliseconds after its first word, and is ended without warning. */
async function untilKilled(wish: {
  readonly folder: string;
  readonly seed: number;
  readonly from: Instant;
  readonly lives: number;
}): Promise<Told> {
  const process_ = spawn(
    process.execPath,
    ['--import', 'tsx', child, wish.folder, `${wish.seed}`, `${wish.from}`],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  );
  let resumed: Told['resumed'] | undefined;
  let last = { at: wish.from, position: 0 };
  for await (const text of createInterface({ input: process_.stdout })) {
    const words = text.split(' ');
    if (words[0] === 'resumed') {
      resumed = { position: Number(words[1]), hash: words[2]! };
    } else {
      if (last.at === wish.from) setTimeout(() => process_.kill('SIGKILL'), wish.lives);
      last = { at: Number(words[0]) as Instant, position: Number(words[1]) };
    }
  }
  if (resumed === undefined) throw new Error('the gateway ended before it said a word');
  return { resumed, ...last };
}

interface Tape {
  readonly changes: readonly Change[];
  readonly events: readonly LineEvent[];
  readonly fold: LineFold;
  readonly hash: string;
}

/** All that the tape holds, folded from its beginning. */
async function tapeOf(folder: string): Promise<Tape> {
  const { line } = boundLine();
  const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
  const fold = new LineFold(line);
  const changes: Change[] = [];
  const events: LineEvent[] = [];
  for await (const some of tape.read(line.id, 0, tape.end(line.id))) {
    changes.push(...some);
    events.push(...fold.take(some));
  }
  await tape.close();
  return { changes, events, fold, hash: createHash('sha256').update(fold.text()).digest('hex') };
}
