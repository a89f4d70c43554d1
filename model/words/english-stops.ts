import type { CauseSaid } from '../past/causeNow.ts';
import type { ChainLink, PastStop, StopGroup, StopRow, StopsPast } from '../past/stopsPast.ts';
import { capital, count, exactly, lasted, listed, many, past, placed, small } from './english-say.ts';
import { stopsFileWords } from './english-stops-file.ts';

const stops = (n: number) => `${count(n)} ${many(n, 'stop', 'stops')}`;
const plus = (ms: number) =>
  ms < 60_000 ? `+${(Math.max(0, ms) / 1000).toFixed(ms < 9950 ? 1 : 0)} s` : `+${lasted(ms)}`;

const outside: Readonly<Record<string, string>> = { starved: 'starved', blocked: 'blocked' };

const causeOf = { stopped: 'stopped by', starved: 'starved at', blocked: 'blocked at' } as const;

/** What kind of thing a row of stops without a name of its own is. */
function nameOf({ name, kind }: Pick<StopRow | PastStop, 'name' | 'kind'>): string {
  if (kind === 'unknown' || (kind === 'operator' && name === undefined)) return 'no reason';
  return name ?? outside[kind] ?? 'no reason';
}

/** Which stops are wanted, each part by its name. */
export interface StopsWanted {
  readonly station?: string | undefined;
  readonly size?: string | undefined;
  readonly shift?: string | undefined;
  readonly order?: string | undefined;
}

/** Sentences of the Stops screen. */
export const stopsWords = {
  /** The title names what is chosen, also on paper, where there is nothing to choose by. */
  title: (span: string, { station, size, shift, order }: StopsWanted = {}) =>
    [
      station === undefined ? 'Stops' : `Stops at ${station}`,
      size,
      shift,
      order === undefined ? undefined : `order ${order}`,
      span,
    ]
      .filter((part) => part !== undefined)
      .join(', '),
  /** The answer first, in bold; then what it is made of. */
  lead: ({ stops: n, stood, own, outside: from, unknown }: StopsPast): readonly [string, string] => {
    if (n === 0) return ['No stop.', ''];
    const most = own.rows[0];
    const rows = [...own.rows, ...from.rows, ...unknown.rows];
    // of one kind there is nothing to compare
    if (rows.length === 1) return [`${stops(n)} took ${past(stood)}.`, onlyOne(n, rows[0]!)];
    const parts = [
      own.stops > 0 ? `The machine’s own took ${past(own.stood)}` : undefined,
      from.stops > 0 ? `starved and blocked took ${past(from.stood)}` : undefined,
    ].filter((part) => part !== undefined);
    const ordinary = most?.ordinary === undefined ? '' : `, ${ordinaryOf(most)}`;
    return [
      `${stops(n)} took ${past(stood)}.`,
      [
        parts.length > 0 ? `${capital(parts.join(', '))}.` : '',
        most
          ? `${capital(nameOf(most))}${most.station ? ` at ${most.station.name}` : ''} took most, ${past(most.minor.stood + most.long.stood)}${ordinary}.`
          : '',
        unknown.stops > 0
          ? `${stops(unknown.stops)} ${many(unknown.stops, 'has', 'have')} no reason yet.`
          : '',
      ]
        .filter((part) => part !== '')
        .join(' '),
    ];
  },
  key: {
    minor: (minutes: number) => `minor, under ${count(minutes)} min`,
    long: 'long',
    one: 'one mark is one stop',
    ordinary: 'what it took in the middle one of the stretches before',
  },
  groups: {
    own: 'The machine’s own, by first fault',
    outside: 'From outside: starved and blocked',
    unknown: 'Nobody knows yet',
  },
  group: ({ stops: n, stood }: StopGroup) => `${stops(n)}, ${past(stood)}`,
  groupLong: ({ long }: StopGroup) =>
    long.stops === 0
      ? ''
      : `; ${count(long.stops)} long ${many(long.stops, 'one', 'ones')} took ${past(long.stood)} of it`,
  order: 'Sorted',
  byMinutes: 'by minutes',
  byCount: 'by count',
  name: nameOf,
  /** What opens the rest of what wants an answer. */
  more: (n: number) => `The other ${small(n)}`,
  minutes: (ms: number) => past(ms),
  rowSaid: (row: StopRow) =>
    `${row.station ? `${row.station.number} ${row.station.name}, ` : ''}${nameOf(row)}: ${stops(row.minor.stops + row.long.stops)}, ${past(row.minor.stood + row.long.stood)}${row.ordinary === undefined ? '' : `, ${ordinaryOf(row)}`}`,
  foot: 'What a first fault set off is counted with it, once. Planned pauses and changeovers are not stops.',
  none: 'Planned pauses and changeovers are not stops.',

  wanted: (n: number) =>
    n === 0 ? 'Every stop has a reason' : `${stops(n)} ${many(n, 'wants', 'want')} one tap`,
  wantedWhy: 'The PLC gives no reason. Whoever stood there can; it stays marked as said by a person.',
  saidBy: 'Who says so',
  saidByOf: (n: number) => `Where the reasons of these ${stops(n)} come from.`,
  byPlc: (n: number) => `${count(n)} first ${many(n, 'fault', 'faults')} in the PLC`,
  byPeople: (n: number) => `${count(n)} ${many(n, 'person', 'people')}`,
  byNobody: (n: number) => `${count(n)} nobody`,

  list: 'The newest first, numbered as they came',
  columns: {
    nth: 'no.',
    began: 'began',
    lasted: 'lasted',
    station: 'station',
    chain: 'first fault, and what came with it',
    lost: 'lost',
    around: 'what the PLC said',
    size: 'size, order',
  },
  marks: {
    firstFault: 'first fault, by PLC time',
    setOff: 'what it set off',
    caused: 'a stop device that caused it',
    during: 'a stop device used during it',
    uncertain: 'a stop device, order not certain',
    guardOpened: 'a guard opened',
  },
  lasted: ({ lasted: ms, until, endSeen }: PastStop) =>
    `${endSeen ? '' : 'at least '}${lasted(ms)}${until === undefined ? ' so far' : ''}`,
  link: ({ name, after, kind }: ChainLink, first: boolean) =>
    `${kind === 'uncertain' ? `${name}, order not certain` : name}${first && after < 50 ? '' : `, ${plus(after)}`}`,
  /** [EN2] What people say of a cause, beside what the PLC said. */
  cause: ({ parts, words }: CauseSaid) =>
    `${words}: ${parts.map(({ station, class: what, after }) => `${after > 0 ? `from ${plus(after)} on ` : ''}${causeOf[what]}${station ? ` ${station.number} ${station.name}` : ''}`).join(', ')}`,
  causeBy: 'said by people, as known now',
  moved: (n: number) =>
    n === 0
      ? ''
      : `${stops(n)} ${many(n, 'stands', 'stand')} where people say, in whole or in part, not where the PLC’s first fault does; cartons lost stay with the first fault.`,
  attempt: (n: number) => `try ${count(n)}`,
  noReason: 'no reason',
  lost: (n: number) => `${count(n)} ${many(n, 'carton', 'cartons')}`,
  pending: 'not known yet',
  somethingElse: 'something else',
  nth: (place: number, of: number) => `${count(of - place)}`,
  ofAll: (of: number) => ` of ${count(of)}`,
  look: '10 s around it',
  close: 'Close',
  lookSaid: ({ at }: PastStop, isOpen: boolean, zone: string) =>
    `${isOpen ? 'Close: ' : ''}10 s around it, the stop of ${exactly(at, zone)}`,
  shown: listed,
  showMore: 'Show more',
  export: 'Export these stops',
  csv: stopsFileWords,
} as const;

/** What all stops are, where they are of one kind. */
function onlyOne(n: number, row: StopRow): string {
  if (row.kind === 'unknown' || row.name === undefined)
    return `${n === 1 ? 'It has' : 'None of them has'} ${n === 1 ? 'no' : 'a'} reason yet.`;
  const ordinary = row.ordinary === undefined ? '' : `, ${ordinaryOf(row)}`;
  return `${n === 1 ? 'It was' : 'All were'}: ${placed(row.name, row.station?.name)}${ordinary}.`;
}

/** How what a row took compares with as long stretches before. */
function ordinaryOf({ minor, long, ordinary }: StopRow): string {
  const more = minor.stood + long.stood - (ordinary ?? 0);
  if (Math.abs(more) < 60_000) return 'as ordinary';
  return more > 0 ? `${past(more)} more than ordinary` : `${past(-more)} less than ordinary`;
}
