import { createWriteStream, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Writable } from 'node:stream';
import { LineError } from '../model/trouble/trouble.ts';
import { wordsIn } from '../model/words/words.ts';
import type { Fault } from './faults/faults.ts';
import { faultsText } from './faults/language.ts';
import { ledgerLine } from './ledger/ledger.ts';
import type { LedgerEntry } from './ledger/entries.ts';
import { tagsOf } from './lines/tags.ts';
import { devicesOf } from './lines/variant.ts';
import { lineFileText } from './lines/variants.ts';
import { openEntries, presentFacts, startMachine } from './machine/machine.ts';
import { type Asked, readArguments } from './server/arguments.ts';
import { readFaultFile } from './server/faultFile.ts';
import { type Listener, machineTime, type Pace, runLive, systemClock, wallInstant } from './server/live.ts';
import { readyLine, send, sendHistory } from './server/protocol.ts';

const words = wordsIn('en').simulator;

/** Runs the simulator: history on standard output first, then a live server until it is stopped. */
async function run(asked: Asked, stopped: AbortSignal): Promise<void> {
  const clock = systemClock;
  const pace: Pace = { at: asked.start ?? wallInstant(clock), wall: clock.now(), speed: asked.speed };
  const now = () => machineTime(pace, clock.now());
  const { seed, variant, lockOuts, lively, made, sendFrom } = asked;
  const tags = tagsOf(variant);
  const faults = asked.faults === undefined ? undefined : readFaultFile(asked.faults, tags);
  const start = asked.history ?? pace.at;
  const machine = startMachine({ seed, variant, lockOuts, lively, madeBefore: made, start });
  const ledger = asked.ledger === undefined ? undefined : openLedger(asked.ledger);
  const note = async (entries: readonly LedgerEntry[]) => {
    if (ledger) await send(ledger, entries.map(ledgerLine).join(''));
  };
  const history = asked.history === undefined ? undefined : process.stdout;
  if (history) await sendHistory(machine, now(), { out: history, from: sendFrom, note, stopped });
  // Loaded here because it takes its time, and whoever only asks for a line file should not wait for it.
  const [{ startPlcServer }, { startFaultedServer }] = await Promise.all([
    import('./server/plcServer.ts'),
    import('./server/faultedServer.ts'),
  ]);
  const { port, host, certificates } = asked;
  const options = { clock: now, port, host, certificates, tags, devices: devicesOf(variant) };
  const begins = (fault: Fault) => process.stderr.write(words.faults.begins(faultsText([fault])));
  const server: LineServer = faults
    ? await startFaultedServer({ ...options, faults, start: pace.at, begins })
    : await startPlcServer(options);
  if (history) await sendHistory(machine, now(), { out: history, from: sendFrom, note, stopped });
  await server.tell(presentFacts(machine), machine.plant.now);
  await send(process.stdout, readyLine(server.endpoint));
  process.stderr.write(`${words.listening(server.endpoint, seed, asked.speed)}\n`);
  await runLive(machine, pace, clock, listenerOf(server, note), stopped);
  await note(openEntries(machine));
  ledger?.end();
  await server.stop();
}

/** A server of the line's PLC, with faults or without. */
interface LineServer extends Pick<Listener, 'tell' | 'due'> {
  readonly endpoint: string;
  stop(): Promise<void>;
}

function listenerOf(server: LineServer, note: Listener['note']): Listener {
  return { tell: (facts, until) => server.tell(facts, until), due: () => server.due?.(), note };
}

function openLedger(file: string): Writable {
  mkdirSync(dirname(file), { recursive: true });
  return createWriteStream(file);
}

/** Aborts when standard input closes or somebody asks the process to end. */
function untilStopped(): AbortSignal {
  const stop = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stop.abort());
  process.stdin.once('end', () => stop.abort());
  process.stdin.once('close', () => stop.abort());
  process.stdin.once('error', () => stop.abort());
  process.stdout.on('error', () => stop.abort());
  process.stdin.resume();
  return stop.signal;
}

/** What a person can mend is told in three sentences; anything else is our own mistake and ends the process. */
function tell(error: unknown): void {
  if (!(error instanceof LineError)) throw error;
  process.stderr.write(`${error.message}\n${error.why}\n${error.mend}\n`);
  process.exitCode = 1;
}

// Standard output belongs to the protocol; what libraries print goes where logs go.
console.log = console.error;
console.info = console.error;
console.warn = console.error;

try {
  const asked = readArguments(process.argv.slice(2), wallInstant(systemClock));
  if (asked.printLine) process.stdout.write(lineFileText(asked.variant));
  else await run(asked, untilStopped());
} catch (error) {
  tell(error);
}
process.stdin.pause();
