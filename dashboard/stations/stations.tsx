import type { PastOverview } from '../../model/past/overview.ts';
import { AllStations } from './all.tsx';
import { OneStation } from './one.tsx';

/** How often a stretch that goes on until now is asked for again. */
export const AGAIN_MS = 10_000;

/** What came to each station, and what was lost and stopped there: all of them, or the one that the address names. */
export function Stations({
  overview,
  of,
}: {
  readonly overview: PastOverview | undefined;
  readonly of: string | undefined;
}) {
  return of === undefined ? (
    <AllStations overview={overview} />
  ) : (
    <OneStation key={of} id={of} overview={overview} />
  );
}
