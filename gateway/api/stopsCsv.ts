import type { PastStop, StopsPast } from '../../model/past/stopsPast.ts';
import { wordsIn } from '../../model/words/words.ts';
import { csvText, isoMoment, typedText } from './csvText.ts';

const { stops: said } = wordsIn('en').screen.past;
const { csv } = said;

interface Row {
  readonly at: number;
  readonly cells: readonly string[];
}

/** Every stop that is wanted, and every stretch that nobody saw, the oldest first, with a row of titles. Not known is empty. */
export function stopsCsv(
  { list, seen }: Pick<StopsPast, 'list' | 'seen'>,
  gaps: readonly { readonly from: number; readonly to: number }[],
  zone: string,
): string {
  const unseen = [...(seen.since === undefined ? [] : [{ from: seen.from, to: seen.since }]), ...gaps];
  const rows: Row[] = [
    ...list.map((stop) => ({ at: stop.at, cells: stopCells(stop, zone) })),
    ...unseen.map(({ from, to }) => ({
      at: from,
      cells: cellsOf({
        what: csv.unseen,
        began: isoMoment(from, zone),
        ended: isoMoment(to, zone),
        seconds: seconds(to - from),
      }),
    })),
  ];
  return csvText([csv.columns, ...rows.sort((a, b) => a.at - b.at).map(({ cells }) => cells)]);
}

function stopCells(stop: PastStop, zone: string): readonly string[] {
  const { at, until, endSeen, lasted, minor, kind, station, name, attempt, lost, size, order, chain } = stop;
  return cellsOf({
    what: csv.stop,
    began: isoMoment(at, zone),
    ended: until === undefined ? csv.goesOn : isoMoment(until, zone),
    'end seen': until === undefined ? '' : endSeen ? csv.yes : csv.no,
    seconds: seconds(lasted),
    'minor or long': minor ? csv.minor : csv.long,
    kind: csv.kinds[kind],
    station: station?.name ?? '',
    'station id': station?.id ?? '',
    'first fault': name ?? '',
    'said by a person': stop.said === undefined ? '' : typedText(stop.said),
    try: String(attempt),
    'cartons lost': lost === undefined ? '' : String(lost),
    size: size ?? '',
    order: order === undefined ? '' : typedText(order),
    'what came with it': chain.map((link) => said.link(link, link === chain[0])).join('; '),
  });
}

function seconds(ms: number): string {
  return (ms / 1000).toFixed(1);
}

function cellsOf(row: Readonly<Partial<Record<(typeof csv.columns)[number], string>>>): readonly string[] {
  return csv.columns.map((column) => row[column] ?? '');
}
