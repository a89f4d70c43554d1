import type { LineIndex } from '../fold/lineIndex.ts';
import { type AttributedPast } from './attributedPast.ts';
import { type SeenTime, type StationRef, stationRef } from './past.ts';

/** Who may have spoiled the rejects of a period, with names; cartons may be parts of one. */
export interface AttributedAnswer {
  readonly seen: SeenTime;
  readonly rejects: number;
  readonly unattributed: number;
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
  /** Whether stations tell of near misses: without them less is seen. */
  readonly nearMisses: boolean;
}

/** [AT1] Reasons of which nothing came are left out. */
export function attributedAnswer(
  index: LineIndex,
  seen: SeenTime,
  { rejects, unattributed, reasons, stations }: AttributedPast,
): AttributedAnswer {
  const { line } = index;
  return {
    seen,
    rejects,
    unattributed,
    reasons: reasons
      .filter((reason) => reason.rejects > 0)
      .map(({ reason, rejects: of, shares }) => ({
        id: reason,
        name: line.rejects.find(({ id }) => id === reason)?.name ?? reason,
        rejects: of,
        stations: shares.flatMap(({ station, cartons }) => {
          const ref = stationRef(index, station);
          return ref && cartons > 0 ? [{ station: ref, cartons }] : [];
        }),
        nobody: shares.find(({ station }) => station === undefined)?.cartons ?? 0,
      })),
    stations: stations.flatMap(({ station, ...counts }) => {
      const ref = stationRef(index, station);
      return ref ? [{ station: ref, ...counts }] : [];
    }),
    nearMisses: line.signals.some(({ role }) => role === 'nearMissCount'),
  };
}
