import type { AdjustmentNow } from '../past/adjustmentsNow.ts';
import type { Batch } from '../past/batches.ts';
import type { StationPast, StationTrend } from '../past/stationPast.ts';
import type { StationSum, StationsPast } from '../past/stationsPast.ts';
import type { PastStop } from '../past/stopsPast.ts';
import { aroundWords } from './english-around.ts';
import { COUNTED, normalWords } from './english-normal.ts';
import { at, capital, count, lasted, locale, many, small } from './english-say.ts';
import * as numbers from './format.ts';

const decimal = (n: number, decimals: number) => numbers.decimal(n, decimals, locale);
const unitOf = (unit: string) => (unit === 'deg' ? '°' : ` ${unit}`);
const reading = (n: number, { unit, decimals }: Pick<AdjustmentNow, 'unit' | 'decimals'>) =>
  `${decimal(n, decimals)}${unitOf(unit)}`;
const shifts = (n: number) => `${count(n)} ${many(n, 'shift', 'shifts')}`;
const stops = (n: number) => `${count(n)} ${many(n, 'stop', 'stops')}`;

const counted = (kind: StationTrend['kind'], n: number) => many(n, COUNTED[kind][0], COUNTED[kind][1]);

/** Of what a batch is made: a pocket whose pick was missed has no carton. */
const amongst = (kind: StationTrend['kind']) => (kind === 'missed' ? 'pockets' : 'cartons');

/** Sentences of the Stations screen: all of them, and one. */
export const stationsWords = {
  title: (span: string) => `Stations, ${span}`,
  strip: 'Stations of the line',
  all: 'all',
  /** The answer first, in bold; then what it is made of. */
  lead: ({ lost, stations, none }: StationsPast): readonly [string, string] => {
    const most = stations.reduce<StationSum | undefined>(
      (found, one) => (one.lost > Math.max(0, found?.lost ?? 0) ? one : found),
      undefined,
    );
    const where = most
      ? `Most of what belongs to a station went at ${most.station.number} ${most.station.name}, ${count(most.lost)}.`
      : '';
    const rest = none.lost > 0 ? ` ${count(none.lost)} belong to no one station.` : '';
    return [
      lost.total < 0
        ? `${count(-lost.total)} cartons more than possible.`
        : `${count(lost.total)} ${many(lost.total, 'carton', 'cartons')} lost.`,
      `${where}${rest}`,
    ];
  },
  sum: ({ total, possible, good }: StationsPast['lost']) =>
    total < 0
      ? `**${count(-total)} more** = ${count(good)} good − ${count(possible)} possible`
      : `**${count(total)} lost** = ${count(possible)} possible − ${count(good)} good`,
  whole: (n: number) =>
    `Whole shifts, ${shifts(n)}: cartons lost are kept by the shift, so a stretch that begins inside one begins with it.`,
  counts:
    'Counts are what the PLC’s counters gained in production, trial cartons apart. A missed pick and an empty carton are no rejects.',
  charged: 'A reject is charged to the station that the line’s file names for its reason.',
  columns: {
    station: 'station',
    presented: 'presented',
    rejects: 'rejects',
    empty: 'empty',
    missed: 'missed',
    crushed: 'crushed',
    stops: 'stops',
    stood: 'stood',
    lost: 'cartons lost, by cause',
  },
  noCounter: '–',
  noCounterSaid: '– no counter for it',
  number: (n: number | undefined) => (n === undefined ? '–' : count(n)),
  stopsOf: (n: number, ms: number) => (n === 0 ? 'none' : `${count(n)}, ${lasted(ms)}`),
  none: 'at no one station',
  table: 'Every station: what came, what was lost, and what stopped there',

  /** One station. */
  now: {
    firstFault: 'The line stands here now',
    abnormal: 'Outside its own normal now',
  },
  oneTitle: (number: number, name: string) => `${number} ${capital(name)}`,
  oneLead: ({ sum, stops: here }: StationPast, span: string): readonly [string, string] => [
    here.stops === 0 ? 'No stop here.' : `${capital(stops(here.stops))} here took ${lasted(here.stood)}.`,
    `${span}: ${
      sum.lost < 0
        ? `${count(-sum.lost)} made up`
        : `${count(sum.lost)} ${many(sum.lost, 'carton', 'cartons')} lost`
    }.`,
  ],
  rejectsNow: (inLast: number, of: number, normal: number) =>
    `${count(inLast)} ${many(inLast, 'reject', 'rejects')} in the last ${count(of)} cartons of the run, normal ${count(normal)}.`,
  figures: 'What came here',
  figure: {
    presented: 'cartons presented',
    rejects: 'rejects charged here',
    empty: 'empty, not loaded',
    missed: 'missed picks',
    crushed: 'crushed',
    lost: 'cartons lost',
  },
  noCounterHere: 'no counter',

  trend: {
    title: ({ kind, size }: Pick<StationTrend, 'kind' | 'size'>) =>
      `${capital(COUNTED[kind][1])} in batches of 300, ${size.name}`,
    about: ({ kind }: Pick<StationTrend, 'kind'>) =>
      `A batch is the first whole minutes of a run that bring 300 ${amongst(kind)} or more. Shaded, up to the line: what single batches usually bring here, from earlier runs with this size.`,
    /** Where the line is, and how seldom a batch lay above it in simulated shifts in which nothing was wrong. */
    limit: ({ normal, kind, earlier, byHand }: StationTrend) => {
      if (byHand)
        return 'There is no line: what is left empty here is people’s work, another run has another crew, and crews are not held against one another.';
      return normal
        ? `More than ${count(normal.most)} ${counted(kind, normal.most)} of 300 lie above the line. It allows for how runs differ from one another and how unevenly ${counted(kind, 2)} come in one: in simulated shifts in which nothing was wrong one batch in ${count(normal.onceIn)} lay above it, at worst one in ${count(normal.worst)}. A batch above it is no verdict. Its normal is ${decimal(normal.mean, 1)}, from ${count(normal.earlier)} earlier ${amongst(kind)}.`
        : `Too few to say what is usual here: ${count(earlier)} ${amongst(kind)} of earlier runs with this size, 3,000 of 3 runs are needed. So there is no line.`;
    },
    said: ({ all, above, kind, normal }: StationTrend) => {
      if (!normal && above === 0) return `${capital(count(all))} ${many(all, 'batch', 'batches')}.`;
      return above === 0
        ? `${capital(count(all))} ${many(all, 'batch', 'batches')}, none above the line.`
        : `${count(above)} of ${count(all)} ${many(all, 'batch', 'batches')} ${many(above, 'lies', 'lie')} above the line: more ${COUNTED[kind][1]} than single batches usually bring. Whether the station is outside its own normal is said above, of all of the run.`;
    },
    last: ({ batches, kind }: StationTrend) => {
      const end = batches.findLastIndex(({ above }) => !above);
      const run = batches.slice(end + 1);
      if (run.length === 0) return '';
      const numbersSaid = run.map(({ counted: n }) => count(n)).join(', ');
      return run.length === 1
        ? `The last batch, with ${numbersSaid} ${counted(kind, run[0]!.counted)}, lies above it.`
        : `The last ${small(run.length)} batches, with ${numbersSaid}, lie above it.`;
    },
    none: 'No batch of 300 cartons is whole yet.',
    notJudged:
      'The line’s file charges no reject reason, empty carton or missed pick to this station, so there is no trend.',
    noSize: 'No size ran in this time, so there is no trend.',
    leftOut: (n: number) =>
      n === 0 ? '' : `${count(n)} cartons are in no batch: at a run’s end, or beside time that nobody saw. `,
    shown: ({ batches, all }: Pick<StationTrend, 'batches' | 'all'>) =>
      batches.length < all ? `The newest ${count(batches.length)} of ${count(all)} batches are drawn. ` : '',
    since: (moment: string) => `Batches are looked at from ${moment} on. `,
    drawMore: 'Draw more batches',
    sizes: 'Size of the trend',
    aboveLabel: (most: number) => [`more than ${count(most)}:`, 'seldom'] as const,
    normalLabel: (mean: number) => `${decimal(mean, 1)} normal`,
    table: 'These batches as a table',
    columns: { began: 'began', of: 'cartons', limit: 'most that is usual', said: 'so' },
    counted: (kind: StationTrend['kind']) => COUNTED[kind][1],
    above: 'above the line',
    below: 'below it',
    noLimit: 'no line',
    key: { below: 'below the line', above: 'above the line', run: 'another run, or time not seen' },
    batch: ({ counted: n, of, above }: Batch) =>
      `${count(n)} of ${count(of)}${above ? ', above the line' : ''}`,
  },

  /** Why nothing is said of what explains a station's trouble. */
  explains: {
    asking: 'It is being worked out.',
    noKnowledge:
      'No file of symptoms lies beside the line’s file, so nothing is known of what shows when an adjustment is off. The README says how to write one.',
    noRun: 'No size runs now.',
    tooFew: 'No whole run of this size was seen before this one, so nothing is known of what is usual.',
    open: 'What would explain trouble here',
    inside: 'This station is within its own normal: there is no trouble that has to be explained.',
  },

  adjustments: {
    title: (size: string | undefined) => `Numbered adjustments${size === undefined ? '' : `, ${size}`}`,
    none: 'The line’s file names no adjustment at this station.',
    key: {
      book: 'book',
      sensor: 'read by a sensor',
      typed: 'entered or read back',
      confirmed: 'confirmed with one tap, nobody read it',
      silent: 'last known, silent now',
    },
    columns: {
      what: 'adjustment',
      book: 'book',
      now: 'now, and how it is known',
      off: 'off by',
      scale: 'on its scale',
    },
    book: (one: AdjustmentNow) => (one.book === undefined ? 'none for this size' : reading(one.book, one)),
    bookSaid: (one: AdjustmentNow) =>
      one.book === undefined ? 'no book number for this size' : `book ${reading(one.book, one)}`,
    value: (one: AdjustmentNow) =>
      one.known === 'none' ? 'not known' : one.value === undefined ? 'no reading' : reading(one.value, one),
    known: (
      { known, since, beforeSize, datum }: AdjustmentNow,
      zone: string,
      when: (moment: number, zone: string) => string,
    ) => {
      const entered = (how: string) => {
        const said = since === undefined ? '' : ` ${when(since, zone)}`;
        const scale = beforeSize
          ? `${how}${said}, for the size before; read the scale`
          : `${how}${said}; read the scale`;
        return datum ? `${scale}; datum ${datum.number}, since ${when(datum.since, zone)}` : scale;
      };
      switch (known) {
        case 'typed':
          return entered('last entered');
        case 'readBack':
          return entered('read back');
        case 'confirmed':
          return entered('as book,');
        case 'none':
          return 'nobody has said; read the scale on the machine';
        case 'silent':
          return since === undefined
            ? 'its sensor has told nothing yet; read the scale'
            : `sensor silent; read so last at ${when(since, zone)}; read the scale`;
        case 'uncertain':
          return `read by a sensor, uncertain${since === undefined ? '' : `; so since ${when(since, zone)}`}`;
        case 'sensor':
          return `read by a sensor${since === undefined ? '' : `; so since ${when(since, zone)}`}`;
      }
    },
    off: ({ off, decimals }: AdjustmentNow) =>
      off === undefined
        ? 'not known'
        : off === 0
          ? '0'
          : `${off > 0 ? '+' : '−'}${decimal(Math.abs(off), decimals)}`,
    tick: (value: number, unit: string) => `${count(value)}${unit === 'deg' ? '°' : ''}`,
    scaleSaid: (one: AdjustmentNow) =>
      `${one.number} ${one.name}: ${stationsWords.adjustments.bookSaid(one)}, now ${stationsWords.adjustments.value(one)}`,
    toBook: 'The book, and what runs taught',
    foot: 'What a sensor reads now or people entered last, and the book’s number for the size that runs. The book is what ran well, not an instruction.',
  },

  stops: {
    title: 'Stops here',
    none: 'No stop here in this time.',
    columns: {
      began: 'began',
      lasted: 'lasted',
      chain: 'first fault, and what came with it',
      lost: 'lost',
      around: '10 s around it',
    },
    open: 'Look',
    close: 'Close',
    pressSaid: (stop: PastStop, isOpen: boolean, zone: string) =>
      `${isOpen ? 'Close' : 'Look'}: 10 s around the stop of ${at(stop.at, zone)}`,
    minor: (minutes: number) => `minor, under ${count(minutes)} min`,
    lasted,
  },

  around: aroundWords,
  normal: normalWords,

  /** What the gateway answers where there is no such thing. */
  notFound: {
    station: (id: string) => `There is no station ${id} on this line`,
    stop: (id: string) => `There is no stop ${id} in the records`,
    adjustment: (number: string) => `There is no adjustment ${number} on this line`,
    size: (id: string) => `There is no size ${id} on this line`,
    why: 'It may have another name in the line’s file now, or the records were made anew.',
    mend: 'Ask for the list, and use an id from it.',
  },
} as const;
