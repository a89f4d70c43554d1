import type { Learned, SetPointRow, SetPointsPast, Spread, Stands } from '../past/setPointsPast.ts';
import type { Sureness } from '../setpoints/estimate.ts';
import { clock, day } from './clock.ts';
import { at, capital, count, locale, many, small } from './english-say.ts';
import { setPointOpenedWords } from './english-setpoints-opened.ts';
import { setPointPaperWords } from './english-setpoints-paper.ts';
import { counted, number, signed, SURE, sureWhy } from './english-setpoints-said.ts';
import * as numbers from './format.ts';

const runs = (n: number) => `${count(n)} ${many(n, 'run', 'runs')}`;

/** Clock time alone within a day of the screen's own, else with the date. */
function when(moment: number, now: number, zone: string): string {
  const time = clock(moment, zone, locale);
  return Math.abs(now - moment) < 64_800_000 ? time : `${day(moment, zone, locale)} ${time}`;
}

function lead({ sums, rows, runs: seen, size }: SetPointsPast, zone: string): readonly [string, string] {
  const { adjustments, off, unknown, silent } = sums;
  const told = adjustments - unknown - silent;
  const rest = [
    tried(rows),
    silences(sums),
    confirmations(rows, sums, zone),
    openOnes(sums),
    SEEN[seen](size.name),
  ];
  const first =
    told === 0
      ? `It is not known of any of the ${count(adjustments)} adjustments where it stands.`
      : off === 0
        ? `None of ${count(adjustments)} adjustments is known to differ from the book.`
        : `${count(off)} of ${count(adjustments)} adjustments ${off === 1 ? 'is' : 'are'} known to differ from the book.`;
  return [first, rest.filter((part) => part !== '').join(' ')];
}

const SEEN: { readonly [seen in SetPointsPast['runs']]: (size: string) => string } = {
  now: () => '',
  before: (size) =>
    `${size} does not run now: all of this is how it stood when its newest run at rate ended.`,
  never: (size) => `${size} has not run at rate in anything that is recorded.`,
};

/** Which of them stand where nobody has tried before, by their names. */
function tried(rows: readonly SetPointRow[]): string {
  const never = rows.filter(({ stands }) => stands.tried === 'never');
  if (never.length === 0) return '';
  const named = never.map((row) => `${row.number} ${row.name} by ${signed(row.stands.off ?? 0, row)}`);
  const where = `${capital(small(never.length))} of them ${never.length === 1 ? 'stands' : 'stand'} where nobody has tried before`;
  return `${where}: ${listOf(named)}.`;
}

function listOf(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

function silences({ silent }: SetPointsPast['sums']): string {
  return silent === 0 ? '' : `${capital(small(silent))} ${many(silent, 'sensor is', 'sensors are')} silent.`;
}

function confirmations(
  rows: readonly SetPointRow[],
  { confirmed }: SetPointsPast['sums'],
  zone: string,
): string {
  if (confirmed === 0) return '';
  const times = new Set(
    rows
      .filter(({ stands }) => stands.known === 'confirmed' && stands.at !== undefined)
      .map(({ stands }) => at(stands.at!, zone)),
  );
  const then = times.size === 1 ? ` at ${[...times][0]}` : '';
  return `${count(confirmed)} ${many(confirmed, 'was', 'were')} only confirmed as in the book${then}; nobody has read ${many(confirmed, 'it', 'them')} since.`;
}

function openOnes({ unknown, adjustments }: SetPointsPast['sums']): string {
  if (unknown === 0 || unknown === adjustments) return '';
  return `Of ${count(unknown)} nobody has said where ${many(unknown, 'it stands', 'they stand')}.`;
}

function learnedFrom({ from, size, runs: seen }: SetPointsPast, zone: string): string {
  if (from.runs === 0) return `No run of ${size.name} is recorded that could teach anything.`;
  const since = from.since === undefined ? '' : ` since ${day(from.since, zone, locale)}`;
  const lots = from.lots.length === 0 ? 'board lots not told' : named('board lot', from.lots);
  const parts = from.parts.length === 0 ? '' : `; ${named('change part', from.parts)}`;
  const goesOn = seen === 'now' ? ' What runs now teaches once it is over.' : '';
  return `Recorded: ${runs(from.runs)}${since}, ${count(from.cartons)} cartons; ${lots}${parts}.${goesOn}`;
}

/** No more names than a line can bear. */
const NAMED_MOST = 4;
function named(what: string, names: readonly string[]): string {
  const newest = names.slice(-NAMED_MOST);
  const more = names.length - newest.length;
  return `${many(names.length, what, `${what}s`)} ${newest.join(', ')}${more > 0 ? ` and ${count(more)} before` : ''}`;
}

function known({ known: how, at: since }: Stands, now: number, zone: string): string {
  const time = since === undefined ? '' : when(since, now, zone);
  switch (how) {
    case 'sensor':
      return 'by a sensor';
    case 'uncertain':
      return 'by a sensor, uncertain';
    case 'typed':
      return `last entered ${time}`;
    case 'readBack':
      return `read back ${time}`;
    case 'confirmed':
      return `as book, ${time}`;
    case 'silent':
      return 'sensor silent';
    case 'none':
      return 'nobody has said';
  }
}

/** What stands beside the tab of an off-book number; of the others all there is to say. */
function differs({ stands, book, ...row }: SetPointRow, now: number, zone: string): string {
  const { known: how, off, tried: was, at: since, value } = stands;
  if (how === 'none') return 'read the scale';
  if (how === 'silent') {
    const last = value === undefined ? '' : `, was ${number(value, row)}`;
    return `${since === undefined ? 'no reading yet' : `no reading since ${when(since, now, zone)}`}${last}`;
  }
  if (book === undefined || off === undefined) return 'no book number';
  if (off !== 0) return was === undefined ? 'not known how it runs there' : TRIED[was];
  return how === 'confirmed' ? 'none said; read the scale' : 'as the book';
}

const TRIED = {
  well: 'tried, ran well',
  badly: 'tried, ran worse',
  never: 'never tried',
} as const;

function rejects(spread: Spread | undefined): string {
  if (!spread) return 'not counted';
  const { mean, low, high } = spread;
  const tenths = (n: number) => numbers.decimal(n, 1, locale);
  return low === undefined || high === undefined
    ? `${tenths(mean)}, no interval`
    : `${tenths(mean)} (${tenths(low)} to ${tenths(high)})`;
}

function scaleSaid(row: SetPointRow): string {
  const { book, stands, learned } = row;
  const range = (what: string, of: Learned['likely']) =>
    of ? `, ${what} ${number(of.from, row)} to ${number(of.to, row)}` : '';
  return [
    `${row.number} ${row.name}: ${book === undefined ? 'no book number' : `book ${number(book, row)}`}`,
    stands.value === undefined ? ', not known where it stands' : `, stands at ${number(stands.value, row)}`,
    range('ran well from', learned?.ranWell),
    range('best number likely from', learned?.likely),
  ].join('');
}

/** Sentences of the Set points screen. */
export const setPointsWords = {
  title: (size: string) => `Set points, ${size}`,
  asking: 'Set points',
  lead,
  learnedFrom,
  sizes: 'Which size',
  print: 'Print the sheet',
  onlyDiffers: 'Only what differs',
  noneDiffers: 'None of them is known to differ from the book.',
  noAdjustments: 'The line’s file names no numbered adjustment.',
  columns: {
    station: 'station',
    adjustment: 'adjustment',
    book: 'book',
    scale: 'on its scale: book, settings that ran well, likely best, now',
    stands: {
      now: 'now, and how known',
      before: 'at the end of its last run, and how known',
      never: 'now, and how known',
    },
    differs: 'what differs',
    rejects: (most: number) => `rejects per 1,000, 0 to ${count(most)}, between runs`,
    sure: 'how sure: a mark is a run, a gap another setting',
  },
  open: (row: SetPointRow, size: string) => `Open ${row.number} ${row.name}, ${size}`,
  book: (row: SetPointRow) => (row.book === undefined ? 'none' : number(row.book, row)),
  /** Where runs teach another number than the book has. */
  runsSay: (row: SetPointRow) => {
    const recommended = row.learned?.recommended;
    if (recommended === undefined || number(recommended, row) === number(row.book ?? Number.NaN, row))
      return '';
    const says = row.learned?.sure === 'neverVaried' ? 'ran at' : 'runs say';
    return `${says} ${number(recommended, row)}`;
  },
  number,
  signed,
  value: (row: SetPointRow) =>
    row.stands.value === undefined || row.stands.known === 'silent'
      ? row.stands.known === 'silent'
        ? 'no reading'
        : 'not known'
      : number(row.stands.value, row),
  known,
  differs,
  rejects,
  rejectsSaid: (spread: Spread | undefined) => `Rejects per 1,000 cartons: ${rejects(spread)}`,
  sure: (sure: Sureness) => SURE[sure],
  sureWhy: (learned: Learned) => `${counted(learned)}; ${sureWhy(learned)}`,
  noRun: 'no run tells anything',
  datum: ({ datum }: SetPointRow, zone: string) =>
    datum === undefined
      ? ''
      : `datum ${count(datum.number)}, since ${day(datum.since, zone, locale)}, ${datum.why === 'replaced' ? 'part replaced' : 're-zeroed'}`,
  tick: (value: number, unit: string) =>
    `${numbers.decimal(value, Number.isInteger(value) ? 0 : 1, locale)}${unit === 'deg' ? '°' : ''}`,
  scaleSaid,
  key: {
    book: 'book',
    ranWell: 'settings that ran well',
    likely: 'holds the best number in nine of ten cases',
    sensor: 'read by a sensor',
    entered: 'entered or read back',
    confirmed: 'confirmed with one tap, nobody read it',
    silent: 'last known, silent now',
    neverVaried: 'never varied',
  },
  foot: 'Settings ran well where rejects and stops were no worse than the station’s own normal at rate. The bar is a 95 % interval from the spread between runs. How sure comes from runs and different settings, never from cartons alone. A datum begins anew when a part is replaced or the scale set to zero, and nothing before it counts.',
  caution: {
    title: 'The book is what ran well, not an instruction.',
    text: 'Moving an adjustment is for qualified people, with the machine isolated and locked out as the site’s procedure says. Scoreline reads these numbers; it cannot set them.',
  },
  one: setPointOpenedWords,
  paper: setPointPaperWords,
} as const;
