import { count } from './format.ts';

const whole = (n: number) => count(n, 'en-GB');

/** What is said when a tape of another machine is put before this one's. */
export const importWords = {
  reading: 'Reading that tape',
  writing: 'Writing it before this one',
  checking: 'Checking what was written',
  done: (line: string, changes: number, begin: number) =>
    `${whole(changes)} changes stand before the tape of ${line}, which begins at position ${whole(begin)} now.`,
  hash: (sha256: string) => `They are the changes of that tape, SHA-256 ${sha256}`,
  unknown: (ids: readonly string[]) =>
    `Signals that this line’s file has not: ${ids.join(', ')}. They are kept, and read when the file gets them.`,
  missing: (ids: readonly string[]) =>
    `Signals of this line’s file that are not on that tape: ${ids.join(', ')}.`,
  ended:
    'That tape ended while its PLC was heard; after its end stands that nobody was looking, until this machine’s tape begins.',
  next: 'Numbers of people on it mean what they meant on that machine. The next start works the past out anew, in the background.',
  usage: [
    'npm start -- import SOURCE --line FILE [options]',
    '',
    'Puts a tape of another machine before what this line’s tape holds. SOURCE is a backup, a data folder that nobody uses, or a',
    'tape.sqlite; it is only read. It has to end before this one begins. All of it is there then, held against the source by',
    'the hash of its changes, or nothing. Scoreline must not run meanwhile.',
    '',
    '  --line FILE      the line’s file on this machine',
    '  --data DIR       the data folder; ./data unless said',
    '  --from-line ID   the line’s id on that tape; the same as here unless said',
    '  --help           this text',
    '',
    'Ctrl-C ends it and leaves nothing. Exit code: 0 done, 1 trouble, 130 ended by somebody.',
  ].join('\n'),
  oneSource: 'exactly one backup, data folder or tape is needed',
  lineNeeded: '--line FILE is needed: the demo takes nothing in',
  noTape: (folder: string) => `There is no tape in ${folder}.`,
  noTapeWhy: 'The folder holds no tape.sqlite.',
  noTapeMend: 'Give a backup, a data folder, or a tape.sqlite itself.',
  noLine: (line: string) => `That tape holds nothing of a line “${line}”.`,
  noLineWhy: (known: readonly string[]) =>
    known.length === 0 ? 'It holds nothing at all.' : `It holds: ${known.join(', ')}.`,
  noLineMend: 'Name the line on that tape with --from-line ID.',
  overlaps: (line: string) => `That tape and the one of ${line} overlap in time.`,
  overlapsWhy: (end: string, begin: string) => `That one ends at ${end}, and this one begins at ${begin}.`,
  overlapsMend:
    'Nothing was brought in. A tape can be put before another one only where it ends before that begins; where it is the later one, restore it and import this one into it.',
  takenAway: 'The beginning of this line’s tape was taken away.',
  takenAwayWhy: 'What is kept for a limited time has left it, and its positions are not given twice.',
  takenAwayMend: 'Import into a data folder of its own.',
  different: (file: string) => `What was written to ${file} is not what was read.`,
  differentWhy: 'The hash of its changes is another one: the disk, or this program, changed them.',
  differentMend: 'Nothing was brought in. Look at the disk, and keep the source.',
} as const;
