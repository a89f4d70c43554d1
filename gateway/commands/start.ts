import { mkdirSync } from 'node:fs';
import { pino } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { readArguments } from './arguments.ts';
import { buildDashboard, dashboardIsOld } from './dashboard.ts';

const words = wordsIn('en').gateway;
// The OPC UA library prints its own warnings as it loads, before anybody can turn them down but by this; what a person
// has to know is told by the intake, in words. That is why `run` is imported after it.
process.env.NODEOPCUA_LOG_LEVEL ??= '3';
const log = pino({ level: process.env.SCORELINE_LOG ?? 'warn' }, pino.destination(2));

/** `npm start`: reads the command line, builds what is missing, runs until somebody ends it. */
async function main(): Promise<void> {
  const asked = readArguments(process.argv.slice(2));
  if (asked.help) {
    process.stdout.write(`${words.usage}\n`);
    return;
  }
  const stopped = untilAsked();
  makeFolder(asked.data);
  if (dashboardIsOld()) await build();
  const { run } = await import('./run.ts');
  const gateway = await run(asked, { log, say });
  say(words.step.open(gateway.address));
  say(words.step.panels(gateway.panels.join('  ')));
  say(words.step.end);
  const failed = await Promise.race([stopped, gateway.failed]);
  if (failed) tell(failed);
  else say(words.step.stopping);
  await gateway.stop();
  if (!failed) say(words.step.stopped);
  process.exit(failed ? 1 : 0);
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
      why: (error as Error).message,
      mend: words.folderTroubleMend,
    });
  }
}

/** Resolves when somebody asks the process to end. */
function untilAsked(): Promise<undefined> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
      process.once(signal, () => resolve(undefined));
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
