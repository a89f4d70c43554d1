import type { SafetyPast } from '../../model/past/safetyPast.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';

const { past } = words.screen;
const { count } = past;

/** Numbers of the heading's answer; how often is told in words where it is seldom. */
export function leadNumbers(safety: SafetyPast): readonly Numbered[] {
  const { ranOnCount, presses, toFirstGood } = safety;
  const { times } = past.safety;
  return [
    ['findings', past.capital(times(ranOnCount.lasts + ranOnCount.open + safety.olderFindings))],
    ['presses', times(presses.uses)],
    ['causedStops', count(presses.caused)],
    ['usedDuring', count(presses.during)],
    ['orderUncertain', count(presses.uncertain)],
    ['noStopCame', count(presses.noStop)],
    ...(toFirstGood.middle === undefined
      ? []
      : ([
          ['middleFirstGood', past.lasted(toFirstGood.middle)],
          ['middleFirstGood', count(toFirstGood.of)],
        ] as const)),
  ];
}

/** Numbers of what people closed, and of what was explained. */
export function restNumbers({ closed, older, explained }: SafetyPast['ranOnCount']): readonly Numbered[] {
  return [
    ['findings', count(closed + older)],
    ['findings', count(explained)],
  ];
}
