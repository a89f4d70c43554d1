import { words } from '../app/words.ts';
import { Mark } from '../marks/symbols.tsx';
import { useReads } from '../wall/reads.ts';

/** What each stop device and guard reads, in words. Red only where a device reads pressed now. */
export function PhoneDevices() {
  const { devices, guards } = useReads();
  const { pressed } = words.screen;
  return (
    <section className="inset sheetlike devices">
      <h2>{pressed.devices}</h2>
      <ul>
        {devices.map((device) => (
          <li key={device.id} className={device.reads === 'pressed' ? 'latched' : ''}>
            <Mark
              id={
                device.reads === 'pressed'
                  ? 'd-button'
                  : device.reads === 'unknown' || device.uncertain
                    ? 'd-button-dotted'
                    : 'd-button-open'
              }
              size={28}
            />
            <span>{pressed.device(device.name, device.reads, device.uncertain)}</span>
          </li>
        ))}
        {guards.map((guard) => (
          <li key={guard.id}>
            <Mark id="d-door-open" size={28} />
            <span className={guard.uncertain ? 'doubt' : ''}>
              {pressed.guard(guard.name, guard.reads, guard.uncertain)}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
