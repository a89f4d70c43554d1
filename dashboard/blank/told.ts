import { useMemo } from 'react';
import type { StationView } from '../../model/view/view.ts';
import type { Moment } from '../store/moment.ts';
import { usePart } from '../store/use.tsx';

/** What sentences need to know beside their facts: the zone, the moment to count with, the stations' names. */
export interface Told {
  readonly zone: string;
  readonly now: number;
  readonly station: (id: string | undefined) => string | undefined;
}

export function nameOf(stations: readonly StationView[], id: string | undefined): string | undefined {
  return id === undefined ? undefined : (stations.find((station) => station.id === id)?.name ?? id);
}

export function useTold(moment: Moment): Told {
  const { zone } = usePart('line');
  const { stations } = usePart('path');
  return useMemo(
    () => ({ zone, now: moment.now, station: (id) => nameOf(stations, id) }),
    [zone, stations, moment.now],
  );
}
