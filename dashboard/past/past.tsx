import type { PastOverview } from '../../model/past/overview.ts';
import type { PastScreen } from '../app/route.ts';
import { Changeovers } from '../changeovers/changeovers.tsx';
import { Figures } from '../figures/figures.tsx';
import { Maintenance } from '../maintenance/maintenance.tsx';
import { ReplayScreen } from '../replay/replayScreen.tsx';
import { ReportScreen } from '../report/report.tsx';
import { Signals } from '../signals/signals.tsx';
import { SetPoints } from '../setpoints/setPoints.tsx';
import { usePart } from '../store/use.tsx';
import { SafetyStops } from '../safety/safety.tsx';
import { Stations } from '../stations/stations.tsx';
import { Stops } from '../stops/stops.tsx';
import { useAsked } from './asked.ts';

/** How often it is asked what there is to look at; while it is being made, more often. */
const OVERVIEW_MS = 5_000;

/** The screen of an address that looks back. */
export function Past({ screen, of }: { readonly screen: PastScreen; readonly of: string | undefined }) {
  const { id } = usePart('line');
  const overview = useAsked<PastOverview>(`/api/lines/${encodeURIComponent(id)}/past`, OVERVIEW_MS);
  switch (screen) {
    case 'stops':
      return <Stops overview={overview.data} />;
    case 'safety-stops':
      return <SafetyStops overview={overview.data} />;
    case 'stations':
      return <Stations overview={overview.data} of={of} />;
    case 'maintenance':
      return <Maintenance overview={overview.data} />;
    case 'changeovers':
      return <Changeovers overview={overview.data} />;
    case 'setpoints':
      return <SetPoints overview={overview.data} />;
    case 'replay':
      return <ReplayScreen overview={overview.data} />;
    case 'figures':
      return <Figures overview={overview.data} />;
    case 'report':
      return <ReportScreen overview={overview.data} />;
    case 'signals':
      return <Signals overview={overview.data} />;
  }
}
