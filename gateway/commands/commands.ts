import { wordsIn } from '../../model/words/words.ts';
import type { Work } from '../backup/progress.ts';

/** What a command does. `say` prints a line. */
export type Command = (args: readonly string[], work: Work, say: (text: string) => void) => Promise<void>;

const COMMANDS = {
  export: async () => (await import('./exportCommand.ts')).exportCommand,
  backup: async () => (await import('./backupCommand.ts')).backupCommand,
  import: async () => (await import('./importCommand.ts')).importCommand,
  restore: async () => (await import('./restoreCommand.ts')).restoreCommand,
} as const satisfies Readonly<Record<string, () => Promise<Command>>>;

export type CommandName = keyof typeof COMMANDS;

/** The exit code of what somebody ended on its way, as shells have it (128 and SIGINT's number). */
const CANCELLED = 130;
/** A word on how far it is comes when so much more is done, in hundredths; and where it is read by no terminal, seldom. */
const TELL_EVERY = { terminal: 1, file: 10 };

/** The command that a command line begins with; undefined where it begins with none. */
export function commandIn(first: string | undefined): CommandName | undefined {
  return first !== undefined && Object.hasOwn(COMMANDS, first) ? (first as CommandName) : undefined;
}

/** Does it, tells how far it is, and lets Ctrl-C end it in good order. */
export async function runCommand(name: CommandName, args: readonly string[]): Promise<void> {
  const stopping = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => stopping.abort());
  const command = await COMMANDS[name]();
  const terminal = teller();
  try {
    await command(args, { stopping: stopping.signal, progress: terminal.progress }, terminal.say);
  } catch (error) {
    if (!stopping.signal.aborted) throw error;
    terminal.say(wordsIn('en').gateway.backup.cancelled);
    process.exitCode = CANCELLED;
  } finally {
    terminal.say('');
  }
}

/** One line that is written over where a terminal can do that. */
function teller() {
  const { stdout } = process;
  const words = wordsIn('en').gateway.backup;
  const every = stdout.isTTY ? TELL_EVERY.terminal : TELL_EVERY.file;
  let told = { what: '', percent: -1 };
  let open = false;
  return {
    progress: (what: string, share: number) => {
      const percent = Math.floor((share * 100) / every) * every;
      if (told.what === what && percent <= told.percent) return;
      const next = told.what !== what && open;
      told = { what, percent };
      const text = words.progress(what, percent);
      if (!stdout.isTTY) return void stdout.write(`${text}\n`);
      stdout.write(`${next ? '\n' : ''}\r${text}`);
      open = true;
    },
    say: (text: string) => {
      if (open) stdout.write('\n');
      open = false;
      if (text !== '') stdout.write(`${text}\n`);
    },
  };
}
