import type { DevicePast } from '../../model/past/devicesPast.ts';
import type { StationRef } from '../../model/past/past.ts';
import type { SafetyPast } from '../../model/past/safetyPast.ts';
import { words } from '../app/words.ts';
import { DeviceMark } from './device-mark.tsx';

const said = words.screen.past.safety.place;

/** Where each device and guard is along the carton's path: back side above, front side below. */
export function Places({
  safety,
  stations,
}: {
  readonly safety: SafetyPast;
  readonly stations: readonly StationRef[];
}) {
  const { devices } = safety;
  const on = (side: 'back' | 'front', guard: boolean) =>
    devices.filter(({ kind, place }) => place.side === side && (kind === 'guard') === guard);
  const columns = `28px repeat(${stations.length}, minmax(0, 1fr))`;
  return (
    <section className="sheet places">
      <h2>{said.title}</h2>
      <ul className="placegrid" style={{ gridTemplateColumns: columns }}>
        {on('back', false).map((device) => (
          <Hung key={device.id} device={device} stations={stations} row={1} />
        ))}
        {on('back', true).map((device) => (
          <Hung key={device.id} device={device} stations={stations} row={2} />
        ))}
        <li className="chain" style={{ gridRow: 3, gridColumn: '1 / -1' }}>
          <span className="unseen">{said.path}</span>
        </li>
        {stations.map(({ id, number, name }, place) => (
          <li key={id} className="at" style={{ gridRow: 3, gridColumn: place + 2 }}>
            {number} <span>{name}</span>
          </li>
        ))}
        {on('front', true).map((device) => (
          <Hung key={device.id} device={device} stations={stations} row={4} />
        ))}
        {on('front', false).map((device) => (
          <Hung key={device.id} device={device} stations={stations} row={5} />
        ))}
      </ul>
    </section>
  );
}

function Hung({
  device,
  stations,
  row,
}: {
  readonly device: DevicePast;
  readonly stations: readonly StationRef[];
  readonly row: number;
}) {
  const { kind, name, place } = device;
  const column = (id: string | undefined) => stations.findIndex((station) => station.id === id) + 2;
  const stationName = (id: string | undefined) => stations.find((station) => station.id === id)?.name;
  const isGuard = kind === 'guard';
  const from = place.from === undefined ? 1 : column(place.from);
  const to = place.to === undefined ? 2 : column(place.to) + 1;
  return (
    <li
      className={isGuard ? 'guardbox' : 'hung'}
      style={{ gridRow: row, gridColumn: isGuard ? `${from} / ${to}` : `${from} / -1` }}
    >
      {!isGuard && <DeviceMark door={false} used="during" size={24} />}
      <span>{name}</span>{' '}
      <span className="unseen">
        {said[place.side]} {said.between(stationName(place.from), stationName(place.to))}
      </span>
    </li>
  );
}
