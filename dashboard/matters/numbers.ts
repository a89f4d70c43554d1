import type { Matter } from '../../model/view/matter.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';

const { line } = words.screen;

/** Which numbers of a notice's words are figures; clock times and what a counter is called are none. */
export function numbersOfMatter(matter: Matter): readonly Numbered[] {
  switch (matter.kind) {
    case 'unexplainedStop':
      return matter.lasted === undefined ? [] : [['stood', line.duration(matter.lasted)]];
    case 'stationAbnormal':
      return [
        ['recentRejects', line.count(matter.inLast)],
        ['recentRejects', line.count(matter.of)],
        ['normalRejects', line.count(matter.normal)],
      ];
    case 'guardOpenRunning':
    case 'devicePressedRunning':
      return matter.lasted === undefined ? [] : [['ranOn', line.duration(matter.lasted)]];
    case 'stillTrial':
      return [['changeoverTime', line.duration(matter.lasted)]];
    case 'clockOff':
      return [['clockOffset', line.duration(Math.abs(matter.offset))]];
    case 'clockSet':
      return [['clockSet', line.duration(Math.abs(matter.by))]];
    case 'counterReset':
      return [['counterMarks', line.count(matter.times)]];
    case 'notSeen':
      return matter.to === undefined ? [] : [['gap', line.minutesPast(matter.to - matter.from)]];
    case 'olderFindings':
      return [['findings', line.count(matter.count)]];
    case 'whichButton':
    case 'notRecorded':
    case 'waysWrong':
    case 'further':
      return [];
  }
}
