import { useMemo } from 'react';
import type { DevicesView } from '../../model/view/devices.ts';
import { useMoment, usePart } from '../store/use.tsx';

/** Whether the last view may still be shown as what is read: live, or stale with the time it was true. */
export function useSeen(): boolean {
  const { sight } = useMoment();
  return sight === 'live' || sight === 'stale';
}

/** What each stop device and guard reads; not known, whatever it read last, once nobody has looked for a minute. */
export function useReads(): DevicesView {
  const devices = usePart('devices');
  const seen = useSeen();
  return useMemo(
    () =>
      seen
        ? devices
        : {
            devices: devices.devices.map((device) => ({ ...device, reads: 'unknown', uncertain: false })),
            guards: devices.guards.map((guard) => ({ ...guard, reads: 'unknown', uncertain: false })),
          },
    [devices, seen],
  );
}
