import { type MeasuredFor, measuredFor, pocketsDoubted } from '../attribution/accuracy.ts';
import type { AttributionRecord } from '../attribution/attribution.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { AttributedPast } from './attributedPast.ts';
import { type SeenTime, type StationRef, stationRef } from './past.ts';

/** Who may have spoiled the rejects of a period, with names; cartons may be parts of one. */
export interface AttributedAnswer {
  readonly seen: SeenTime;
  /** Undefined where nobody saw any of the period. */
  readonly rejects: number | undefined;
  readonly unattributed: number | undefined;
  readonly reasons: readonly {
    readonly id: string;
    readonly name: string;
    readonly rejects: number;
    /** As cartons pass the stations; what is nobody's is apart. */
    readonly stations: readonly { readonly station: StationRef; readonly cartons: number }[];
    readonly nobody: number;
  }[];
  readonly stations: readonly {
    readonly station: StationRef;
    /** Laid to it by what was seen, and charged to it by the line's file. */
    readonly cartons: number;
    readonly charged: number;
  }[];
  /** Which measured shares these may be held to; undefined where such a line was not measured. */
  readonly heldTo: MeasuredFor | undefined;
  /**
   * Stations whose near misses lie so many pockets nearer to the check than the line's file says, or further where it is below
   * zero; undefined where they lie beside their cycle as often as in it.
   */
  readonly doubted: readonly { readonly station: StationRef; readonly nearer: number | undefined }[];
}

/** [AT1] [AT5] Reasons of which nothing came are left out. `past` undefined: nobody saw any of the period. */
export function attributedAnswer(
  index: LineIndex,
  record: AttributionRecord,
  seen: SeenTime,
  past: AttributedPast | undefined,
): AttributedAnswer {
  const named = <More extends object>(id: string | undefined, more: More) => {
    const station = stationRef(index, id);
    return station ? [{ station, ...more }] : [];
  };
  return {
    seen,
    rejects: past?.rejects,
    unattributed: past?.unattributed,
    reasons: (past?.reasons ?? [])
      .filter(({ rejects }) => rejects > 0)
      .map((reason) => reasonOf(index, reason)),
    stations: (past?.stations ?? []).flatMap(({ station, ...counts }) => named(station, counts)),
    heldTo: measuredFor(index.line, index.attribution, record),
    doubted: pocketsDoubted(index.attribution, record).flatMap(({ station, look }) =>
      named(index.line.stations[station]?.id, { nearer: look.kind === 'off' ? look.nearer : undefined }),
    ),
  };
}

function reasonOf(index: LineIndex, { reason, rejects, shares }: AttributedPast['reasons'][number]) {
  return {
    id: reason,
    name: index.line.rejects.find(({ id }) => id === reason)?.name ?? reason,
    rejects,
    stations: shares.flatMap(({ station, cartons }) => {
      const ref = stationRef(index, station);
      return ref && cartons > 0 ? [{ station: ref, cartons }] : [];
    }),
    nobody: shares.find(({ station }) => station === undefined)?.cartons ?? 0,
  };
}
