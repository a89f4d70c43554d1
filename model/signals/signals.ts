import type { Instant } from '../units/units.ts';

/** What a signal means, whatever the PLC calls it. Counters only ever count up, and roll over at their width. */
export type Role =
  | 'state' // machine state number, mapped to a PackML state by the line's file
  | 'mode' // machine mode number, mapped to a mode by the line's file
  | 'stopReason' // first-out word: number of the first fault of this stop, 0 when none
  | 'alarmNumber' // number of the alarm now shown, 0 when none
  | 'alarmText'
  | 'cycleCount' // machine cycles, one pocket each
  | 'goodCount' // cartons that passed the discharge check
  | 'presentedCount' // cartons that reached a station
  | 'rejectCount' // cartons rejected at discharge for one coarse reason
  | 'pickedCount' // blanks taken from the magazine
  | 'missedPickCount' // cycles in which no blank came
  | 'notLoadedCount' // pockets left without product at one loading position
  | 'crushedCount' // cartons crushed in a jam at one station, counted when its pockets are cleared
  | 'nearMissCount' // cycles in which a station's own sensor saw a flap late or a tuck missing, and the machine went on
  | 'stopDevice' // an emergency stop, or a circuit of several, read pressed or released
  | 'stopDeviceCount' // counted twin of a stop device: one up at each press
  | 'guard' // a guard read open or closed
  | 'speedSet'
  | 'speedActual'
  | 'size' // carton size code
  | 'crew' // people at loading
  | 'order' // order number, as text or number
  | 'lot' // board lot
  | 'trial' // on while trial cartons are run, whatever the mode says
  | 'adjustment' // reading of a numbered adjustment with an encoder
  | 'starved'
  | 'blocked'
  | 'machineAngle'
  | 'condition' // vacuum, air, motor load …
  | 'programVersion'
  | 'enabling' // set-up, hold-to-run: explains a guard open while it moves
  | 'muting'
  | 'heartbeat'
  | 'link' // written by the gateway: whether the server that serves these signals is being heard
  | 'entry'; // written by people: an Entry as JSON text

export type Value = number | boolean | string | null;

/** Place of a signal in its line's list; equal times are ordered by it. */
export type SignalIndex = number;

/** One PLC value bound to a meaning. */
export interface Signal {
  readonly index: SignalIndex;
  /** Stable name on the tape and in the API, for example `reject.bottom-open`. */
  readonly id: string;
  readonly role: Role;
  readonly machine: string;
  /** OPC UA server it comes from; the empty string for what people and the gateway write. */
  readonly server: string;
  readonly type: 'number' | 'boolean' | 'text';
  /** Number of values before a counter rolls over: 65,536 or 4,294,967,296 or 2,147,483,648. Counters only. */
  readonly wraps?: number;
  /** Station, device, guard, loading position, reject reason, adjustment or condition it belongs to. */
  readonly of?: string;
  /** For Booleans: the value that means pressed, open, starved … `true` unless the file says otherwise. */
  readonly activeWhen?: boolean;
}

/** One signal's new value, as it stands on the tape. */
export interface Change {
  readonly signal: SignalIndex;
  /** Line time: the PLC's source time where its clock setting says it can be trusted, else when it was received. */
  readonly at: Instant;
  /** When the gateway received it. */
  readonly received: Instant;
  /** OPC UA status code. A value with a bad code says only that the value is unknown. */
  readonly status: number;
  readonly value: Value;
}

/** The order in line time: by moment, then by signal. What is equal in both keeps its order of arrival. */
export function byLineTime(a: Change, b: Change): number {
  return a.at - b.at || a.signal - b.signal;
}
