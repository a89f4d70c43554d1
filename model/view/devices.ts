import type { Side } from '../line/line.ts';

/** What each stop device and guard reads now. Never says safe. */
export interface DevicesView {
  readonly devices: readonly DeviceView[];
  readonly guards: readonly {
    readonly id: string;
    readonly name: string;
    readonly side: Side;
    readonly from: string;
    readonly to: string;
    readonly reads: 'closed' | 'open' | 'unknown';
    readonly uncertain: boolean;
  }[];
}

export interface DeviceView {
  readonly id: string;
  readonly name: string;
  readonly side: Side;
  readonly station: string | undefined;
  readonly position: string | undefined;
  readonly reads: 'released' | 'pressed' | 'unknown';
  readonly uncertain: boolean;
  readonly hasTwin: boolean;
  readonly candidates: readonly string[];
}
