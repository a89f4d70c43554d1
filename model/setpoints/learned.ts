import type { LineIndex } from '../fold/lineIndex.ts';
import type { FoldState } from '../fold/state.ts';
import type { Learned } from '../past/setPointsPast.ts';
import { actingOn, type SettledCounts } from '../past/settledCounts.ts';
import type { SetRun } from './settled.ts';
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
        const stood = stoodIn(own, place, adjustment.decimals);
        const settings = [...new Set(stood.map(({ at }) => at))].sort((a, b) => a - b);
        return [
          [
            adjustment.number,
            {
              recommended: undefined,
              likely: undefined,
              ranWell: undefined,
              sure: settings.length === 1 && stood.length > 1 ? 'neverVaried' : 'cannotSay',
              runs: stood.length,
              settings: settings.length,
              lots: new Set(stood.flatMap(({ run: { lot } }) => (lot === null ? [] : [lot]))).size,
              marks: settings.map((at) => ({ at, runs: stood.filter((one) => one.at === at).length })),
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

/** Where it stood in each run: at the number at which most of the run's cartons were made. */
function stoodIn(
  counts: readonly SettledCounts[],
  place: number,
  decimals: number,
): readonly { readonly run: SetRun; readonly at: number }[] {
  const runs = new Map<SetRun, Map<number, number>>();
  for (const { settled, cartons } of counts) {
    const value = settled.sets[place]?.value;
    if (value === undefined) continue;
    const made = runs.get(settled.run) ?? new Map<number, number>();
    const at = onScale(value, decimals);
    made.set(at, (made.get(at) ?? 0) + cartons);
    runs.set(settled.run, made);
  }
  return [...runs].map(([run, made]) => ({ run, at: [...made].sort((a, b) => b[1] - a[1])[0]![0] }));
}
