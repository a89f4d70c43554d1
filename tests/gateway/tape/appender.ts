import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { signals, stretch } from './stretch.ts';

/**
 * A process that appends the same endless stream from wherever the tape in a folder ends, and prints each position
 * once it is durable, until it is ended or refused. With `hold` it only keeps the folder open.
 */
const [folder, mode] = process.argv.slice(2) as [string, string | undefined];
const line = 'line-3';

async function run(): Promise<void> {
  const tape = await openSqliteTape(folder, new Map([[line, signals('cycles', 'starved', 'lot')]]));
  process.stdout.write(`open ${tape.end(line)}\n`);
  if (mode === 'hold') setInterval(() => {}, 1000);
  else for (;;) await printed(await tape.append(line, stretch(tape.end(line), tape.end(line) + 70)));
}

function printed(position: number): Promise<void> {
  return new Promise((resolve) => process.stdout.write(`${position}\n`, () => resolve()));
}

try {
  await run();
} catch (error) {
  if (!(error instanceof LineError)) throw error;
  process.stdout.write(`refused ${error.message} ${error.why}\n`, () => process.exit(0));
}
