import type { LineIndex } from '../../fold/lineIndex.ts';
import { clopperPearson } from '../../statistics/proportion.ts';
import { millis, type Span } from '../../units/units.ts';
import type { LossCause } from '../../view/view.ts';
import { causes } from '../../fold/account.ts';
import { overlap, type StationRef, stationRef } from '../past.ts';
import { joined, type Stretch } from '../stretches.ts';
import type { Counted } from '../../normal/evidence.ts';
import type { Alignment } from './aligned.ts';
import type { Question, Verdict } from './differences.ts';
import { type LostAsked, lostIn, wholeOf } from './lost.ts';
import type { StopSums, Sums } from './sums.ts';

/** One line of the table: both numbers, and what their difference means. */
export interface ComparedRow {
  readonly kind: RowKind;
  /** Of cartons lost. */
  readonly cause?: ComparedCause | undefined;
  /** Of stops. */
  readonly stops?: keyof StopSums | undefined;
  /** Of rejects: per 1,000 cartons. */
  readonly station?: StationRef | undefined;
  readonly here: RowValue;
  readonly there: RowValue;
  readonly meaning: Meaning;
}

export type RowKind =
  | 'good'
  | 'possible'
  | 'lost'
  | 'lostTo'
  | 'stops'
  | 'rejects'
  /** Milliseconds: from the beginning to the end of what is compared, in production, standing, and not seen of it. */
  | 'took'
  | 'running'
  | 'stood'
  | 'notSeen';

/** Where people load, what was slow and what was not loaded stand together: crews are not held against one another. */
export type ComparedCause = LossCause | 'slowOrNotLoaded';

/** `lower` and `upper`: of rejects, between which the true share lies (95 %). Value undefined where it is not known yet. */
export interface RowValue {
  readonly value: number | undefined;
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
}

export type Meaning =
  /** What was counted or measured differs by so much: no more is claimed. */
  | { readonly kind: 'counted'; readonly differ: number }
  | { readonly kind: 'notKnown' }
  /** Safety stops stand there and are not judged: a press is always right. */
  | { readonly kind: 'listed' }
  /** Whether it is left out of both is said by the whole answer. */
  | { readonly kind: 'notSeen' }
  | Verdict;

/** One of the two as far as it is compared. */
export interface SideTold {
  readonly window: Stretch;
  readonly kept: readonly Stretch[];
  readonly sums: Sums;
  readonly dark: readonly Stretch[];
  readonly lost: LostAsked;
}

interface Sides {
  readonly here: SideTold;
  readonly there: SideTold;
}

/** What is asked of the two, with the row that it is for. */
export interface Asked {
  readonly question: Question;
  readonly stops?: 'own' | 'outside';
  readonly station?: string;
}

interface Answered extends Asked {
  readonly verdict: Verdict;
}

/** Of stations that nothing tells apart, so many are shown: those that come nearest to it. */
const STATIONS = 3;

/** Stops of the machine and from outside, and rejects of each station; safety stops are not held against one another. */
export function questionsOf(
  index: LineIndex,
  { here, there }: Sides,
  earlier: readonly Sums[],
): readonly Asked[] {
  const stops = (['own', 'outside'] as const).map((group): Asked => {
    const of = ({ stops: some, running }: Sums): Counted => ({ count: some[group], of: running });
    return {
      stops: group,
      question: { of: 'stops', here: of(here.sums), there: of(there.sums), earlier: earlier.map(of) },
    };
  });
  const rejects = index.line.stations.flatMap(({ id }): Asked[] => {
    const [first, second] = [here.sums.rejects.get(id), there.sums.rejects.get(id)];
    if (!first || !second) return [];
    const before = earlier.flatMap((sums) => sums.rejects.get(id) ?? []);
    return [{ station: id, question: { of: 'rejects', here: first, there: second, earlier: before } }];
  });
  return [...stops, ...rejects];
}

export function rowsOf({
  index,
  byHand,
  alignment,
  sides,
  answers,
}: {
  readonly index: LineIndex;
  readonly byHand: boolean;
  readonly alignment: Alignment;
  readonly sides: Sides;
  readonly answers: readonly Answered[];
}): readonly ComparedRow[] {
  const { here, there } = sides;
  const counted = (kind: RowKind, of: (side: SideTold) => number, more: Partial<ComparedRow> = {}) =>
    countedRow(kind, of(here), of(there), more);
  const span = (kind: RowKind, of: (side: SideTold) => Span) => counted(kind, (side) => millis(of(side)));
  return [
    counted('good', ({ sums }) => sums.good),
    ...(alignment === 'cartons' ? [span('took', ({ window: { from, to } }) => (to - from) as Span)] : []),
    ...lostRows(sides, byHand),
    ...answers.flatMap(({ stops, question, verdict }) =>
      stops ? [stopsRow(stops, question.here.count, question.there.count, verdict)] : [],
    ),
    stopsRow('safety', here.sums.stops.safety, there.sums.stops.safety, { kind: 'listed' }),
    span('running', ({ sums }) => sums.running),
    span('stood', ({ sums }) => sums.stood),
    ...rejectRows(index, answers),
    {
      kind: 'notSeen',
      here: { value: millis(darkIn(here)) },
      there: { value: millis(darkIn(there)) },
      meaning: { kind: 'notSeen' },
    },
  ];
}

function countedRow(
  kind: RowKind,
  here: number | undefined,
  there: number | undefined,
  more: Partial<ComparedRow> = {},
): ComparedRow {
  const meaning: Meaning =
    here === undefined || there === undefined
      ? { kind: 'notKnown' }
      : { kind: 'counted', differ: here - there };
  return { kind, ...more, here: { value: here }, there: { value: there }, meaning };
}

function stopsRow(stops: keyof StopSums, here: number, there: number, meaning: Meaning): ComparedRow {
  return { kind: 'stops', stops, here: { value: here }, there: { value: there }, meaning };
}

/** Possible, and what of it was lost, by causes that were in either: possible less good is the sum of them, in both. */
function lostRows({ here, there }: Sides, byHand: boolean): readonly ComparedRow[] {
  const [first, second] = [here, there].map(({ kept, lost }) => {
    const account = lostIn(kept, lost);
    return account && wholeOf(account);
  });
  const row = (kind: RowKind, of: (one: NonNullable<typeof first>) => number, cause?: ComparedCause) =>
    countedRow(kind, first && of(first), second && of(second), cause ? { cause } : {});
  const apart = byHand ? causes.filter((cause) => cause !== 'slow' && cause !== 'notLoaded') : causes;
  return [
    row('possible', ({ possible }) => possible),
    row('lost', ({ total }) => total),
    ...(byHand ? [row('lostTo', ({ lost }) => lost.slow + lost.notLoaded, 'slowOrNotLoaded')] : []),
    ...apart
      .filter((cause) => first?.lost[cause] || second?.lost[cause])
      .map((cause) => row('lostTo', ({ lost }) => lost[cause], cause)),
  ];
}

/** Those that are told apart, and of the others the nearest to it; in the order of the line. */
function rejectRows(index: LineIndex, answers: readonly Answered[]): readonly ComparedRow[] {
  const rejects = answers.filter(({ station }) => station !== undefined);
  const chanceOf = ({ verdict }: Answered) => ('chance' in verdict ? verdict.chance : 1);
  const apart = ({ question: { here, there } }: Answered) => Math.abs(shareOf(here) - shareOf(there));
  const nearest = rejects
    .filter(({ verdict }) => verdict.kind !== 'real')
    .filter(({ question: { here, there } }) => here.count + there.count > 0)
    .sort((a, b) => chanceOf(a) - chanceOf(b) || apart(b) - apart(a))
    .slice(0, STATIONS);
  return rejects
    .filter((one) => one.verdict.kind === 'real' || nearest.includes(one))
    .map(({ station, question: { here, there }, verdict }) => ({
      kind: 'rejects',
      station: stationRef(index, station),
      here: perThousand(here),
      there: perThousand(there),
      meaning: verdict,
    }));
}

function shareOf({ count, of }: Counted): number {
  return of > 0 ? count / of : 0;
}

function perThousand({ count, of }: Counted): RowValue {
  const interval = clopperPearson(count, of, 0.95);
  if (!interval) return { value: undefined };
  return { value: (1000 * count) / of, lower: 1000 * interval.lower, upper: 1000 * interval.upper };
}

function darkIn({ window, dark }: SideTold): Span {
  return joined(dark).reduce((sum, one) => sum + overlap(one, window), 0) as Span;
}
