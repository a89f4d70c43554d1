import type { EntryNames } from '../../model/words/english-said.ts';
import type { EntriesPast } from '../../model/past/entriesPast.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';

const { past } = words.screen;

/** What a loading position is called. */
export function usePositionName(): (id: string) => string {
  const loading = usePart('loading');
  return (id) => loading.find((one) => one.id === id)?.name ?? id;
}

/** What the line calls what entries name by an id; what it does not name is told by its id. */
export function useEntryNames(overview: PastOverview, answers: EntriesPast['answers']): EntryNames {
  const { devices, guards } = usePart('devices');
  const fitted = usePart('fitted');
  return {
    station: (id) => {
      if (id === null) return past.noStation;
      const known = overview.stations.find((one) => one.id === id);
      return known ? past.station(known.number, known.name) : id;
    },
    size: (id) => overview.sizes.find((one) => one.id === id)?.name ?? id,
    device: (id) => [...devices, ...guards].find((one) => one.id === id)?.name ?? id,
    step: (id) =>
      words.screen.fitted.thing({ what: 'parts', name: fitted.find(({ step }) => step === id)?.name ?? id }),
    answer: (id) => (id === 'other' ? past.said.other : (answers.find((one) => one.id === id)?.name ?? id)),
  };
}
