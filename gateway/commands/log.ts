import { type Logger, pino } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').gateway;
const labels: { readonly [level: number]: string } = {
  40: words.log.warning,
  50: words.log.error,
  60: words.log.fatal,
};

/**
 * The log, on standard error: one JSON object a line for programs, one short line for a person at a terminal. It tells
 * warnings and worse unless SCORELINE_LOG names another level of pino's.
 */
export function createLog(out: NodeJS.WriteStream = process.stderr): Logger {
  const level = levelOf(process.env.SCORELINE_LOG);
  if (!out.isTTY) return pino({ level }, pino.destination(2));
  return pino({ level }, { write: (line: string) => void out.write(forPeople(line)) });
}

/** `warn` when nothing is said, as by a variable that is set to nothing. */
function levelOf(wish = ''): string {
  const levels = ['silent', ...Object.values(pino.levels.labels).reverse()];
  if (wish === '') return 'warn';
  if (levels.includes(wish)) return wish;
  throw new LineError(words.options.badLogLevel(wish), {
    why: words.options.badLogLevelWhy,
    mend: words.options.badLogLevelMend(levels),
  });
}

/** One line of the log as a person reads it: time, how bad, what. */
export function forPeople(line: string): string {
  const row = JSON.parse(line) as Row;
  const time = new Date(row.time).toLocaleTimeString('en-GB');
  const label = labels[row.level];
  const stack = row.err === undefined ? '' : `\n${row.err.stack ?? row.err.message}`;
  return `${time} ${label === undefined ? '' : `${label}: `}${row.msg}${stack}\n`;
}

interface Row {
  readonly level: number;
  readonly time: number;
  readonly msg: string;
  readonly err?: { readonly message: string; readonly stack?: string };
}
