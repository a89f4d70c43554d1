import { after, type Instant } from '../../model/units/units.ts';
import type { Fault } from '../faults/faults.ts';

/** A moment at which a fault begins or ends. */
export interface Turn {
  readonly at: Instant;
  readonly does: () => void | Promise<void>;
}

/** What faults do to a server and its cable. Each is undone as often as it was done. */
export interface Doings {
  /** Told of every fault as it begins. */
  begins(fault: Fault): void;
  cut(by: 1 | -1): void;
  darken(by: 1 | -1): void;
  /** The server's process ends. `again`: the next one gives the same ids; `moves`: its namespace has another number. */
  goes(next: { readonly again: boolean; readonly moves: boolean }): void;
  comes(): Promise<void>;
  /** The server breaks with its clients. */
  breakOff(): void;
  /** The cable goes dark once a client has heard that nothing changed; then its connections break. */
  hush(on: boolean): void;
}

/** When what is to be done for a fault; its kinds that are a matter of the PLC, or of every message, need nothing. */
export function turnsOf(fault: Fault, start: Instant, doings: Doings): readonly Turn[] {
  const at = after(start, fault.at);
  const told: Turn = { at, does: () => doings.begins(fault) };
  const between = (begins: () => void, ends: () => void | Promise<void>): readonly Turn[] => {
    const end = 'lasts' in fault ? after(at, fault.lasts) : at;
    return [told, { at, does: begins }, { at: end, does: ends }];
  };
  const away = (again: boolean, moves: boolean) =>
    between(
      () => doings.goes({ again, moves }),
      () => doings.comes(),
    );
  switch (fault.kind) {
    case 'cut':
      return between(
        () => doings.cut(1),
        () => doings.cut(-1),
      );
    case 'dark':
      return between(
        () => doings.darken(1),
        () => doings.darken(-1),
      );
    case 'unheard':
      return between(
        () => doings.hush(true),
        () => doings.hush(false),
      );
    case 'killed':
      return away(false, false);
    case 'reissued':
      return away(true, false);
    case 'download':
      return away(false, true);
    case 'refused':
      return [told, { at, does: () => doings.breakOff() }];
    case 'reset':
    case 'rollover':
    case 'corrected':
    case 'set':
    case 'bad':
    case 'still':
    case 'frozen':
    case 'pulse':
    case 'late':
    case 'skewed':
    case 'stampless':
    case 'stepped':
    case 'local':
    case 'queue':
    case 'sampled':
    case 'limited':
    case 'empty':
    case 'twice':
    case 'mixed':
      return [told];
  }
}
