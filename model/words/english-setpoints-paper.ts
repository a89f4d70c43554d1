import type { SetPointRow, SetPointsPast } from '../past/setPointsPast.ts';
import { clock, day, dayOfYear } from './clock.ts';
import { count, locale, many } from './english-say.ts';
import { number, SURE } from './english-setpoints-said.ts';

/** How what stands is known, in as few words as a row of paper has room for. */
const KNOWN: Readonly<Record<SetPointRow['stands']['known'], string>> = {
  sensor: 'sensor',
  uncertain: 'sensor, uncertain',
  typed: 'entered',
  readBack: 'read back',
  confirmed: 'as book',
  silent: 'silent now',
  none: '',
};

/** Sentences of the printed sheet: one page of paper a size. */
export const setPointPaperWords = {
  title: (size: string) => `Set points, ${size}`,
  back: (size: string) => `Set points of ${size}`,
  print: 'Print',
  lead: 'One page for the machine: the number of the book for each adjustment in walking order, and a line to write what was read.',
  brand: 'Scoreline',
  of: (line: string, product: string) => `${line}, ${product}`,
  columns: {
    station: 'station',
    adjustment: 'adjustment',
    book: 'book',
    stands: { now: 'now', before: 'last run', never: 'now' },
    ranWell: 'ran well',
    sure: 'how sure',
    read: 'read',
    who: 'who',
  },
  book: (row: SetPointRow) => (row.book === undefined ? '–' : number(row.book, row)),
  named: ({ name, unit }: SetPointRow) => `${name}, ${unit}`,
  stands: (row: SetPointRow) => (row.stands.value === undefined ? '' : number(row.stands.value, row)),
  known: ({ stands }: SetPointRow) => KNOWN[stands.known],
  ranWell: (row: SetPointRow) => {
    const range = row.learned?.ranWell;
    if (!range) return '–';
    return range.from === range.to
      ? number(range.from, row)
      : `${number(range.from, row)} to ${number(range.to, row)}`;
  },
  sure: ({ learned }: SetPointRow) => (learned ? SURE[learned.sure] : 'no run'),
  datum: ({ datum }: SetPointRow) => (datum ? `datum ${count(datum.number)}` : ''),
  learned: ({ from }: SetPointsPast, zone: string) =>
    from.runs === 0
      ? 'No run of this size is recorded.'
      : `Recorded: ${count(from.runs)} ${many(from.runs, 'run', 'runs')}${from.since === undefined ? '' : ` since ${day(from.since, zone, locale)}`}.`,
  stood: {
    now: 'Now: as it stood when this was printed.',
    before: 'Last run: as it stood when the newest run at rate ended.',
    never: 'This size has not run at rate.',
  },
  write: 'Read from the scale with the machine isolated and locked out, and written by:',
  date: 'date',
  name: 'number',
  lot: 'board lot',
  parts: 'change parts',
  foot: (moment: number, zone: string, version: string) =>
    `As of ${dayOfYear(moment, zone, locale)}, ${clock(moment, zone, locale)}; model version ${version}. The book changes: what hangs at a machine may be older than the book.`,
} as const;
