import { count } from './format.ts';

const whole = (n: number) => count(n, 'en-GB');

/** What is told when the tape cannot be opened, written or read. */
export const tapeWords = {
  damagedBlob: 'A piece of the tape is damaged.',
  damagedBlobWhy: 'Its checksum does not match its content: something changed it after it was written.',
  damagedBlobMend: 'Use an undamaged copy of it, from a backup.',
  newerBlob: (version: number) =>
    `A piece of the tape is written in format ${version}, which is not known here.`,
  newerBlobWhy: 'A newer Scoreline wrote it.',
  newerBlobMend: 'Use that version, or a newer one.',

  damaged: (line: string, from: number, to: number) =>
    `The tape of ${line} is damaged between changes ${whole(from)} and ${whole(to)}.`,
  damagedWhy: 'What is stored there is not what was written: the disk, or another program, changed it.',
  damagedMend:
    'Keep a copy of the data folder, and put back its last backup. What lies before and after is read; the time between is unknown.',
  overlap: (line: string, position: number) => `The tape of ${line} has change ${whole(position)} twice.`,
  overlapWhy: 'What is stored there is not what was written: another program changed it.',
  missing: (line: string, position: number) => `The tape of ${line} lacks change ${whole(position)}.`,
  missingWhy: 'A part that was once stored is no longer there: the disk, or another program, removed it.',
  damagedFile: (file: string) => `The tape ${file} is damaged.`,
  damagedFileWhy: 'Its pages are not those of a tape any more: the disk, or another program, changed them.',
  damagedFileMend:
    'Keep a copy of the data folder, and put back its last backup, or give an empty folder with --data DIR.',
  foreign: (file: string) => `${file} is not a tape.`,
  foreignWhy: 'Another program made it.',
  foreignMend: 'Give a folder of its own for the tape with --data DIR.',
  newer: (file: string, found: number, known: number) =>
    `The tape ${file} has format ${found}; this Scoreline knows formats up to ${known}.`,
  newerWhy: 'A newer Scoreline has used this data folder.',
  newerMend: 'Start that version or a newer one, or give another folder with --data DIR.',

  inUse: (folder: string) => `The data folder ${folder} is in use.`,
  inUseWhy: (process: number | undefined) =>
    process === undefined
      ? 'Another Scoreline has it open.'
      : `Another Scoreline has it open: process ${process} on this machine.`,
  inUseMend: 'End the other one, or give another folder with --data DIR.',

  full: (file: string) => `Nothing more can be recorded: there is no room left for ${file}.`,
  fullWhy: 'The disk, or what this user may take of it, is full.',
  fullMend: 'Make room on the disk. What was recorded before is complete.',
  readOnly: (file: string) => `${file} cannot be written.`,
  readOnlyWhy: 'The file, its folder or the disk is read-only for this user.',
  readOnlyMend: 'Let this user write there, or give another folder with --data DIR.',
  disk: (file: string) => `The disk refused to store or to give back a part of ${file}.`,
  diskWhy: (code: string) => `The system reported ${code}.`,
  diskMend: 'Look at the disk and at the system’s log. What was recorded before is complete.',
  busy: (file: string) => `${file} is held by another program.`,
  busyWhy: 'Something other than Scoreline has it open for writing.',
  busyMend: 'End that program. Copy the data folder only while Scoreline is stopped.',
} as const;
