import { cpus } from 'node:os';
import { setTimeout } from 'node:timers/promises';
import type { ListenerAnswer, ListenerQuestion } from './intakeListener.ts';
import type { Asked } from './intakeProcess.ts';
import type { ServerAnswer, ServerQuestion } from './intakeServer.ts';

/** A server and who listens to it. */
export interface Trial {
  readonly name: string;
  readonly server: Asked<ServerQuestion, ServerAnswer>;
  readonly listener: Asked<ListenerQuestion, ListenerAnswer>;
  /** How many values of each tag the listener had more than were sent, before a step: the first ones, mostly. */
  ahead: readonly number[];
  /** Steps that others spoiled so far. */
  spoiled: number;
}

/** A rate, held for a while, and what it cost. */
export interface Step {
  /** Changes a second that were asked for. */
  readonly wanted: number;
  /** Changes that the server really made. */
  readonly perSecond: number;
  readonly sent: number;
  readonly counted: number;
  /** % of one core. */
  readonly cpu: number;
  readonly serverCpu: number;
  /** % of the time in which it did not wait for work. */
  readonly busy: number;
  readonly serverBusy: number;
  /** What all other processes of this machine took meanwhile, % of one core. */
  readonly others: number;
  readonly rssMB: number;
  /** From a change until it was taken, in the last third of the time. Milliseconds. */
  readonly lastMs: number;
  /** All came, and did not come later and later. */
  readonly held: boolean;
  /** Who did not keep up, being the busier of the two; `none` where both did. */
  readonly limit: 'none' | 'server' | 'listener';
}

/** From rest to pace, before anything is measured. Milliseconds. */
const RUN_UP_MS = 2000;
/** Where nothing more comes for so long, the rest is lost. Milliseconds. */
const LOST_MS = 5000;
/** A delay that rises by more than a publishing interval is growing. Milliseconds. */
const RISE_MS = 250;
/** Of the rate that it was asked for, the server has to make so much. */
const KEPT = 0.97;
/** While all is held, each try is so many times as fast; then it goes on halfway, until held and not held lie so close. */
const FASTER = 1.5;
const CLOSE = 1.15;
/**
 * What else the machine does spoils a step: one that was not held is tried again, and where others took more than so much of
 * a core it does not count, and there is a wait: of such tries there are only so many.
 */
const TRIES = 2;
const SPOILED_MOST = 6;
const OTHERS_MOST = 20;
const SPOILED_WAIT_MS = 20_000;

/** Rest, then a rate for so many seconds, then rest until all has been taken that was sent. */
export async function takeStep(trial: Trial, wanted: number, seconds: number): Promise<Step> {
  let best: Step | undefined;
  for (let tries = 0; tries < TRIES; ) {
    const step = await tryStep(trial, wanted, seconds);
    if (step.limit === 'none') return step;
    if (!best || (step.held && (!best.held || step.perSecond > best.perSecond))) best = step;
    if (step.others > OTHERS_MOST && trial.spoiled < SPOILED_MOST) {
      trial.spoiled += 1;
      await setTimeout(SPOILED_WAIT_MS);
    } else {
      tries += 1;
    }
  }
  return best!;
}

async function tryStep(trial: Trial, wanted: number, seconds: number): Promise<Step> {
  const { server, listener, name } = trial;
  await align(trial);
  const before = total(trial.ahead);
  const sentBefore = total((await server.ask({ kind: 'rest' })).counts);
  await server.ask({ kind: 'pace', perSecond: wanted });
  await setTimeout(RUN_UP_MS);
  await Promise.all([server.ask({ kind: 'measure' }), listener.ask({ kind: 'measure' })]);
  const began = { work: workOfAll(), at: performance.now() };
  await setTimeout(seconds * 1000);
  const all = (100 * (workOfAll() - began.work)) / (performance.now() - began.at);
  const [made, heard] = await Promise.all([
    server.ask({ kind: 'measured' }),
    listener.ask({ kind: 'measured' }),
  ]);
  const { counts: sent } = await server.ask({ kind: 'rest' });
  const counted = await untilCounted(trial, sent);
  const whole = counted.every((count, place) => count === sent[place]! + trial.ahead[place]!);
  const held = whole && heard.lastMs - heard.firstMs < RISE_MS && heard.lastMs < 4 * RISE_MS;
  const kept = made.perSecond >= KEPT * wanted;
  const step: Step = {
    wanted,
    // it may make up for what it was late with before
    perSecond: Math.min(made.perSecond, wanted),
    sent: total(sent) - sentBefore,
    counted: total(counted) - before - sentBefore,
    cpu: tenths(heard.cpu),
    serverCpu: tenths(made.cpu),
    busy: tenths(heard.busy),
    serverBusy: tenths(made.busy),
    others: tenths(Math.max(0, all - made.cpu - heard.cpu)),
    rssMB: Math.round(heard.rssBytes / 1e6),
    lastMs: heard.lastMs,
    held,
    limit: held && kept ? 'none' : heard.busy >= made.busy ? 'listener' : 'server',
  };
  const { firstMs, mostMs, warned } = heard;
  process.stdout.write(`${name}: ${JSON.stringify({ ...step, firstMs, mostMs })}\n`);
  for (const text of warned.slice(0, 3)) process.stdout.write(`${name} warns: ${text}\n`);
  return step;
}

/** From rates that were tried to the highest that is held, closer and closer to the lowest that is not. */
export async function climb(
  trial: Trial,
  tried: readonly Step[],
  seconds: number,
): Promise<{ readonly most: Step; readonly beyond: Step }> {
  let most = tried.findLast(({ held }) => held);
  let beyond = tried.find(({ limit }) => limit !== 'none');
  for (;;) {
    const low = most?.perSecond ?? 0;
    if (most && beyond && (beyond.limit === 'server' || beyond.wanted / low < CLOSE)) return { most, beyond };
    const next = beyond ? (low + beyond.wanted) / 2 : FASTER * low;
    const step = await takeStep(trial, Math.round(next), seconds);
    if (step.held && step.perSecond > low) most = step;
    if (step.limit !== 'none') beyond = step;
  }
}

/** What the listener has before anything is sent; and after a step in which something was lost. */
async function align(trial: Trial): Promise<void> {
  const { counts: sent } = await trial.server.ask({ kind: 'rest' });
  while (!(await trial.listener.ask({ kind: 'ready' })).ready) await setTimeout(200);
  const counts = await untilCounted(trial, undefined);
  trial.ahead = counts.map((count, place) => count - sent[place]!);
}

/** Counts of the listener, once it has all that was sent, or nothing more comes. */
async function untilCounted(
  { listener, ahead }: Trial,
  sent: readonly number[] | undefined,
): Promise<readonly number[]> {
  const wanted = sent === undefined ? Number.POSITIVE_INFINITY : total(sent) + total(ahead);
  let last = -1;
  let since = performance.now();
  for (;;) {
    const { counts } = await listener.ask({ kind: 'counts' });
    const now = total(counts);
    if (now >= wanted) return counts;
    if (now !== last) since = performance.now();
    else if (performance.now() - since > (sent === undefined ? RUN_UP_MS : LOST_MS)) return counts;
    last = now;
    await setTimeout(100);
  }
}

/** Time that all cores together have worked since the machine was started. Milliseconds. */
function workOfAll(): number {
  return cpus().reduce((sum, { times }) => sum + times.user + times.nice + times.sys + times.irq, 0);
}

function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}

function total(counts: readonly number[]): number {
  return counts.reduce((sum, count) => sum + count, 0);
}
