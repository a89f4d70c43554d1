import type { PastChangeover } from '../../model/past/changeover.ts';
import type { OpenedChangeover } from '../../model/past/changeoverOpened.ts';
import type { ChangeoversPast } from '../../model/past/changeoversPast.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';

const { past } = words.screen;
const { count, past: long } = past;

/** Numbers of the heading's answer, in the order in which its sentences have them. */
export function leadNumbers({ opened, since }: ChangeoversPast): readonly Numbered[] {
  const ago: readonly Numbered[] = since === undefined ? [] : [['sinceChangeover', long(since)]];
  return opened ? [...endNumbers(opened), ...spentNumbers(opened), ...ago] : ago;
}

function endNumbers({ changeover, usual, earlier }: OpenedChangeover): readonly Numbered[] {
  const { lasted, lost } = changeover;
  return [
    ['changeoverTime', long(lasted)],
    ...(usual === undefined
      ? []
      : ([
          ['earlierChangeovers', count(earlier)],
          ['usualChangeover', long(usual.lasted)],
        ] as const)),
    ...(lost === undefined ? [] : [['changeoverLost', count(lost)] as const]),
  ];
}

function spentNumbers({ changeover, usual }: OpenedChangeover): readonly Numbered[] {
  const { stood, runUp, stops, trialCartons, idle } = changeover;
  return [
    ['changeoverPhase', long(stood)],
    ...(usual ? [['usualChangeover', long(usual.untilTrial + (usual.trial ?? 0))] as const] : []),
    ['trial', trialCartons > 0 ? count(trialCartons) : ''],
    ...(runUp === undefined ? [] : [['changeoverPhase', long(runUp)] as const]),
    ...(usual?.runUp === undefined ? [] : [['usualChangeover', long(usual.runUp)] as const]),
    ['runUpStops', stops > 0 ? count(stops) : ''],
    ['idleTime', past.capital(long(idle))],
  ];
}

/** Numbers of what the loss is measured against. */
export function howNumbers({ target, crew, unseen }: PastChangeover): readonly Numbered[] {
  return [
    ['target', count(target)],
    ['crew', count(crew)],
    ['gap', past.capital(long(unseen))],
  ];
}
