import { type AttributionIndex, attributionIndex } from '../attribution/suspects.ts';
import type { Line, Size, StopReason } from '../line/line.ts';
import type { PackmlState } from '../packml/packml.ts';
import type { Role, Signal, Value } from '../signals/signals.ts';
import { type Span, seconds } from '../units/units.ts';
import { lossKey } from './account.ts';
import { linkMissing, valueMissing } from './missing.ts';

const TALLIED: ReadonlySet<Role> = new Set([
  'goodCount',
  'rejectCount',
  'presentedCount',
  'missedPickCount',
  'notLoadedCount',
  'crushedCount',
]);

/** A line's definition, turned round for quick look-up while folding. Made once, never changed. */
export interface LineIndex {
  readonly line: Line;
  readonly stationAt: ReadonlyMap<string, number>;
  readonly sizeByCode: ReadonlyMap<number, Size>;
  readonly sizeById: ReadonlyMap<string, Size>;
  readonly reasonByNumber: ReadonlyMap<number, StopReason>;
  readonly states: ReadonlyMap<number, PackmlState>;
  readonly modes: ReadonlyMap<number, string>;
  readonly deviceAt: ReadonlyMap<string, number>;
  readonly positionAt: ReadonlyMap<string, number>;
  /** Signals of the pace-setting machine that the fold asks for by name; −1 where the line has none. */
  readonly stateSignal: number;
  readonly modeSignal: number;
  readonly trialSignal: number;
  readonly reasonSignal: number;
  readonly cycleSignal: number;
  readonly sizeSignal: number;
  readonly orderSignal: number;
  readonly paceServer: string;
  /** Signals without which nobody can tell what the line does and makes: state or cycles, and good cartons. */
  readonly deciding: ReadonlySet<number>;
  /** Names of what is missing where only what the line makes is not known, and what it does is. */
  readonly countingGaps: ReadonlySet<string>;
  /** Servers of the deciding signals. */
  readonly neededServers: ReadonlySet<string>;
  /** Place of the signal that says whether a server is heard. */
  readonly linkAt: ReadonlyMap<string, number>;
  /** Heartbeats of the pace-setting machine's server, which must not all stand still. */
  readonly heartbeats: readonly number[];
  /** Whether `notLoaded` is known from empty cartons at discharge, or from the loading positions. */
  readonly notLoadedFrom: 'discharge' | 'positions';
  /** Signals whose gains are kept by the minute, and the place of each of them among them; −1 for none. */
  readonly tallied: readonly number[];
  readonly tallyAt: readonly number[];
  /** Whom rejects may come from. */
  readonly attribution: AttributionIndex;
  readonly slowKey: number;
  readonly changeoverKey: number;
  readonly pauseOverKey: number;
  readonly unknownKey: number;
  readonly stoppedNoneKey: number;
  readonly orderCertain: Span;
}

export function indexOf(line: Line): LineIndex {
  const stationAt = placeById(line.stations);
  const none = line.stations.length;
  const pace = line.machines.find((machine) => machine.id === line.pace);
  const signal = (role: Role) => paceSignal(line, role);
  const stateSignal = signal('state');
  const cycleSignal = signal('cycleCount');
  const paceServer = line.signals[stateSignal >= 0 ? stateSignal : cycleSignal]?.server ?? '';
  const counting = line.signals.filter(({ role }) => role === 'goodCount').map(({ index }) => index);
  const tallied = line.signals.filter(({ role }) => TALLIED.has(role)).map(({ index }) => index);
  const deciding = new Set([stateSignal >= 0 ? stateSignal : cycleSignal, ...counting]);
  return {
    line,
    stationAt,
    sizeByCode: new Map(line.sizes.map((size) => [size.code, size])),
    sizeById: new Map(line.sizes.map((size) => [size.id, size])),
    reasonByNumber: new Map(line.reasons.map((reason) => [reason.number, reason])),
    states: pace?.states ?? new Map(),
    modes: pace?.modes ?? new Map(),
    deviceAt: placeById(line.devices),
    positionAt: placeById(line.loading.positions),
    stateSignal,
    modeSignal: signal('mode'),
    trialSignal: signal('trial'),
    reasonSignal: signal('stopReason'),
    cycleSignal,
    sizeSignal: line.signals.findIndex(({ role }) => role === 'size'),
    orderSignal: line.signals.findIndex(({ role }) => role === 'order'),
    paceServer,
    deciding,
    neededServers: new Set([...deciding].flatMap((place) => line.signals[place]?.server ?? [])),
    linkAt: new Map(
      line.signals.filter(({ role }) => role === 'link').map(({ server, index }) => [server, index]),
    ),
    countingGaps: new Set(
      counting.flatMap((place) => {
        const { server } = line.signals[place]!;
        return server === paceServer ? [valueMissing(place)] : [valueMissing(place), linkMissing(server)];
      }),
    ),
    heartbeats: line.signals.flatMap(({ role, server, index }) =>
      role === 'heartbeat' && server === paceServer ? [index] : [],
    ),
    notLoadedFrom: line.rejects.some((reject) => reject.means === 'notLoaded') ? 'discharge' : 'positions',
    tallied,
    tallyAt: line.signals.map(({ index }) => tallied.indexOf(index)),
    attribution: attributionIndex(line),
    slowKey: lossKey(none, 'slow'),
    changeoverKey: lossKey(none, 'changeover'),
    pauseOverKey: lossKey(none, 'pauseOver'),
    unknownKey: lossKey(none, 'unknown'),
    stoppedNoneKey: lossKey(none, 'stopped'),
    orderCertain: seconds(line.settings.orderCertainMs / 1000),
  };
}

/** Whether a Boolean signal now says pressed, open, starved … */
export function active(signal: Signal, value: Value): boolean {
  return value !== null && value === (signal.activeWhen ?? true);
}

function paceSignal(line: Line, role: Role): number {
  return line.signals.findIndex((signal) => signal.role === role && signal.machine === line.pace);
}

function placeById(list: readonly { readonly id: string }[]): ReadonlyMap<string, number> {
  return new Map(list.map(({ id }, place) => [id, place]));
}
