import { count } from './format.ts';

const whole = (n: number) => count(n, 'en-GB');

/** What is said by backing up, putting back and bringing in, and the troubles of it. */
export const backupWords = {
  copying: (name: string) => `Copying ${name}`,
  hashing: 'Hashing what was copied',
  reading: (line: string) => `Reading the tape of ${line}`,
  checking: 'Checking the backup',
  checkingCopy: 'Checking what was copied',
  progress: (what: string, percent: number) => `${what}: ${percent} %`,
  cancelled: 'Ended before it was done. Nothing of it is left.',

  made: (folder: string, files: number, megabytes: string) =>
    `The backup stands in ${folder}: ${files} files, ${megabytes} MB, with the hash of each in backup.json.`,
  line: (id: string, changes: number, end: number, sha256: string) =>
    `Tape of ${id}: ${whole(changes)} changes up to position ${whole(end)}, SHA-256 ${sha256}`,
  unread: (changes: number) =>
    `${whole(changes)} of them are damaged on the disk and cannot be read; they are in it as they are.`,
  leftOut: (names: readonly string[]) =>
    `Not in it: ${names.join(', ')}. Records of the past are made anew from the tape.`,
  noKeys:
    'Keys and certificates are not in it (--with-keys takes them along): a restored Scoreline makes new ones, and the PLC has to trust it again.',
  withKeys: 'Keys and certificates are in it: whoever has this folder can pass for this gateway.',
  people: 'Numbers, names and hashed secrets of people are in it (people.sqlite): keep it as you keep those.',
  restored: (data: string) => `The data folder stands in ${data}. Every hash is the one of the backup.`,
  restoredLine: (id: string, sha256: string) =>
    `Tape of ${id}: the same changes as were backed up, SHA-256 ${sha256}`,
  startDemo: (data: string) => `Start it with: npm start -- --data ${data}`,
  startLine: (file: string, data: string) => `Start it with: npm start -- --line ${file} --data ${data}`,

  usage: [
    'npm start -- backup FOLDER [options]',
    '',
    'Copies the data folder to FOLDER, while Scoreline runs or not: tape, people and all else, each database as it is at one',
    'moment, with the hash of every file and of the tape’s changes in backup.json. FOLDER stands there whole, or not at all.',
    'Records of the past are not copied: they are made anew from the tape.',
    '',
    '  --line FILE    the line’s file: it goes with the backup, with its symptoms and orders where they lie beside it',
    '  --data DIR     the data folder; ./data, for the demo ./data/demo, unless said',
    '  --with-keys    keys and certificates as well: whoever has them can pass for this gateway',
    '  --help         this text',
    '',
    'Ctrl-C ends it and leaves nothing. Exit code: 0 done, 1 trouble, 130 ended by somebody.',
  ].join('\n'),
  restoreUsage: [
    'npm start -- restore FOLDER --data DIR',
    '',
    'Puts a backup back as the data folder DIR, which must not be there yet or be empty. Every hash is checked before',
    'anything is copied and once more after; DIR stands there whole, or not at all. FOLDER stays as it is.',
    '',
    '  --data DIR     the data folder to make',
    '  --help         this text',
    '',
    'Ctrl-C ends it and leaves nothing. Exit code: 0 done, 1 trouble, 130 ended by somebody.',
  ].join('\n'),
  oneFolder: 'exactly one folder of a backup is needed',
  dataNeeded: '--data DIR is needed',

  fileTrouble: (file: string) => `${file} cannot be read or written.`,
  fileTroubleMend: 'Look at the path, at the room on the disk, and whether this user may do that there.',
  notCopied: (file: string) => `${file} cannot be copied.`,
  notCopiedMend: 'Look at the disk and its room. Nothing was left behind; what runs goes on.',
  nothingThere: (folder: string) => `There is no tape in ${folder}.`,
  nothingThereWhy: 'The folder holds no tape.sqlite, so there is nothing to take.',
  nothingThereMend: 'Say which data folder it is with --data DIR.',
  taken: (folder: string) => `${folder} is there already, and not empty.`,
  takenWhy: 'What lies in a folder is never overwritten.',
  takenMend: 'Give the name of a folder that is not there yet, or move that one away first.',
  noBackup: (folder: string) => `${folder} is no backup.`,
  newer: (file: string) => `${file} is of a format that is not known here.`,
  newerWhy: 'A newer Scoreline made the backup.',
  newerMend: 'Use that version, or a newer one.',
  damaged: (files: readonly string[]) =>
    files.length === 1
      ? `The backup is damaged: ${files[0]}.`
      : `The backup is damaged in ${files.length} files: ${files.join(', ')}.`,
  damagedWhy: 'What is there is not what was backed up: its hash or length is another, or it is missing.',
  otherChangesWhy: 'Its changes are not those that were backed up.',
  damagedMend: 'Nothing was put back. Use another backup, or another copy of this one.',
} as const;
