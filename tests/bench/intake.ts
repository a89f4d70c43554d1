import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { LINES, tags } from './intakeLines.ts';
import { climb, type Step, takeStep, type Trial } from './intakeSteps.ts';
import type { ListenerAnswer, ListenerQuestion } from './intakeListener.ts';
import { startAsked } from './intakeProcess.ts';
import type { ServerAnswer, ServerQuestion } from './intakeServer.ts';
import type { Figure } from './run.ts';

/** What a hundred lines change, and some more: changes a second. */
const USUAL = 2600;
const MANY = 10_000;
/** Seconds at these, and at each rate that is tried beyond them. */
const LONG = 20;
const SHORT = 10;
/** Folder into which the processes write what they spent their time with; none unless it is wanted. */
const { SCORELINE_PROFILE: profiles } = process.env;

interface Tried {
  readonly usual: Step;
  readonly many: Step;
  /** The highest rate that was held, and the first that was not. */
  readonly most: Step;
  readonly beyond: Step;
}

/**
 * The highest rate of changes that a gateway hears and records without loss or growing delay, from OPC UA to a tape that is
 * safe on disk: a hundred lines in one process, each with a client, a tape and a fold of its own. The reference is the
 * OPC UA library alone, with as many clients, in the same run. Server and listener are processes of their own.
 */
export async function measure(): Promise<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-intake-'));
  try {
    const fsyncMs = fsyncOf(folder);
    const gateway = await tryOut('intakeGateway.ts', join(folder, 'gateway'));
    const bare = await tryOut('intakeBare.ts', join(folder, 'bare'));
    const value = Math.round(gateway.most.perSecond);
    const reference = Math.round(bare.most.perSecond);
    return {
      value,
      unit: 'changes/s',
      reference,
      ratio: Math.round((value / reference) * 100) / 100,
      lines: LINES,
      signalsPerLine: tags.length,
      ...costs('', gateway),
      ...costs('bare', bare),
      fsyncMs,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A server, and a listener on it, from the usual rate up to what it no longer holds. */
async function tryOut(file: string, folder: string): Promise<Tried> {
  const flags = profiles === undefined ? [] : ['--cpu-prof', '--cpu-prof-dir', join(profiles, file)];
  const server = startAsked<ServerQuestion, ServerAnswer>('intakeServer.ts', [join(folder, 'server')]);
  const { endpoint } = await server.ask({ kind: 'where' });
  const listener = startAsked<ListenerQuestion, ListenerAnswer>(
    file,
    [endpoint, join(folder, 'listener')],
    flags,
  );
  const trial: Trial = { name: file, server, listener, ahead: [], spoiled: 0 };
  while (!(await listener.ask({ kind: 'ready' })).ready) await setTimeout(200);
  const usual = await takeStep(trial, USUAL, LONG);
  const many = await takeStep(trial, MANY, LONG);
  const tried = { usual, many, ...(await climb(trial, [usual, many], SHORT)) };
  await listener.end();
  await server.end();
  return tried;
}

/**
 * One side's figures by name: `cpuAt2600`, or `bareCpuAt2600`; in % of a core, and of the time. `perCpuSecond` is what a
 * second of processor time takes, which tells the sides apart where the server sets the limit of both. `others` is what
 * the machine did beside: above a few %, the rates are lower than they could be.
 */
function costs(side: string, { usual, many, most, beyond }: Tried): Record<string, number | string> {
  const named = (name: string) => (side === '' ? name : `${side}${name[0]!.toUpperCase()}${name.slice(1)}`);
  const held = [usual, many, most].filter(({ held }) => held);
  const sum = (of: (step: Step) => number) => held.reduce((total, step) => total + of(step), 0);
  const figures = {
    cpuAt2600: usual.cpu,
    cpuAt10000: many.cpu,
    cpuAtMost: most.cpu,
    busyAt2600: usual.busy,
    busyAt10000: many.busy,
    busyAtMost: most.busy,
    serverBusyAtMost: most.serverBusy,
    perCpuSecond: Math.round((100 * most.perSecond) / most.cpu),
    rssMBAt10000: many.rssMB,
    delayAt2600Ms: usual.lastMs,
    delayAt10000Ms: many.lastMs,
    others: Math.max(...[usual, many, most].map(({ others }) => others)),
    limit: beyond.limit,
    sent: sum(({ sent }) => sent),
    counted: sum(({ counted }) => counted),
  };
  return Object.fromEntries(Object.entries(figures).map(([name, figure]) => [named(name), figure]));
}

/** The middle time of putting 4 KB on the disk for good. Milliseconds. */
function fsyncOf(folder: string): number {
  const file = openSync(join(folder, 'fsync'), 'a');
  const block = Buffer.alloc(4096, 1);
  const times = Array.from({ length: 200 }, () => {
    const began = performance.now();
    writeSync(file, block);
    fsyncSync(file);
    return performance.now() - began;
  });
  closeSync(file);
  return Math.round(times.sort((a, b) => a - b)[100]! * 100) / 100;
}
