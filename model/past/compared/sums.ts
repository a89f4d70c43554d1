import type { LineIndex } from '../../fold/lineIndex.ts';
import type { StopRecord } from '../../fold/state.ts';
import type { Counted } from '../../normal/evidence.ts';
import type { Instant, Span } from '../../units/units.ts';
import { type ClassGap, type ClassStretch, classStretches, type TimeClass } from '../../view/classes.ts';
import { placedNow } from '../causeNow.ts';
import { gainedBetween, judgedBy, sumOf } from '../stationCounts.ts';
import type { Stretch } from '../stretches.ts';

/** What happened in some stretches of whole minutes. */
export interface Sums {
  readonly good: number;
  readonly stops: StopSums;
  /** Time in production, and time in which the line stood, without pauses and changeovers. */
  readonly running: Span;
  readonly stood: Span;
  /** [LO6] By station; an empty carton and a missed pick are no rejects. */
  readonly rejects: ReadonlyMap<string, Counted>;
}

/** By their beginning. What nobody explained is the machine's own; a re-jam is one with the stop before it. */
export interface StopSums {
  readonly own: number;
  readonly outside: number;
  readonly safety: number;
}

export interface SumsAsked {
  readonly index: LineIndex;
  readonly stops: readonly StopRecord[];
  readonly gaps: readonly ClassGap[];
  /** What each counter had counted by a moment. */
  readonly tallyAt: (at: Instant) => readonly number[];
}

const STOOD: ReadonlySet<TimeClass> = new Set(['stopped', 'starved', 'blocked', 'safety', 'isolated']);

export function sumsOf(pieces: readonly Stretch[], asked: SumsAsked): Sums {
  const { index, stops, gaps, tallyAt } = asked;
  const gained = pieces
    .map(({ from, to }) => gainedBetween(tallyAt(from), tallyAt(to)))
    .reduce<readonly number[]>((sum, one) => one.map((count, place) => count + (sum[place] ?? 0)), []);
  const classes = pieces.flatMap((piece) => classStretches(piece, stops, gaps));
  const began = stops.filter(({ begin }) => pieces.some(({ from, to }) => begin >= from && begin < to));
  return {
    good: sumOf(gained, goodPlaces(index)) ?? 0,
    stops: stopSums(began),
    running: long(classes, (what) => what === 'producing'),
    stood: long(classes, (what) => STOOD.has(what)),
    rejects: new Map(
      index.line.stations.flatMap(({ id }) => {
        const judged = judgedBy(index, id);
        if (judged?.kind !== 'reject') return [];
        return [
          [id, { count: sumOf(gained, judged.counted) ?? 0, of: sumOf(gained, judged.among) ?? 0 }] as const,
        ];
      }),
    ),
  };
}

/** Places of good cartons among the tallied signals. */
export function goodPlaces({ line, tallied }: LineIndex): readonly number[] {
  return tallied.flatMap((signal, place) => (line.signals[signal]!.role === 'goodCount' ? [place] : []));
}

function stopSums(stops: readonly StopRecord[]): StopSums {
  const sums = { own: 0, outside: 0, safety: 0 };
  for (const stop of stops) {
    const group = groupOf(stop);
    if (group) sums[group] += 1;
  }
  return sums;
}

function groupOf(stop: StopRecord): keyof StopSums | undefined {
  if (stop.class === 'pause' || stop.class === 'changeover') return undefined;
  if (stop.class === 'safety') return 'safety';
  const { kind } = placedNow(stop);
  if (kind === 'starved' || kind === 'blocked') return 'outside';
  return stop.attempt === 1 ? 'own' : undefined;
}

function long(classes: readonly ClassStretch[], counts: (what: TimeClass) => boolean): Span {
  return classes.reduce((sum, one) => sum + (counts(one.class) ? one.to - one.from : 0), 0) as Span;
}
