import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type Intake,
  type IntakeOptions,
  type IntakeStatus,
  startIntake,
} from '../../gateway/intake/intake.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { byLineTime, type Change } from '../../model/signals/signals.ts';
import {
  after,
  between,
  epochMs,
  type Instant,
  SECOND,
  type Span,
  TICKS_PER_MS,
} from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { type Ledger, ledgerOf } from '../../simulator/ledger/ledger.ts';
import { tagsOf } from '../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../simulator/lines/variant.ts';
import {
  type Machine,
  nextAt,
  openEntries,
  presentFacts,
  runUntil,
  startMachine,
  takeEntries,
} from '../../simulator/machine/machine.ts';
import { shown, type TagWrite } from '../../simulator/machine/plc.ts';
import { type FaultedServer, startFaultedServer } from '../../simulator/server/faultedServer.ts';
import { machineTime, type Pace, systemClock } from '../../simulator/server/live.ts';
import { namespaceUri } from '../../simulator/server/plcServer.ts';
import { pause, until } from '../gateway/intake/fixture.ts';
import { boundLine } from '../simulator/simulatedLine.ts';
import type { FaultedRun } from './faultedRun.ts';

export interface WireWish {
  readonly seed: number;
  readonly lively: number;
  readonly start: Instant;
  /** Of the line's time, from its start on. */
  readonly seconds: number;
  readonly speed: number;
  /** With times at which they happen at the earliest: one begins only when the outage of the last is over. */
  readonly faults: readonly Fault[];
  readonly makesOutage: (fault: Fault) => boolean;
  /** Whether the line waits until it is heard before it runs; otherwise what it makes until then is nobody's to count. */
  readonly waits?: boolean;
  readonly clock?: IntakeOptions['server']['clock'];
  /** Cartons of the first order that were made before. */
  readonly madeBefore?: number;
  /** Seconds of the line's time that have passed when somebody begins to listen; 0 unless said. */
  readonly heardFrom?: number;
  /** A tag that the server watches, which tells that all has come; the heartbeat unless said. */
  readonly mark?: string;
}

interface Outage {
  readonly from: Instant;
  readonly to: Instant;
}

/** A run through real OPC UA, and what the intake said meanwhile. */
export interface WireRun extends FaultedRun {
  readonly start: Instant;
  /** As they happened. */
  readonly faults: readonly Fault[];
  /** When the intake said that it does not hear the server. */
  readonly outages: readonly Outage[];
  /** What the machine's own PLC told, before any fault happened to it. */
  readonly facts: readonly TagWrite[];
  readonly link: readonly Change[];
  readonly said: readonly string[];
  readonly status: IntakeStatus;
  of(tag: string): readonly Change[];
  requests(name: string): number;
  /** Numbers of the subscriptions that each server gave in its turn. */
  readonly subscriptions: readonly (readonly number[])[];
}

/** Seconds instead of minutes, so that a test sees what waits for long in the field. */
const short = {
  keepAliveCount: 4,
  keepAliveMs: 500,
  requestMs: 3000,
  retryMs: 200,
  clockMs: 300,
} as const;

const GOOD = 'Discharge.Good';
const BEAT = 'Cartoner.Heartbeat';
const keys = mkdtempSync(join(tmpdir(), 'scoreline-test-wire-'));

/** Once no run needs them any more. */
export function dropKeys(): void {
  rmSync(keys, { recursive: true, force: true });
}

/** The simulated line, its server and its cable with faults, and the real intake, as the clock goes. */
export async function runWired(wish: WireWish): Promise<WireRun> {
  const { seed, lively, start, speed, waits = true, heardFrom = 0, mark = BEAT, madeBefore = 0 } = wish;
  const machine = startMachine({ seed, start, lively, lockOuts: false, madeBefore });
  const began = after(start, (heardFrom * SECOND) as Span);
  const clock = new LineClock(began, speed);
  const open = async () => {
    const [tags, devices] = [tagsOf(standard), devicesOf(standard)];
    const planned = { start, faults: wish.faults.filter(({ at }) => at === 0) };
    const place = { port: 0, certificates: join(keys, 'server') };
    const server = await startFaultedServer({ ...place, ...planned, tags, devices, clock: () => clock.now });
    await server.tell(presentFacts(machine), start);
    if (began > start) await server.tell(runUntil(machine, began), began);
    const ear = listen(wish, server.endpoint);
    await until('it has its keys', () => existsSync(join(keys, 'client/own/certs/scoreline.pem')));
    return { server, ear };
  };
  const { server, ear } = await inTurn(open);
  if (waits) await until('the server is heard', () => ear.intake.status().up);
  clock.run();
  const { entries, happened, to, ...rest } = await play({ machine, server, clock, wish, ear });
  const last = mark === BEAT ? Number(shown(machine.plant.plc, BEAT)) + 1 : 'the last value';
  await server.tell([{ at: to, tag: mark, value: last }], after(to, 1 as Span));
  await until('the last value', () => ear.of(mark).some(({ value }) => value === last));
  const [changes, status] = [ear.batches.flat(), ear.intake.status()];
  await ear.intake.stop();
  await server.stop();
  const fold = new LineFold(ear.line);
  // some of it comes late, and what was told before that is amended
  const events = fold.take(changes.toSorted(byLineTime));
  const ledger = ledgerOf(entries);
  return {
    ...{
      line: ear.line,
      fold,
      events,
      changes,
      to,
      start,
      faults: happened,
      said: ear.said,
      status,
      ...rest,
    },
    ledger: since(ledger, waits ? began : firstHeard(rest.facts, ear.of(GOOD))),
    link: changes.filter(({ signal }) => signal === ear.link),
    of: (tag) => changes.filter(({ signal }) => signal === ear.places.get(tag)),
    requests: (name) => server.requests(name),
    subscriptions: server.subscriptions(),
  };
}

let turn: Promise<unknown> = Promise.resolve();

/** One after the other: keys take their time to make, and are made once for all. */
function inTurn<Result>(work: () => Promise<Result>): Promise<Result> {
  const mine = turn.then(work);
  turn = mine;
  return mine;
}

/** The intake of every tag of the line, and all it hands over. */
function listen({ start, heardFrom = 0, clock = 'utc' }: WireWish, endpoint: string) {
  const { line, tags } = boundLine();
  const batches: (readonly Change[])[] = [];
  const said: string[] = [];
  const places = new Map([...tags].map(([signal, { tag }]) => [tag, signal]));
  const link = line.signals.findIndex(({ role }) => role === 'link');
  // the line's day is not today
  const shift = epochMs(start) + heardFrom * 1000 - Date.now();
  const say = (words: string) => void said.push(words);
  const intake: Intake = startIntake({
    server: { id: 'plc', endpoint, security: 'none', clock, namespace: namespaceUri },
    signals: [...tags].map(([signal, { tag }]) => ({ signal: line.signals[signal]!, tag })),
    linkSignal: link,
    zone: line.zone,
    pkiFolder: join(keys, 'client'),
    log: { info: say, warn: say },
    now: () => Date.now() + shift,
    settings: short,
    take: async (changes) => void batches.push(changes),
  });
  /** How often the server was lost so far, as it is recorded. */
  const lost = () => batches.flat().filter(({ signal, value }) => signal === link && value === false).length;
  const of = (tag: string) => batches.flat().filter(({ signal }) => signal === places.get(tag));
  return { intake, line, link, batches, said, places, of, lost };
}

/** The line's time, which stands until it is let run, and then runs some times as fast as ours. */
class LineClock {
  private readonly start: Instant;
  private readonly speed: number;
  private pace: Pace | undefined;

  constructor(start: Instant, speed: number) {
    this.start = start;
    this.speed = speed;
  }

  get now(): Instant {
    return this.pace ? machineTime(this.pace, systemClock.now()) : this.start;
  }

  run(): void {
    this.pace = { at: this.start, wall: systemClock.now(), speed: this.speed };
  }

  /** How long it takes until a moment. Milliseconds. */
  until(at: Instant): number {
    return (at - this.now) / TICKS_PER_MS / this.speed;
  }
}

interface Played {
  readonly entries: readonly LedgerEntry[];
  readonly facts: readonly TagWrite[];
  readonly happened: readonly Fault[];
  readonly outages: readonly Outage[];
  readonly to: Instant;
}

/** What a line makes at least after the last outage. */
const AFTERWARDS = (3 * SECOND) as Span;

/**
 * Runs the machine by the clock, and lets one fault after the other happen: each when its time has come and the outage of
 * the last is over, however busy the computer is.
 */
async function play(parts: {
  readonly machine: Machine;
  readonly server: FaultedServer;
  readonly clock: LineClock;
  readonly wish: WireWish;
  readonly ear: ReturnType<typeof listen>;
}): Promise<Played> {
  const { machine, server, clock, ear } = parts;
  const { faults, start, seconds, makesOutage } = parts.wish;
  const [entries, facts]: [LedgerEntry[], TagWrite[]] = [[], []];
  const happened = faults.filter(({ at }) => at === 0);
  const outages: Outage[] = [];
  let lost: Instant | undefined;
  const isHeard = () => ear.intake.status().up && ear.lost() >= happened.filter(makesOutage).length;
  const pass = async (until: Instant) => {
    const some = runUntil(machine, until);
    for (const fact of some) if ('tag' in fact) facts.push(fact);
    await server.tell(some, until);
    entries.push(...takeEntries(machine));
    if (!isHeard()) lost ??= until;
    else if (lost !== undefined) {
      outages.push({ from: lost, to: until });
      lost = undefined;
    }
    const next = Math.min(nextAt(machine), server.due() ?? Number.POSITIVE_INFINITY) as Instant;
    await pause(Math.min(20, Math.max(1, clock.until(next))));
  };
  let late = 0;
  let due = start;
  for (const fault of [...faults.filter(({ at }) => at > 0), undefined]) {
    const wanted = (start + (fault?.at ?? seconds * SECOND) + late) as Instant;
    for (due = wanted; clock.now < due || !isHeard(); ) {
      if (clock.now >= due) due = after(clock.now, fault ? (0 as Span) : AFTERWARDS);
      await pass(Math.min(clock.now, due) as Instant);
    }
    await pass(due);
    late += between(wanted, due);
    if (!fault) continue;
    happened.push({ ...fault, at: between(start, due) });
    server.plan(happened.at(-1)!);
  }
  return { entries: [...entries, ...openEntries(machine)], facts, happened, outages, to: due };
}

/** When the count that was heard first was told. */
function firstHeard(facts: readonly TagWrite[], counts: readonly Change[]): Instant {
  return facts.find(({ tag, value }) => tag === GOOD && value === counts[0]?.value)!.at;
}

/** What happened after a moment, and what was set by then. */
function since(ledger: Ledger, from: Instant): Ledger {
  return {
    ...ledger,
    cartons: ledger.cartons.filter(({ at }) => at > from),
    missed: ledger.missed.filter(({ at }) => at > from),
    crushed: ledger.crushed.filter(({ at }) => at > from),
    stops: ledger.stops.filter(({ begin }) => begin > from),
    presses: ledger.presses.filter(({ pressed }) => pressed > from),
    changeovers: ledger.changeovers.filter(({ begin }) => begin > from),
    guards: ledger.guards.filter(({ opened }) => opened > from),
  };
}
