import type { FastFault, Seconds } from './options.ts';

/** What a fault does from its moment on; without one, nothing. */
export interface Faulted {
  /** How many times as high a station's risk is now. */
  readonly times: (station: string) => number;
  /** How many times as many of its misfolds jam. */
  readonly jamsMore: (station: string) => number;
  /** Share of jams there that leave rests. */
  readonly rests: (station: string) => number;
  readonly ran: (now: Seconds, seconds: Seconds, cartons: number) => void;
}

/** Share of jams that leave rests where nothing is wrong, and chance that a carton meets them. */
const RESTS = 0.2;

export function faulted(fault: FastFault | undefined): Faulted {
  let [begun, hours, cartons] = [false, 0, 0];
  const here = (station: string) => begun && fault?.station === station;
  const times = () => {
    switch (fault?.kind) {
      case 'step':
        return fault.times;
      case 'loose':
        return 1 + (hours / fault.doubledAfter) ** 2;
      case 'lot':
        return cartons < fault.cartons ? fault.times : 1;
      case 'rejam':
      case undefined:
        return 1;
    }
  };
  return {
    times: (station) => (here(station) ? times() : 1),
    jamsMore: (station) => (here(station) && fault?.kind === 'rejam' ? fault.times : 1),
    rests: (station) => (here(station) && fault?.kind === 'rejam' ? fault.rests : RESTS),
    ran: (now, seconds, made) => {
      begun = fault !== undefined && now >= fault.from;
      if (!begun) return;
      hours += seconds / 3_600;
      cartons += made;
    },
  };
}
