import type { LineIndex } from '../../fold/lineIndex.ts';
import type { StopRecord } from '../../fold/state.ts';
import type { RecordBodies } from '../../records/records.ts';
import { type EpochMs, epochMs, type Instant } from '../../units/units.ts';
import { bySize } from '../figureStretches.ts';
import { peopleLoad } from '../loadedByHand.ts';
import type { Stretch } from '../stretches.ts';
import { type AlignedSide, type Alignment, type Axis, axisOf } from './aligned.ts';
import { answerable, differences, NEEDED } from './differences.ts';
import type { LostAsked } from './lost.ts';
import { type ComparedRow, questionsOf, rowsOf, type SideTold } from './rows.ts';
import { type Sums, sumsOf } from './sums.ts';
import {
  type MadeAt,
  minutesDown,
  minutesUp,
  type SideTime,
  type Windows,
  windowsOfCartons,
  windowsOfTime,
} from './windows.ts';

/** Two stretches of a line's past, one over the other, up to a moment of the first. */
export interface Compared {
  readonly asked: Alignment;
  /** The clock where what was asked for is not in both. */
  readonly alignment: Alignment;
  /** Those that have no changeover with a good carton after it, where it was asked for. */
  readonly without: readonly ('here' | 'there')[];
  readonly axis: Axis;
  readonly here: ComparedSide;
  readonly there: ComparedSide;
  /** What was not seen of one of them and is left out of both, in the time of the first. */
  readonly leftOut: readonly Span[];
  /** Which of them ends before the moment looked at: no more than that is held against one another. */
  readonly ended: 'here' | 'there' | undefined;
  /** Earlier shifts that tell how unlike shifts are, and how many of them are needed. */
  readonly shifts: number;
  readonly needed: number;
  /** So many comparisons share the level. */
  readonly comparisons: number;
  readonly rows: readonly ComparedRow[];
}

export interface Span {
  readonly from: EpochMs;
  readonly to: EpochMs;
}

export interface ComparedSide extends AlignedSide {
  /** Whole minutes that are held against the other's. */
  readonly window: Span;
  /** What ran in them. */
  readonly sizes: readonly string[];
}

export interface ComparedAsked {
  readonly index: LineIndex;
  readonly alignment: Alignment;
  readonly at: Instant;
  readonly here: SideAsked;
  readonly there: SideAsked;
  /** Shifts that ended before, without the two. */
  readonly earlier: readonly Sums[];
}

/** One of the two, and the records that have a part in it. */
export interface SideAsked extends Stretch, LostAsked {
  readonly stops: readonly StopRecord[];
  readonly gaps: readonly RecordBodies['gap'][];
  readonly sizes: readonly RecordBodies['size'][];
  /** From when on there are records at all. */
  readonly begun: Instant;
  readonly tallyAt: (at: Instant) => readonly number[];
  /** Good cartons by its minutes, from none with its first whole minute on. */
  readonly made: readonly MadeAt[];
  /** First good carton after its changeover. */
  readonly changeover: Instant | undefined;
}

/** A strip has so many points at most. */
const POINTS = 720;

/** [RP10] [RP11] [RP12] What was counted in both up to a moment, and what of it tells them apart. */
export function compared(asked: ComparedAsked): Compared {
  const { index, here, there, at } = asked;
  const without = asked.alignment === 'changeover' ? withoutChangeover(here, there) : [];
  const alignment = without.length > 0 ? 'clock' : asked.alignment;
  const windows = windowsIn(alignment, here, there, at);
  const told = (side: SideAsked, window: Stretch, kept: readonly Stretch[]): SideTold => ({
    window,
    kept,
    sums: sumsOf(kept, { ...side, index }),
    dark: darkOf(side),
    lost: { toldAt: side.toldAt, ended: side.ended },
  });
  const sides = {
    here: told(here, windows.here, windows.kept.here),
    there: told(there, windows.there, windows.kept.there),
  };
  const questions = questionsOf(index, sides, asked.earlier);
  const verdicts = differences(questions.map(({ question }) => question));
  const [first, second] = [here, there].map((side) => alignedOf(alignment, side));
  return {
    asked: asked.alignment,
    alignment,
    without,
    axis: axisOf([first!, second!]),
    here: { ...first!, ...ranIn(index, here, windows.here) },
    there: { ...second!, ...ranIn(index, there, windows.there) },
    leftOut: windows.leftOut.map(spanOf),
    ended: windows.ended,
    shifts: asked.earlier.length,
    needed: NEEDED.shifts,
    comparisons: answerable(verdicts),
    rows: rowsOf({
      index,
      byHand: peopleLoad(index),
      alignment,
      sides,
      answers: questions.map((one, place) => ({ ...one, verdict: verdicts[place]! })),
    }),
  };
}

function withoutChangeover(here: SideAsked, there: SideAsked): readonly ('here' | 'there')[] {
  return [
    ...(here.changeover === undefined ? (['here'] as const) : []),
    ...(there.changeover === undefined ? (['there'] as const) : []),
  ];
}

function windowsIn(alignment: Alignment, here: SideAsked, there: SideAsked, at: Instant): Windows {
  if (alignment === 'cartons') return windowsOfCartons(here, there, at);
  const time = (side: SideAsked): SideTime => ({
    from: side.from,
    to: side.to,
    origin: originOf(alignment, side),
    dark: darkOf(side),
  });
  return windowsOfTime(time(here), time(there), at);
}

/** A whole minute: the first of the stretch, or that of the first good carton after its changeover. */
function originOf(alignment: Alignment, { from, changeover }: SideAsked): Instant {
  return alignment === 'changeover' && changeover !== undefined
    ? (Math.max(minutesUp(from), minutesDown(changeover)) as Instant)
    : (minutesUp(from) as Instant);
}

function darkOf({ from, begun, gaps, to }: SideAsked): readonly Stretch[] {
  const before = begun > from ? [{ from, to: Math.min(begun, to) as Instant }] : [];
  return [...before, ...gaps.filter(({ kind, from: dark }) => kind === 'unknown' && dark < to)];
}

function alignedOf(alignment: Alignment, side: SideAsked): AlignedSide {
  const { from, to, made } = side;
  const every = Math.max(1, Math.ceil(made.length / POINTS));
  return {
    from: epochMs(from),
    to: epochMs(to),
    origin: epochMs(alignment === 'cartons' ? from : originOf(alignment, side)),
    made:
      alignment === 'cartons'
        ? made
            .filter((_, place) => place % every === 0 || place === made.length - 1)
            .map((one) => ({ at: epochMs(one.at), cartons: one.cartons }))
        : undefined,
  };
}

function ranIn(
  index: LineIndex,
  { sizes }: SideAsked,
  window: Stretch,
): Pick<ComparedSide, 'window' | 'sizes'> {
  const ran = bySize(window, sizes).flatMap(({ size }) =>
    size === undefined ? [] : [index.sizeById.get(size)?.name ?? size],
  );
  return { window: spanOf(window), sizes: [...new Set(ran)] };
}

function spanOf({ from, to }: Stretch): Span {
  return { from: epochMs(from), to: epochMs(to) };
}
