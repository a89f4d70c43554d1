import { decimal } from './format.ts';

const locale = 'en-GB';
const plain = (n: number) => (Number.isInteger(n) ? String(n) : decimal(n, 1, locale));

/** What the simulator prints, and what its PLC says in events. */
export const simulatorWords = {
  listening: (endpoint: string, seed: number, speed: number) =>
    `The simulated line answers at ${endpoint} (seed ${seed}, speed ${plain(speed)}).`,
  pressed: (device: string) => `Stop device pressed: ${device}`,
  released: (device: string) => `Stop device released: ${device}`,
  badOption: (detail: string) => `The simulator cannot be called like this: ${detail}.`,
  badOptionWhy: 'Only the options named in simulator/README.md exist.',
  badOptionMend: 'Correct the option, or leave it out.',
  badValue: (option: string, value: string) => `The value “${value}” of ${option} cannot be used.`,
  badNumberWhy: (low: number, high: number, whole: boolean) =>
    `It has to be a ${whole ? 'whole ' : ''}number from ${plain(low)} to ${plain(high)}.`,
  badChoiceWhy: (choices: readonly string[]) => `It has to be one of: ${choices.join(', ')}.`,
  badValueMend: 'Give another value.',
  badMomentWhy: 'It is not a date and time.',
  badMomentMend: 'Write it as in 2026-03-17T06:00:00+01:00.',
  historyLater: 'History cannot begin after live running does.',
  historyLaterWhy: 'The moment of --history is not before that of --start, or not in the past.',
  historyLaterMend: 'Give an earlier moment for --history.',
  faults: {
    notUnderstood: (lines: readonly number[]) =>
      `${lines.length === 1 ? 'Line' : 'Lines'} ${lines.join(', ')} of the faults cannot be read.`,
    notUnderstoodWhy: 'Each line is a time after the start, as 0:12:30, and one of the known sentences.',
    notUnderstoodMend: (sentences: readonly string[]) => `Write one of these: ${sentences.join('; ')}.`,
    noFile: (file: string) => `The faults cannot be read from ${file}.`,
    noFileWhy: (detail: string) => `The file could not be opened (${detail}).`,
    noFileMend: 'Give --faults the path of a text file that exists and may be read.',
    noSuchTag: (tags: readonly string[]) =>
      `The faults name ${tags.length === 1 ? 'a tag' : 'tags'} to which that cannot happen: ${tags.join(', ')}.`,
    noSuchTagWhy:
      'The simulated line has no such tag, or it is no counter or no stop device where the fault needs one.',
    noSuchTagMend: 'Take a tag as the line file names it; --print-line prints the line file.',
    begins: (sentence: string) => `Fault at ${sentence}`,
    /** How a place in a sentence is shown. */
    field: { name: 'TAG', count: 'N', span: 'N s' },
  },
  portTaken: (port: number) => `The simulated PLC cannot listen on port ${port}.`,
  portTakenWhy: 'Another program already uses that port.',
  portTakenMend: 'End that program, or choose another port with --port.',
} as const;
