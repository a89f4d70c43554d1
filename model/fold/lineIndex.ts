import type { Line, Size, StopReason } from '../line/line.ts';
import type { PackmlState } from '../packml/packml.ts';
import type { Role, Signal, Value } from '../signals/signals.ts';
import { type Span, seconds } from '../units/units.ts';
import { lossKey } from './account.ts';

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
  readonly reasonSignal: number;
  readonly cycleSignal: number;
  readonly sizeSignal: number;
  readonly orderSignal: number;
  readonly paceServer: string;
  /** Whether `notLoaded` is known from empty cartons at discharge, or from the loading positions. */
  readonly notLoadedFrom: 'discharge' | 'positions';
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
    reasonSignal: signal('stopReason'),
    cycleSignal,
    sizeSignal: line.signals.findIndex(({ role }) => role === 'size'),
    orderSignal: line.signals.findIndex(({ role }) => role === 'order'),
    paceServer: line.signals[stateSignal >= 0 ? stateSignal : cycleSignal]?.server ?? '',
    notLoadedFrom: line.rejects.some((reject) => reject.means === 'notLoaded') ? 'discharge' : 'positions',
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
