import { mkdirSync } from 'node:fs';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { type Asked, readArguments } from './arguments.ts';
import { commandIn, runCommand } from './commands.ts';
import { buildDashboard, dashboardIsOld } from './dashboard.ts';
import { createLog } from './log.ts';
import type { Gateway } from './run.ts';

const words = wordsIn('en').gateway;
// The OPC UA library prints its own warnings as it loads, before anybody can turn them down but by this; what a person
// has to know is told by the intake, in words. That is why `run` is imported after it.
process.env.NODEOPCUA_LOG_LEVEL ??= '3';

/** `npm start`: reads the command line, builds what is missing, runs until somebody ends it; or does what a command says. */
async function main(): Promise<void> {
  const [first, ...rest] = process.argv.slice(2);
  const command = commandIn(first);
  if (command !== undefined) return runCommand(command, rest);
  const asked = readArguments(process.argv.slice(2));
  if (asked.help) {
    process.stdout.write(`${words.usage}\n`);
    return;
  }
  const stopped = untilAsked();
  const gateway = await Promise.race([start(asked), stopped]);
  if (!gateway) return end();
  say(words.step.open(gateway.address));
  say(words.step.panels(gateway.panels.join('  ')));
  say(words.step.end);
  const failed = await Promise.race([stopped, gateway.failed]);
  if (!failed) say(words.step.stopping);
  await gateway.stop().catch((error: unknown) => {
    // what made it fail makes closing fail as well, and is told once
    if (!failed || !(error instanceof LineError)) throw error;
  });
  if (failed) throw failed;
  say(words.step.stopped);
  process.exit(0);
}

async function start(asked: Asked): Promise<Gateway> {
  makeFolder(asked.data);
  if (dashboardIsOld()) await build();
  const { run } = await import('./run.ts');
  return run(asked, { log: createLog(), say });
}

/** While it is still starting nothing has to be brought to an end: what was told is on disk, and the child ends with its input. */
function end(): never {
  say(words.step.stopped);
  process.exit(0);
}

async function build(): Promise<void> {
  say(words.step.building);
  const began = performance.now();
  await buildDashboard();
  say(words.step.built(((performance.now() - began) / 1000).toFixed(1)));
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new LineError(words.folderTrouble(folder), {
      why: words.system.why((error as NodeJS.ErrnoException).code),
      mend: words.folderTroubleMend,
    });
  }
}

/** A signal often comes twice, from the terminal and from npm; only one after this long means: at once. Milliseconds. */
const TWICE_MS = 2000;

/** Resolves when somebody asks the process to end. */
function untilAsked(): Promise<undefined> {
  return new Promise((resolve) => {
    let asked: number | undefined;
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
      process.on(signal, () => {
        asked ??= performance.now();
        if (performance.now() - asked > TWICE_MS) process.exit(1);
        resolve(undefined);
      });
  });
}

function say(text: string): void {
  process.stdout.write(`${text}\n`);
}

function tell(error: LineError): void {
  process.stderr.write(`\n${error.message}\n${error.why}\n${error.mend}\n`);
}

try {
  await main();
} catch (error) {
  if (!(error instanceof LineError)) throw error;
  tell(error);
  process.exit(1);
}
