import type { HappeningRecord } from '../fold/state.ts';
import { placed } from './english-say.ts';

/** What the PLC told of a fault, a reject, a device or a guard, wherever it is listed; `station`: where, by name. */
export function happenedWords(
  { kind, name }: Pick<HappeningRecord, 'kind' | 'name'>,
  station: string | undefined,
): string {
  switch (kind) {
    case 'firstFault':
      return `**first fault: ${placed(name, station)}**`;
    case 'setOff':
      return placed(name, station);
    case 'reject':
      return `reject${station === undefined ? '' : ` at ${station}`}: ${name}`;
    case 'press':
      return `**${name} pressed**`;
    case 'release':
      return `${name} released`;
    case 'guardOpened':
      return `${name} read open`;
    case 'guardClosed':
      return `${name} read closed`;
  }
}
