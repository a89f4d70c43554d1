import type { NoticeKind } from './notice.ts';

/**
 * What can be found and done about a notice: answers of one tap, with words beside them. `nothing` marks the notice false.
 * Which of them fit depends on what it is about (`answersOf`).
 */
export const FOUND = [
  ...['adjustment', 'part', 'blanks', 'dirt', 'clamp', 'sensor'],
  ...['shortStops', 'slowSet', 'loading', 'supply', 'partsMissing', 'numbers', 'approval', 'hands'],
  ...['notRecorded', 'noTime', 'outOfUse'],
  ...['network', 'power', 'plcStood', 'access', 'lockedOut'],
  ...['otherFiles', 'tooSmall', 'setByHand', 'noTimeService', 'localTime', 'oneCause'],
  ...['nothing', 'other'],
] as const satisfies readonly string[];
export type Found = (typeof FOUND)[number];

export const DONE = [
  ...['toBook', 'otherNumber', 'partChanged', 'clamped', 'cleaned', 'clearedOnly'],
  ...['stationDone', 'speedSet', 'handsCame', 'brought', 'approved', 'wentOn'],
  ...['tested', 'planned'],
  ...['mended', 'powered', 'startedAnew', 'setRight', 'byItself'],
  ...['roomMade', 'diskLarger', 'timeServiceSet', 'clockSet', 'lineFile', 'eachLookedAt'],
  ...['noneNeeded', 'other'],
] as const satisfies readonly string[];
export type Done = (typeof DONE)[number];

export interface Answers {
  readonly found: readonly Found[];
  readonly done: readonly Done[];
}

/** What is left to say where nothing else fits; it comes last. */
const REST = ['nothing', 'other'] as const;
const REST_DONE = ['noneNeeded', 'other'] as const;

function answers(found: readonly Found[], done: readonly Done[]): Answers {
  return { found: [...found, ...REST], done: [...done, ...REST_DONE] };
}

const STATION = answers(
  ['adjustment', 'part', 'blanks', 'dirt', 'sensor'],
  ['toBook', 'otherNumber', 'partChanged', 'cleaned', 'clearedOnly'],
);
const OUTPUT = answers(
  ['shortStops', 'slowSet', 'loading', 'supply', 'blanks'],
  ['stationDone', 'speedSet', 'handsCame', 'brought'],
);
const SIGHT = answers(
  ['network', 'power', 'plcStood', 'access', 'lockedOut'],
  ['mended', 'powered', 'startedAnew', 'setRight', 'byItself'],
);

const ANSWERS: Readonly<Record<NoticeKind, Answers>> = {
  stops: STATION,
  stopsCounted: STATION,
  rejects: STATION,
  loose: answers(
    ['adjustment', 'clamp', 'part', 'sensor'],
    ['toBook', 'otherNumber', 'clamped', 'partChanged'],
  ),
  rate: OUTPUT,
  lost: OUTPUT,
  changeover: answers(
    ['partsMissing', 'numbers', 'approval', 'hands', 'blanks'],
    ['brought', 'otherNumber', 'approved', 'handsCame', 'wentOn'],
  ),
  // nothing is asked of a press (NC5); what ran on is closed with its finding (NL5), and this can be said of it afterwards
  press: answers([], []),
  ranOn: answers(['sensor', 'part'], ['mended', 'partChanged']),
  test: answers(['notRecorded', 'noTime', 'outOfUse'], ['tested', 'planned']),
  unseen: SIGHT,
  server: SIGHT,
  disk: answers(['otherFiles', 'tooSmall'], ['roomMade', 'diskLarger']),
  clock: answers(['setByHand', 'noTimeService', 'localTime'], ['timeServiceSet', 'clockSet', 'lineFile']),
  many: answers(
    ['oneCause', 'network', 'power', 'part'],
    ['eachLookedAt', 'mended', 'powered', 'partChanged'],
  ),
};

/** [NS2] The answers that fit what a notice is about, the usual ones first: eight of each at most. */
export function answersOf(kind: NoticeKind): Answers {
  return ANSWERS[kind];
}
