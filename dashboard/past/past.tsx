import type { PastOverview } from '../../model/past/overview.ts';
import type { PastScreen } from '../app/route.ts';
import { usePart } from '../store/use.tsx';
import { Stops } from '../stops/stops.tsx';
import { useAsked } from './asked.ts';

/** How often it is asked what there is to look at; while it is being made, more often. */
const OVERVIEW_MS = 5_000;

/** The screen of an address that looks back. */
export function Past({ screen }: { readonly screen: PastScreen; readonly of: string | undefined }) {
  const { id } = usePart('line');
  const overview = useAsked<PastOverview>(`/api/lines/${encodeURIComponent(id)}/past`, OVERVIEW_MS);
  switch (screen) {
    case 'stops':
      return <Stops overview={overview.data} />;
    case 'stations':
    case 'safety-stops':
    case 'changeovers':
    case 'signals':
      return null;
  }
}
