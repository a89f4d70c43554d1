import { calendarFaults } from './calendarChecks.ts';
import type { Fault } from './faults.ts';
import { machineFaults, settingsFaults, stationFaults, targetFaults } from './lineChecks.ts';
import { referenceFaults } from './referenceChecks.ts';
import { signalFaults } from './signalChecks.ts';
import type { Source } from './source.ts';

/**
 * Everything that one part of the file has to say about another. It reads the plain data, not the parsed file, and
 * passes over values of the wrong kind, so that these mistakes are told together with those of shape.
 */
export function crossFaults(source: Source): readonly Fault[] {
  const all = [
    stationFaults,
    machineFaults,
    targetFaults,
    settingsFaults,
    referenceFaults,
    calendarFaults,
    signalFaults,
  ];
  return all.flatMap((check) => check(source));
}
