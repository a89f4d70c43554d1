import { count } from './english-say.ts';

/** Troubles of the list of orders. */
export const orderWords = {
  columns: (known: readonly string[], missing: readonly string[]) => ({
    what: `The first line has no ${missing.join(', ')}.`,
    why: 'The first line of a list of orders names its columns.',
    mend: `Write it as: ${known.join(',')}`,
  }),
  columnTwice: (column: string) => ({
    what: `The column “${column}” stands twice.`,
    why: 'Only one of the two could hold.',
    mend: 'Take one of them out.',
  }),
  openQuote: {
    what: 'A quote is not closed.',
    why: 'Everything after it would be one value.',
    mend: 'Close the quote, or write "" for a quote inside a value.',
  },
  strayQuote: {
    what: 'A quote stands where none can be.',
    why: 'A quoted value begins right after the comma and ends right before the next.',
    mend: 'Quote the whole value.',
  },
  cells: (found: number, wanted: number) => ({
    what: `This line has ${count(found)} values instead of ${count(wanted)}.`,
    why: 'Each line has one value for each column.',
    mend: 'Add or remove commas; a value with a comma in it stands in double quotes.',
  }),
  noNumber: {
    what: 'The order has no number.',
    why: 'It is known by it.',
    mend: 'Write its number.',
  },
  tooLong: (column: string, most: number) => ({
    what: `The ${column} is longer than ${count(most)} characters.`,
    why: 'No screen could show it.',
    mend: 'Shorten it.',
  }),
  quantity: (shown: string) => ({
    what: `“${shown}” is no number of cartons.`,
    why: 'It has to be a whole number of at most nine digits, 1 or more, without separators.',
    mend: 'Write it as in 18480.',
  }),
  due: (shown: string) => ({
    what: `“${shown}” is no date and time.`,
    why: 'It is read in the line’s time zone, or with an offset of its own.',
    mend: 'Write it as in 2026-03-17 14:00, or leave it empty.',
  }),
  tooMany: (most: number) => ({
    what: `The list is longer than ${count(most)} orders.`,
    why: 'No more are kept at a time.',
    mend: 'Take out orders that have ended.',
  }),
} as const;
