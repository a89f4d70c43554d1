import type { LineIndex } from '../fold/lineIndex.ts';
import type { PressRecord, StopRecord } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import { type Instant, MINUTE } from '../units/units.ts';
import { bySize } from './figureStretches.ts';
import {
  addFigures,
  addGained,
  type FiguresPast,
  figuresPast,
  NOTHING_PAST,
  type SizeGain,
} from './figuresPast.ts';
import { gainedBetween } from './stationCounts.ts';
import { outsideShifts, type Stretch, without } from './stretches.ts';
import { SHIFTS_MOST, timePast } from './timePast.ts';

export interface FiguresOver {
  readonly index: LineIndex;
  /** The oldest first, none over another. */
  readonly stretches: readonly Stretch[];
  /** What has a part in them, the oldest first. */
  readonly stops: readonly StopRecord[];
  readonly presses: readonly PressRecord[];
  /** Also one that lasts. */
  readonly gaps: readonly RecordBodies['gap'][];
  readonly sizes: readonly RecordBodies['size'][];
  /** What each counter had counted by a moment. */
  readonly tallyAt: (at: Instant) => readonly number[];
  /** From when on there are records at all. */
  readonly begun: Instant;
  readonly now: Instant;
}

/** [KP1] Figures of several stretches together: what they are made of is added up, and never a ratio. */
export function figuresOver(over: FiguresOver): FiguresPast {
  const stopsIn = passing(
    over.stops,
    ({ begin }) => begin,
    ({ end }) => end,
  );
  const gapsIn = passing(
    over.gaps,
    ({ from }) => from,
    ({ to }) => to,
  );
  return over.stretches
    .map((stretch) => figuresOf(over, stretch, stopsIn(stretch), gapsIn(stretch)))
    .reduce(addFigures, NOTHING_PAST);
}

function figuresOf(
  over: FiguresOver,
  stretch: Stretch,
  stops: readonly StopRecord[],
  gaps: readonly RecordBodies['gap'][],
): FiguresPast {
  const { index, begun, now, presses } = over;
  const { calendar, zone } = index.line;
  const pieces = without(stretch, outsideShifts(calendar, zone, stretch, SHIFTS_MOST));
  const asked = { index, ...stretch, stops, gaps, begun, presses, pieces };
  const inGaps = pieces.flatMap((piece) => gapGains(over, piece));
  return figuresPast({
    ...asked,
    time: timePast(asked),
    gains: gainsOf(over, stretch),
    paced: lessGains(
      pieces.flatMap((piece) => gainsOf(over, piece)),
      inGaps,
    ),
    notSeen: inGaps.map(({ gained }) => gained).reduce(addGained, []),
    now,
  });
}

/** Size by size, what is left of some gains without others that are among them. */
function lessGains(all: readonly SizeGain[], less: readonly SizeGain[]): readonly SizeGain[] {
  const left = new Map<string | undefined, readonly number[]>();
  for (const { size, gained } of all) left.set(size, addGained(left.get(size) ?? [], gained));
  for (const { size, gained } of less)
    left.set(
      size,
      addGained(
        left.get(size) ?? [],
        gained.map((count) => -count),
      ),
    );
  return [...left].map(([size, gained]) => ({ size, gained }));
}

function gainsOf({ sizes, tallyAt }: FiguresOver, stretch: Stretch): readonly SizeGain[] {
  return bySize(stretch, sizes).map(({ from, to, size }) => ({
    size,
    gained: gainedBetween(tallyAt(from), tallyAt(to)),
  }));
}

/**
 * [CO5] What was counted in gaps, by the size that was known then. A counter is read by the minute: what the end of a gap
 * brought lies in the piece that has the end of that minute.
 */
function gapGains({ gaps, sizes, now }: FiguresOver, { from, to }: Stretch): readonly SizeGain[] {
  return gaps.flatMap(({ kind, gained, counted, to: ended }) => {
    if (kind !== 'unknown' || !gained) return [];
    const at = counted ?? ended;
    const told = Math.min(now, Math.ceil(at / MINUTE) * MINUTE);
    return told > from && told <= to ? [{ size: sizes.findLast((one) => one.at < at)?.size, gained }] : [];
  });
}

/** Those of a list that have a part in one stretch after another; in the list none lies over another. */
function passing<One>(
  list: readonly One[],
  from: (one: One) => Instant,
  to: (one: One) => Instant | null,
): (stretch: Stretch) => readonly One[] {
  let place = 0;
  return (stretch) => {
    while (place < list.length && (to(list[place]!) ?? Infinity) <= stretch.from) place += 1;
    let end = place;
    while (end < list.length && from(list[end]!) < stretch.to) end += 1;
    return list.slice(place, end);
  };
}
