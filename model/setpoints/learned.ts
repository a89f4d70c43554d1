import type { LineIndex } from '../fold/lineIndex.ts';
import type { FoldState } from '../fold/state.ts';
import type { Learned } from '../past/setPointsPast.ts';
import { actingOn, type SettledCounts } from '../past/settledCounts.ts';
import { rejectSpread } from './spread.ts';
import { onScale } from './standing.ts';

/** Stretches of fewer cartons than this tell nothing of where an adjustment stood in them. */
export const STRETCH_LEAST = 100;

/** [BK2] What the runs of a size taught of every adjustment, by number; none of what no run tells anything. */
export function learnedOf(
  { line }: Pick<LineIndex, 'line'>,
  _size: string,
  _state: Readonly<FoldState>,
  countsAt: (station: string) => readonly SettledCounts[],
): ReadonlyMap<string, Learned> {
  return new Map(
    line.stations.flatMap(({ id }) => {
      const acting = actingOn(line.adjustments, id);
      const counts = countsAt(id).filter(({ cartons }) => cartons >= STRETCH_LEAST);
      return acting.flatMap((adjustment, place) => {
        if (adjustment.station !== id) return [];
        const own = counts.filter(({ settled }) => settled.sets[place] !== undefined);
        if (own.length === 0) return [];
        const values = own.map(({ settled }) => ({
          at: onScale(settled.sets[place]!.value!, adjustment.decimals),
          run: settled.run,
        }));
        const settings = [...new Set(values.map(({ at }) => at))].sort((a, b) => a - b);
        const runs = new Set(values.map(({ run }) => run));
        return [
          [
            adjustment.number,
            {
              recommended: undefined,
              likely: undefined,
              ranWell: undefined,
              sure: settings.length === 1 && runs.size > 1 ? 'neverVaried' : 'cannotSay',
              runs: runs.size,
              settings: settings.length,
              lots: new Set([...runs].flatMap(({ lot }) => (lot === null ? [] : [lot]))).size,
              marks: settings.map((at) => ({
                at,
                runs: new Set(values.filter((one) => one.at === at).map(({ run }) => run)).size,
              })),
              rejects: rejectSpread(counts),
              cost: [],
              together: [],
              teaches: undefined,
            },
          ] as const,
        ];
      });
    }),
  );
}
