import type { Matter } from '../../model/view/matter.ts';
import type { NoticesView, NoticeView } from '../../model/view/noticesView.ts';

/**
 * Open notices that the Line screen shows: somebody should come, and it is not put aside. What a matter beside them tells
 * already is not told twice, and a press shows itself.
 */
export function shownNotices(open: readonly NoticeView[], matters: readonly Matter[]): readonly NoticeView[] {
  return open.filter(
    (notice) =>
      notice.level !== 'note' &&
      notice.state !== 'shelved' &&
      notice.kind !== 'press' &&
      !matters.some((matter) => tellsTheSame(matter, notice)),
  );
}

/** Matters without those that a notice stands for: its row says who is going as well. */
export function mattersBeside(matters: readonly Matter[], shown: readonly NoticeView[]): readonly Matter[] {
  return matters.filter(
    (matter) =>
      matter.kind !== 'stationAbnormal' ||
      !shown.some(({ kind, station }) => kind === 'rejects' && station?.id === matter.station),
  );
}

/** [NS1] What the rows of the Line screen come to beside the count that all screens say. */
export interface LineRows {
  /** Questions and what is to be known of the line, which no notice is about. */
  readonly beside: number;
  /** Open notices that only tell: they call nobody, and have no row. */
  readonly notes: number;
  /** Open notices of a press: it is shown where the device is. */
  readonly presses: number;
}

export function lineRows({ open }: NoticesView, matters: readonly Matter[]): LineRows {
  const untold = open.filter(
    (notice) => notice.state !== 'shelved' && !matters.some((matter) => tellsTheSame(matter, notice)),
  );
  const alone = mattersBeside(matters, shownNotices(open, matters)).filter(
    (matter) => !open.some((notice) => tellsTheSame(matter, notice)),
  );
  return {
    beside: alone.reduce((sum, matter) => sum + (matter.kind === 'further' ? matter.count : 1), 0),
    notes: untold.filter(({ kind, level }) => kind !== 'press' && level === 'note').length,
    presses: untold.filter(({ kind }) => kind === 'press').length,
  };
}

function tellsTheSame(matter: Matter, { facts }: NoticeView): boolean {
  switch (matter.kind) {
    case 'guardOpenRunning':
    case 'devicePressedRunning':
      return facts.kind === 'ranOn' && facts.finding === matter.id;
    case 'olderFindings':
      return facts.kind === 'ranOn';
    case 'notSeen':
      return facts.kind === 'unseen' && matter.to === undefined;
    case 'clockOff':
      return facts.kind === 'clock' && facts.server === matter.server;
    default:
      return false;
  }
}
