import { CARTON, causes, lostByKey } from '../fold/account.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { ChangeoverRecord, ShiftRecord } from '../fold/state.ts';
import { type Condition, noticeKey } from '../notices/condition.ts';
import type { NoticeRules } from '../notices/settings.ts';
import { wholeCartons } from '../view/pathView.ts';
import { after, between, epochMs, type Instant, MINUTE, minutes, type Span } from '../units/units.ts';
import type { Held } from './heldThen.ts';
import { CLEARLY } from './output.ts';

/** What the line made in shifts of the past, against what it was to make. */
export interface OutputAsked {
  readonly index: LineIndex;
  readonly rules: NoticeRules;
  readonly to: Instant;
  /** The oldest first; one that goes on lasts until `to`. */
  readonly shifts: readonly ShiftRecord[];
  readonly changeovers: readonly ChangeoverRecord[];
  /** Stretches of pauses that were taken. */
  readonly pauses: readonly Stretch[];
  /** Cartons a minute that were to be made by then; undefined where nobody knows. */
  readonly targetAt: (at: Instant) => number | undefined;
}

interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** [NC2] [NT1] When the rate was below its share, minute by minute as it is judged live. It stops after each shift. */
export function* rateHeld(asked: OutputAsked): Generator<undefined, readonly Held[]> {
  const held: Held[] = [];
  if (!asked.rules.rate.on) return held;
  let open: Held | undefined;
  let before: Instant | undefined;
  for (const shift of asked.shifts) {
    if (!shift.shift) continue;
    // between shifts nothing is to be made: it is over then
    if (open && before !== shift.shift.from) {
      held.push({ ...open, to: before! });
      open = undefined;
    }
    for (const { at, low, condition } of looksIn(asked, shift)) {
      if (!open && low(false)) open = { condition, from: at, to: at };
      else if (open && !low(true)) {
        held.push({ ...open, to: at });
        open = undefined;
      }
    }
    before = Math.min(shift.until, asked.to) as Instant;
    yield;
  }
  return open ? [...held, { ...open, to: before! }] : held;
}

interface Look {
  readonly at: Instant;
  /** One that holds goes on until it is clearly better. */
  readonly low: (holds: boolean) => boolean;
  readonly condition: Condition;
}

/** At the end of each whole minute of a shift of which it can be told; in between, and in a changeover, it stays as it was. */
function* looksIn(asked: OutputAsked, shift: ShiftRecord): Generator<Look> {
  const { rate, levels } = asked.rules;
  const { from } = shift.shift!;
  const end = Math.min(shift.until, asked.to);
  const isAway = awayIn(
    [...asked.pauses, ...shift.gaps].filter((one) => one.from < end && one.to > from),
    from,
  );
  const changeovers = asked.changeovers.filter((one) => one.begin < end && (one.end ?? end) >= from);
  let taken: number[] = [];
  for (let minute = 0; from + (minute + 1) * MINUTE <= end; minute += 1) {
    const begun = after(from, (minute * MINUTE) as Span);
    const at = after(begun, MINUTE);
    if (changeovers.some((one) => one.begin <= at && (one.end === null || one.end > at))) continue;
    const lastEnd = Math.max(
      shift.from,
      ...changeovers.flatMap((one) => (one.end !== null && one.end <= at ? [one.end] : [])),
    );
    if (begun < lastEnd) {
      taken = [];
      continue;
    }
    if (!isAway(minute)) taken = [...taken, shift.minutes[minute] ?? 0].slice(-rate.minutes);
    if (taken.length < rate.minutes) continue;
    const perMinute = taken.reduce((sum, good) => sum + good, 0) / taken.length;
    const target = asked.targetAt(at) ?? 0;
    const facts = {
      kind: 'rate',
      ...{ perMinute: Math.round(perMinute * 10) / 10, target, minutes: rate.minutes, since: epochMs(begun) },
    } as const;
    yield {
      at,
      low: (holds) => target > 0 && perMinute < (rate.share + (holds ? CLEARLY : 0)) * target,
      condition: { key: noticeKey('rate'), level: levels.rate, facts, since: at, look: [] },
    };
  }
}

/** Minutes, counted from a moment, that some stretch has a part in. */
function awayIn(stretches: readonly Stretch[], from: Instant): (minute: number) => boolean {
  return (minute) => {
    const at = from + minute * MINUTE;
    return stretches.some((one) => one.from < at + MINUTE && one.to > at);
  };
}

/** [NC4] [NT1] Shifts that had lost more than their share by their end: what was made good again before is not among them. */
export function lostHeld({ index, rules, to, shifts }: OutputAsked): readonly Held[] {
  const { on, share, minutes: least } = rules.lost;
  return shifts.flatMap(({ shift, until, account }): readonly Held[] => {
    if (!on || !shift || until > to || between(shift.from, until) < minutes(least)) return [];
    const possible = Math.floor(account.possible / CARTON);
    const lost = possible - account.good;
    if (possible <= 0 || lost <= share * possible) return [];
    const whole = wholeCartons(lostByKey(account), lost);
    const lostAt = (place: number) =>
      whole
        .slice(place * causes.length, (place + 1) * causes.length)
        .reduce((sum, cartons) => sum + cartons, 0);
    const none = lostAt(index.line.stations.length);
    const most = index.line.stations
      .map(({ id }, place) => ({ id, lost: lostAt(place) }))
      .toSorted((a, b) => b.lost - a.lost)[0];
    const ofStation = most && most.lost > none ? most : undefined;
    const facts = {
      kind: 'lost',
      ...{ lost, planned: possible, most: ofStation?.id, mostLost: ofStation?.lost ?? none },
    } as const;
    const key = noticeKey('lost', shift.from.toString(36));
    const condition = { key, level: rules.levels.lost, facts, since: shift.from, look: [] };
    return [{ condition, from: (until - 1) as Instant, to: until }];
  });
}
