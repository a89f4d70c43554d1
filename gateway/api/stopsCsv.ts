import { shiftAt } from '../../model/calendar/calendar.ts';
import type { StopRecord } from '../../model/fold/state.ts';
import type { Line } from '../../model/line/line.ts';
import type { ChainLink, PastStop } from '../../model/past/stopsPast.ts';
import { epochMs, type Instant, instantFromMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { csvText, isoMoment, typedText } from './csvText.ts';

const { stops: said } = wordsIn('en').screen.past;
const { csv } = said;

/** A part of the file, which is made of one part after another. */
export interface StopsPart {
  readonly line: Pick<Line, 'zone' | 'calendar'>;
  /** As the screen lists them, with the same filters. */
  readonly list: readonly PastStop[];
  /** What is kept of the stops of the list. */
  readonly stops: readonly StopRecord[];
  /** What nobody saw. */
  readonly unseen: readonly { readonly from: Instant; readonly to: Instant }[];
  /** Ends of gaps, also of those that stand in another part. */
  readonly gapEnds: ReadonlySet<Instant>;
}

export const stopsCsvTitles = csvText([csv.columns]);

interface Row {
  readonly at: number;
  readonly cells: readonly string[];
}

/** Every stop that is wanted, and every stretch that nobody saw, the oldest first. Not known is empty. */
export function stopsCsv(part: StopsPart): string {
  const kept = new Map(part.stops.map((stop) => [stop.id, stop]));
  const rows = [
    ...part.list.map((stop) => stopRow(part, stop, kept.get(stop.id))),
    ...part.unseen.map((stretch) => unseenRow(part, stretch)),
  ];
  return csvText(rows.sort((a, b) => a.at - b.at).map(({ cells }) => cells));
}

function stopRow(
  { line: { zone, calendar }, gapEnds }: StopsPart,
  stop: PastStop,
  kept: StopRecord | undefined,
): Row {
  const { at, until, endSeen, station, lost } = stop;
  return {
    at,
    cells: cellsOf({
      what: csv.stop,
      began: isoMoment(at, zone),
      'began seen': kept === undefined ? undefined : beganSeen(kept, gapEnds),
      ended: until === undefined ? csv.goesOn : isoMoment(until, zone),
      'end seen': until === undefined ? undefined : endSeen ? csv.yes : csv.no,
      seconds: seconds(stop.lasted),
      'minor or long': stop.minor ? csv.minor : csv.long,
      kind: csv.kinds[stop.kind],
      station: textOf(station?.name),
      'station id': textOf(station?.id),
      'first fault': textOf(stop.name),
      'said by a person': textOf(stop.said),
      'cause as people say': textOf(stop.cause && said.cause(stop.cause)),
      'explained by': csv.explainedBy[explainedBy(stop)],
      person: textOf(personOf(kept)),
      'order certain': orderCertain(stop.chain),
      try: String(stop.attempt),
      'cartons lost': lost === undefined ? undefined : String(lost),
      size: textOf(stop.size),
      order: textOf(stop.order),
      shift: textOf(shiftAt(calendar, zone, instantFromMs(at))?.name),
      'what came with it': textOf(chainSaid(stop.chain)),
    }),
  };
}

/** No stop there is no stop that is known. */
function unseenRow({ line: { zone } }: StopsPart, { from, to }: StopsPart['unseen'][number]): Row {
  return {
    at: epochMs(from),
    cells: cellsOf({
      what: csv.unseen,
      began: isoMoment(epochMs(from), zone),
      ended: isoMoment(epochMs(to), zone),
      seconds: seconds(epochMs(to) - epochMs(from)),
    }),
  };
}

/** One that begins with a gap's end was found so: it may have begun before. */
function beganSeen({ begin, from }: StopRecord, gapEnds: ReadonlySet<Instant>): string {
  if (gapEnds.has(begin)) return csv.no;
  return from === 'cycles' ? csv.fromCycles : csv.yes;
}

/** A number that says only that a person stopped it explains nothing. */
function explainedBy({ kind, said: answer }: PastStop): keyof typeof csv.explainedBy {
  if (kind !== 'unknown' && kind !== 'operator') return 'plc';
  return answer === undefined ? 'nobody' : 'person';
}

/** Who said it, where the entry bears a number; a position or a screen is nobody's number. */
function personOf(kept: StopRecord | undefined): string | undefined {
  const author = kept?.answer?.author;
  return author?.kind === 'person' ? author.number : undefined;
}

/** Of a press and the stop: which came first. Undefined where no stop device was used. */
function orderCertain(chain: readonly ChainLink[]): string | undefined {
  if (chain.some(({ kind }) => kind === 'uncertain')) return csv.no;
  return chain.some(({ kind }) => kind === 'caused' || kind === 'during') ? csv.yes : undefined;
}

function chainSaid(chain: readonly ChainLink[]): string {
  return chain.map((link, place) => said.link(link, place === 0)).join('; ');
}

function textOf(text: string | undefined): string | undefined {
  return text === undefined ? undefined : typedText(text);
}

function seconds(ms: number): string {
  return (ms / 1000).toFixed(1);
}

type Cells = { readonly [Column in (typeof csv.columns)[number]]?: string | undefined };

function cellsOf(row: Cells): readonly string[] {
  return csv.columns.map((column) => row[column] ?? '');
}
