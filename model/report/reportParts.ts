import type { LineIndex } from '../fold/lineIndex.ts';
import type { RecordBodies } from '../records/records.ts';
import { bySize } from '../past/figureStretches.ts';
import type { PastStop, StopsPast } from '../past/stopsPast.ts';
import { gainedBetween } from '../past/stationCounts.ts';
import type { Stretch } from '../past/stretches.ts';
import { type EpochMs, epochMs, type Instant, type Millis } from '../units/units.ts';
import type { Report, ReportNote, ReportStops } from './report.ts';
import type { SizeShare } from './reportStations.ts';

/** Rows of a list on one page: of more, what they come to is the last row. */
export const ROWS_MOST = 10;
const NOTES_MOST = 3;
const UNSEEN_MOST = 3;

/**
 * [RE3] The longest of those that began in it, in that order, and what the others come to together. What went on from before
 * is no stop of it [ST9], and is told apart.
 */
export function reportStops(
  stops: StopsPast,
  all: readonly PastStop[],
  { from, listed }: { readonly from: EpochMs; readonly listed: boolean },
): ReportStops {
  const began = all.filter(({ at }) => at >= from);
  const carried = all.filter(({ at }) => at < from);
  const longest = [...began].sort((a, b) => b.lasted - a.lasted);
  const list = longest.slice(0, listed ? ROWS_MOST : 0).sort((a, b) => a.at - b.at);
  const left = listed ? longest.slice(ROWS_MOST) : [];
  const sum = (of: readonly { readonly stood: number }[]) =>
    of.reduce((total, { stood }) => total + stood, 0) as Millis;
  const lasted = (of: readonly PastStop[]) => sum(of.map((stop) => ({ stood: stop.lasted })));
  const rows = [stops.own, stops.outside, stops.unknown]
    .flatMap((group) => group.rows)
    .map(({ id, name, station, kind, minor, long }) => ({
      id,
      name,
      station,
      kind,
      stops: minor.stops + long.stops,
      stood: (minor.stood + long.stood) as Millis,
    }))
    .sort((a, b) => b.stood - a.stood);
  const [shown, rest] = [rows.slice(0, ROWS_MOST), rows.slice(ROWS_MOST)];
  return {
    list,
    more: { stops: left.length, stood: lasted(left) },
    carried: { stops: carried.length, stood: lasted(carried) },
    rows: shown,
    moreRows: {
      rows: rest.length,
      stops: rest.reduce((total, one) => total + one.stops, 0),
      stood: sum(rest),
    },
  };
}

/** What each size brought in some stretches, and in each run with it before the first of them. */
export function sizeShares(
  stretches: readonly Stretch[],
  sizes: readonly RecordBodies['size'][],
  earlier: readonly RecordBodies['size'][],
  tallyAt: (at: Instant) => readonly number[],
): readonly SizeShare[] {
  const first = stretches[0]?.from;
  if (first === undefined) return [];
  const now = gainsBySize(
    stretches.flatMap((stretch) => bySize(stretch, sizes)),
    tallyAt,
  );
  const began = earlier[0]?.at ?? first;
  const before = gainsBySize(bySize({ from: began, to: first }, earlier), tallyAt);
  return [...now].map(([size, gains]) => ({
    size,
    gained: gains.reduce((sum, one) => one.map((value, place) => value + (sum[place] ?? 0)), []),
    earlier: before.get(size) ?? [],
  }));
}

function gainsBySize(
  runs: readonly (Stretch & { readonly size: string | undefined })[],
  tallyAt: (at: Instant) => readonly number[],
): ReadonlyMap<string, readonly (readonly number[])[]> {
  const gains = new Map<string, (readonly number[])[]>();
  for (const { from, to, size } of runs) {
    if (size === undefined) continue;
    const list = gains.get(size) ?? [];
    list.push(gainedBetween(tallyAt(from), tallyAt(to)));
    gains.set(size, list);
  }
  return gains;
}

/** What people wrote down, the newest that find room. */
export function reportNotes(
  { line }: LineIndex,
  entries: readonly RecordBodies['entry'][],
): Pick<Report, 'notes' | 'moreNotes' | 'handedOver'> {
  const notes = entries.flatMap(({ at, entry }): readonly ReportNote[] => {
    // [RP21] a bookmark says nothing that could be handed over
    if (entry.kind !== 'note' || entry.words === '') return [];
    const { words, about } = entry;
    return [{ at: epochMs(at), words, by: byOf(line, entry), ...(about === undefined ? {} : { about }) }];
  });
  const counted = new Map<string, number>();
  for (const { entry } of entries) if (entry.kind === 'handedOver') counted.set(entry.order, entry.cartons);
  return {
    notes: notes.slice(-NOTES_MOST),
    moreNotes: Math.max(0, notes.length - NOTES_MOST),
    handedOver: [...counted].map(([order, handedOver]) => ({ order, counted: undefined, handedOver })),
  };
}

function byOf({ loading }: LineIndex['line'], { author }: RecordBodies['entry']['entry']): string {
  switch (author.kind) {
    case 'position':
      return loading.positions.find(({ id }) => id === author.position)?.name ?? author.position;
    case 'screen':
      return author.screen;
    case 'person':
      return author.number;
    case 'file':
      return author.file;
    case 'itself':
      return '';
  }
}

/** The longest of what nobody saw in the stretches that it is of, in order. */
export function reportUnseen(
  gaps: readonly RecordBodies['gap'][],
  stretches: readonly Stretch[],
  begun: Instant,
): Pick<Report, 'unseen' | 'moreUnseen'> {
  const all = stretches.flatMap(({ from, to }) =>
    [
      ...(begun > from ? [{ from, to: Math.min(begun, to) as Instant }] : []),
      ...gaps.filter(({ kind }) => kind === 'unknown'),
    ]
      .map((gap) => ({
        from: Math.max(gap.from, from) as Instant,
        to: Math.min(gap.to, to) as Instant,
      }))
      .filter((gap) => gap.to > gap.from),
  );
  const longest = all.sort((a, b) => b.to - b.from - (a.to - a.from));
  return {
    unseen: longest
      .slice(0, UNSEEN_MOST)
      .sort((a, b) => a.from - b.from)
      .map((gap) => ({ from: epochMs(gap.from), to: epochMs(gap.to) })),
    moreUnseen: Math.max(0, longest.length - UNSEEN_MOST),
  };
}
