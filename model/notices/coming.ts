import type { Line } from '../line/line.ts';
import { after, type Instant, minutes } from '../units/units.ts';
import { recipientsOf } from './heard.ts';
import { type NoticeRecord, noticeState } from './notice.ts';
import { type RecipientSettings, stepsFor, type Target } from './recipients.ts';
import type { NoticeSettings } from './settings.ts';
import { leftOut, type ShutOff, withoutShutOff } from './shutOff.ts';

/** A step of the plan that is still to come, and whom it names. */
export interface ComingStep {
  readonly at: Instant;
  readonly step: number;
  readonly tell: readonly Target[];
  /** [NR1] Numbers of people whom it names as well, and who are not told: their access has ended. */
  readonly leftOut: readonly string[];
}

interface Told {
  readonly line: Line;
  readonly now: Instant;
  readonly shutOff: ShutOff;
}

/** Steps that follow as long as nobody takes it, and the first one as long as nobody was reached by it: none where it is taken, shelved, or was never told to anybody by a plan. */
export function comingSteps(
  settings: NoticeSettings,
  notice: Readonly<NoticeRecord>,
  { line, now, shutOff }: Told,
): readonly ComingStep[] {
  const state = noticeState(notice);
  if (notice.taken || (state !== 'raised' && state !== 'returned')) return [];
  const { id, level, station, step: reached } = notice;
  const at = roundAt(notice);
  const told = notice.told.some(({ round, why }) => round === notice.round && why !== 'accessEnded');
  const head = { id, at, level, line: line.id, ...(station === null ? {} : { station }) };
  const meant = recipientsOf(notice, settings, line.stations.length);
  const who = withoutShutOff(meant, shutOff);
  const steps = stepsFor(who, head, line.zone, now);
  const left = leftOut(meant, head, { zone: line.zone, at: now, shutOff });
  return steps.flatMap(({ afterMinutes, tell: named }, step) => {
    const tell = named.filter((target) => target.kind !== 'person' || isHeard(who, target.person));
    // where the whole plan names nobody who could be told, everybody is told in its place
    const out = left
      .filter((one) => Math.min(one.step, steps.length - 1) === step)
      .map(({ person }) => person);
    // nobody further is called for what is back to normal
    const isLeft = step > reached ? state === 'raised' : step === 0 && !told;
    const names = tell.length > 0 || out.length > 0;
    return names && isLeft ? [{ at: after(at, minutes(afterMinutes)), step, tell, leftOut: out }] : [];
  });
}

function isHeard({ recipients }: RecipientSettings, person: string): boolean {
  return recipients.some((one) => one.person === person);
}

/** When the round of telling began: raised, or come back. */
export function roundAt({ at, story, round }: Readonly<NoticeRecord>): Instant {
  if (round === 0) return at;
  return story.findLast(({ what }) => what === 'again' || what === 'unshelved')?.at ?? at;
}
