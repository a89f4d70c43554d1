import type { PastOverview } from '../../model/past/overview.ts';
import type { StopsWanted } from '../../model/words/english-stops.ts';
import { words } from '../app/words.ts';
import type { Chosen } from '../past/chosen.ts';
import { PeriodChoice, ShiftChoice, SizeChoice, StationChoice } from '../past/choose.tsx';

const { past } = words.screen;

type Choose = (change: Readonly<Record<string, string | undefined>>) => void;

/** Which time, and which of its stops. */
export function StopChoices({
  overview,
  chosen,
  choose,
}: {
  readonly overview: PastOverview;
  readonly chosen: Chosen;
  readonly choose: Choose;
}) {
  return (
    <div className="choices stopchoices">
      <PeriodChoice
        overview={overview}
        chosen={chosen.period ?? 'shift'}
        choose={(period) => choose({ period })}
      />
      <SizeChoice overview={overview} chosen={chosen.size} choose={(size) => choose({ size })} />
      <ShiftChoice overview={overview} chosen={chosen.shift} choose={(shift) => choose({ shift })} />
      <div className="drawnstations">
        <StationChoice
          overview={overview}
          chosen={chosen.station}
          choose={(station) => choose({ station })}
        />
      </div>
      <NamedStations overview={overview} chosen={chosen.station} choose={(station) => choose({ station })} />
    </div>
  );
}

/** Where there is no room to draw all stations, and nothing to point at them with: by name. */
function NamedStations({
  overview,
  chosen,
  choose,
}: {
  readonly overview: PastOverview;
  readonly chosen: string | undefined;
  readonly choose: (station: string | undefined) => void;
}) {
  return (
    <label className="period namedstations noprint">
      <span className="unseen">{past.stops.columns.station}</span>
      <select
        value={chosen ?? ''}
        onChange={({ target: { value } }) => choose(value === '' ? undefined : value)}
      >
        <option value="">{past.all.stations}</option>
        {overview.stations.map(({ id, number, name }) => (
          <option key={id} value={id}>
            {past.station(number, name)}
          </option>
        ))}
      </select>
    </label>
  );
}

/** What is chosen, as people call it; what there is no name for is told by its id. */
export function namesOf({ station, size, shift, order }: Chosen, overview: PastOverview): StopsWanted {
  const place = overview.stations.find(({ id }) => id === station);
  return {
    station: place ? past.station(place.number, place.name) : station,
    size: overview.sizes.find(({ id }) => id === size)?.name ?? size,
    shift: overview.shifts.find(({ rule }) => rule === shift)?.name ?? shift,
    order,
  };
}
