import type { CauseClass } from '../entries/saidEntries.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { StopRecord } from '../fold/state.ts';
import type { StopKind } from '../line/line.ts';
import { type Instant, type Millis, millis, type Span, TICKS_PER_MS } from '../units/units.ts';
import { type StationRef, stationRef } from './past.ts';

/** [EN2] A part of a stop with one cause, as known now; `counts` in its first part alone, so that a stop counts once. */
export interface StopPiece {
  readonly stop: StopRecord;
  readonly station: string | null;
  readonly kind: StopKind | null;
  readonly from: Instant;
  readonly to: Instant;
  readonly counts: boolean;
  /** People put it where the PLC's first fault does not. */
  readonly moved: boolean;
}

/** What people say of a stop's cause, beside what the PLC said of it. */
export interface CauseSaid {
  readonly parts: readonly {
    readonly after: Millis;
    readonly station: StationRef | undefined;
    readonly class: CauseClass;
  }[];
  readonly words: string;
}

const KINDS = { stopped: 'machine', starved: 'starved', blocked: 'blocked' } as const satisfies Record<
  CauseClass,
  StopKind
>;

/** [EN2] The parts of a stop, each where people put it, else where the PLC does; `until`: the end of one that goes on. */
export function piecesOfStop(stop: StopRecord, until: Instant): readonly StopPiece[] {
  const to = stop.end ?? until;
  const { cause } = stop;
  if (!cause) {
    const { station, kind, begin: from } = stop;
    return [{ stop, station, kind, from, to, counts: true, moved: false }];
  }
  const starts = cause.parts.map(({ after }) => Math.min(to, stop.begin + after * TICKS_PER_MS) as Instant);
  return cause.parts.map((part, place) => ({
    stop,
    station: part.station,
    kind: KINDS[part.class],
    from: starts[place]!,
    to: starts[place + 1] ?? to,
    counts: place === 0,
    moved: part.station !== stop.station || KINDS[part.class] !== stop.kind,
  }));
}

/** [EN2] Where a stop counts, as known now. */
export function placedNow(stop: StopRecord): Pick<StopPiece, 'station' | 'kind' | 'moved'> {
  return piecesOfStop(stop, stop.begin)[0]!;
}

/** How long it was at a station, by whatever part of it lies in a stretch. */
export function stoodAt(
  stop: StopRecord,
  station: string,
  { from, to }: { readonly from: Instant; readonly to: Instant },
): Span {
  return piecesOfStop(stop, to)
    .filter((piece) => piece.station === station)
    .reduce(
      (sum, piece) => sum + Math.max(0, Math.min(piece.to, to) - Math.max(piece.from, from)),
      0,
    ) as Span;
}

export function causeSaid(index: LineIndex, { cause }: StopRecord): CauseSaid | undefined {
  if (!cause) return undefined;
  return {
    parts: cause.parts.map(({ after, station, class: what }) => ({
      after: millis((after * TICKS_PER_MS) as Span),
      station: stationRef(index, station),
      class: what,
    })),
    words: cause.words,
  };
}
