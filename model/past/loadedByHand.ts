import type { LineIndex } from '../fold/lineIndex.ts';
import { judgedBy } from './stationCounts.ts';

/**
 * Whether what is charged to a station is what people left empty at it: another run has another crew, and crews are not held
 * against one another.
 */
export function loadedByHand(index: LineIndex, station: string): boolean {
  const { loading } = index.line;
  if (judgedBy(index, station)?.kind !== 'notLoaded' || loading.station !== station) return false;
  return peopleLoad(index);
}

/** A loader that works by itself has one position, and nobody to choose a crew of. */
export function peopleLoad({ line: { loading } }: LineIndex): boolean {
  return loading.crews.length > 1 || loading.positions.length > 1;
}
