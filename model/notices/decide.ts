import type { FoldState } from '../fold/state.ts';
import { after, type Instant, epochMs, millis, minutes } from '../units/units.ts';
import { type Condition, type Conditions, noticeKey } from './condition.ts';
import { isSameCause } from './grouping.ts';
import { dueDevices, needsPerson, type NoticeFacts, type NoticeRecord } from './notice.ts';
import type { NoticeProgramBody } from './noticeEntries.ts';
import { NOTICE_LEVELS, type NoticeLevel } from './recipients.ts';
import type { NoticeRules } from './settings.ts';

/** Stronger by so much is told anew to whoever wants stronger ones. */
const STRONGER = 2;

interface Deciding {
  readonly state: Pick<Readonly<FoldState>, 'notices' | 'noticeKeys'>;
  readonly rules: NoticeRules;
  readonly conditions: Conditions;
  readonly now: Instant;
}

/**
 * What is to be written of notices now, in this order; once written, the same question has nothing more to write. So whoever
 * asks and is killed asks again, and nothing is raised twice.
 */
export function decide(deciding: Deciding): readonly NoticeProgramBody[] {
  return [...returned(deciding), ...offTheShelf(deciding), ...leftAlone(deciding), ...held(deciding)];
}

/** What it gathered holds, or some of it. */
function speaksForMore({ noticeKeys }: Deciding['state'], notice: string, own: string): boolean {
  return Object.entries(noticeKeys).some(([key, id]) => id === notice && key !== own);
}

/** [NL3] What held, and does not any more. */
function returned({ state, conditions }: Deciding): readonly NoticeProgramBody[] {
  const present = new Set(conditions.present.map(({ key }) => key));
  return Object.entries(state.noticeKeys).flatMap(([key, notice]): NoticeProgramBody[] => {
    const holds = key === noticeKey('many') ? speaksForMore(state, notice, key) : present.has(key);
    return holds || conditions.undecided(key) ? [] : [{ kind: 'noticeMoved', notice, to: 'normal', key }];
  });
}

function offTheShelf({ state, now }: Deciding): readonly NoticeProgramBody[] {
  return state.notices.flatMap(({ id, shelved, ended }): NoticeProgramBody[] =>
    !ended && shelved && shelved.until <= now ? [{ kind: 'noticeMoved', notice: id, to: 'unshelved' }] : [],
  );
}

/** Back to normal for long, and nobody ever took it. */
function leftAlone({ state, rules, now }: Deciding): readonly NoticeProgramBody[] {
  const long = minutes(60 * rules.returnedHours);
  return state.notices.flatMap(({ id, kind, normalAt, taken, ended }): NoticeProgramBody[] =>
    !ended && !taken && !needsPerson(kind) && normalAt !== null && after(normalAt, long) <= now
      ? [{ kind: 'noticeMoved', notice: id, to: 'ended' }]
      : [],
  );
}

function held(deciding: Deciding): readonly NoticeProgramBody[] {
  const { state, conditions, now } = deciding;
  const written: NoticeProgramBody[] = [];
  for (const condition of conditions.present.toSorted(graver)) {
    const { key, facts } = condition;
    const spoken = state.noticeKeys[key];
    const open = state.notices.find((notice) => notice.key === key && !notice.ended);
    const whole = state.notices.find((notice) => !notice.ended && isSameCause(condition, notice, now));
    const spokenFor = state.notices.find(({ id }) => id === spoken);
    if (spoken !== undefined && !hasMoreDue(spokenFor, condition))
      written.push(...stronger(spokenFor, condition), ...listed(spokenFor, condition));
    else if (open) {
      const { look } = condition;
      const since = epochMs(condition.since);
      written.push({ kind: 'noticeMoved', notice: open.id, to: 'again', key, facts, since, look });
    } else if (whole) written.push(raised(condition, now, whole.id));
    // one after the other: what comes of the same cause joins the one that is written first
    else return [...written, ...new Crowd(deciding).raise(condition)];
  }
  return written;
}

function isGraver(one: NoticeLevel, other: NoticeLevel): boolean {
  return NOTICE_LEVELS.indexOf(one) > NOTICE_LEVELS.indexOf(other);
}

function graver(a: Condition, b: Condition): number {
  return NOTICE_LEVELS.indexOf(b.level) - NOTICE_LEVELS.indexOf(a.level) || a.since - b.since;
}

function stronger(
  notice: Readonly<NoticeRecord> | undefined,
  { key, facts, look }: Condition,
): readonly NoticeProgramBody[] {
  if (!notice || notice.ended || notice.key !== key) return [];
  const [now, before] = [strengthOf(facts), strengthOf(notice.facts)];
  // what is as strong as it was is no news, however weak that is
  return now > before && now >= STRONGER * before
    ? [{ kind: 'noticeMoved', notice: notice.id, to: 'stronger', facts, look }]
    : [];
}

/** [NC7] What an open notice lists follows what is due now. */
function listed(
  notice: Readonly<NoticeRecord> | undefined,
  { key, facts }: Condition,
): readonly NoticeProgramBody[] {
  if (facts.kind !== 'test' || !notice || notice.ended || notice.key !== key) return [];
  return JSON.stringify(facts) === JSON.stringify(notice.facts)
    ? []
    : [{ kind: 'noticeMoved', notice: notice.id, to: 'changed', facts }];
}

/** [NC7] One that was closed spoke for what it listed: another device that comes due is told. */
function hasMoreDue(notice: Readonly<NoticeRecord> | undefined, { facts }: Condition): boolean {
  if (!notice?.ended || facts.kind !== 'test' || notice.facts.kind !== 'test') return false;
  const spoken = new Set(dueDevices(notice.facts).map(({ device }) => device));
  return dueDevices(facts).some(({ device }) => !spoken.has(device));
}

function strengthOf(facts: NoticeFacts): number {
  return facts.kind === 'stops' ? facts.onceInShifts : 1;
}

/** More than so many within so many minutes are told as one. */
class Crowd {
  private readonly deciding: Deciding;
  private readonly many: Readonly<NoticeRecord> | undefined;
  private count: number;

  constructor(deciding: Deciding) {
    const { state, rules, now } = deciding;
    const since = now - minutes(rules.many.minutes);
    this.deciding = deciding;
    this.many = state.notices.find(({ kind, ended }) => kind === 'many' && !ended);
    this.count = state.notices.filter(({ at, kind }) => kind !== 'many' && at > since).length;
  }

  raise(condition: Condition): readonly NoticeProgramBody[] {
    const { rules, now } = this.deciding;
    this.count += 1;
    // what only a person may close is always one of its own
    if (this.count <= rules.many.notices || needsPerson(condition.facts.kind))
      return [raised(condition, now)];
    // what is graver than the one that stands for many would be told to nobody there
    if (this.many && isGraver(condition.level, this.many.level)) return [raised(condition, now)];
    if (this.many) return [raised(condition, now, this.many.id)];
    const within = millis(minutes(rules.many.minutes));
    const whole = raised(
      {
        key: noticeKey('many'),
        level: condition.level,
        facts: { kind: 'many', count: this.count, within },
        since: now,
        look: [],
      },
      now,
    );
    return [whole, raised(condition, now, whole.notice)];
  }
}

function raised(
  { key, level, facts, since, station, size, stop, look }: Condition,
  now: Instant,
  within?: string,
): NoticeProgramBody & { kind: 'noticeRaised' } {
  return {
    kind: 'noticeRaised',
    notice: `${key.replaceAll('/', '.')}-${now.toString(36)}`,
    ...{ key, level, facts, since: epochMs(since), look },
    ...(station === undefined ? {} : { station }),
    ...(size === undefined ? {} : { size }),
    ...(stop === undefined ? {} : { stop }),
    ...(within === undefined ? {} : { within }),
  };
}
