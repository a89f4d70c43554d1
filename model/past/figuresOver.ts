import type { LineIndex } from '../fold/lineIndex.ts';
import type { StopRecord } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Instant } from '../units/units.ts';
import { bySize } from './figureStretches.ts';
import { addFigures, type FiguresPast, figuresPast, NOTHING_PAST } from './figuresPast.ts';
import { gainedBetween } from './stationCounts.ts';
import type { Stretch } from './stretches.ts';
import { timePast } from './timePast.ts';

export interface FiguresOver {
  readonly index: LineIndex;
  /** The oldest first, none over another. */
  readonly stretches: readonly Stretch[];
  /** What has a part in them, the oldest first. */
  readonly stops: readonly StopRecord[];
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
  { index, sizes, tallyAt, begun, now }: FiguresOver,
  stretch: Stretch,
  stops: readonly StopRecord[],
  gaps: readonly RecordBodies['gap'][],
): FiguresPast {
  const asked = { index, ...stretch, stops, gaps, begun };
  const gains = bySize(stretch, sizes).map(({ from, to, size }) => ({
    size,
    gained: gainedBetween(tallyAt(from), tallyAt(to)),
  }));
  return figuresPast({ ...asked, time: timePast(asked), gains, now });
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
