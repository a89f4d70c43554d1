import type { SetPointRow } from '../../model/past/setPointsPast.ts';

/** Rows of each station together, stations in the order in which they come. */
export function byStation(rows: readonly SetPointRow[]): readonly (readonly SetPointRow[])[] {
  const groups = new Map<string, SetPointRow[]>();
  for (const row of rows) {
    const group = groups.get(row.station.id);
    if (group) group.push(row);
    else groups.set(row.station.id, [row]);
  }
  return [...groups.values()];
}
