import type { ChangeoverRecord, FoldState } from '../fold/state.ts';
import { type Condition, noticeKey } from '../notices/condition.ts';
import type { NoticeRules } from '../notices/settings.ts';
import { after, between, epochMs, type Instant, millis, MINUTE, minutes, type Span } from '../units/units.ts';
import { targetNow } from '../view/rateView.ts';
import { pathView } from '../view/pathView.ts';
import type { Seen } from '../view/seen.ts';
import type { Watched } from './watched.ts';

/** What holds goes on to hold until it is better by so much of the target or plan. */
export const CLEARLY = 0.05;
/** So many finished changeovers of a kind tell how long one usually takes. */
const CHANGEOVERS_LEAST = 3;

/** What the line makes, against what it was to make. */
export function outputConditions(watched: Watched): readonly Condition[] {
  return [...rate(watched), ...changeover(watched), ...lost(watched)];
}

/** Good cartons of the last minutes in which the line was to produce, since the changeover or the shift's beginning. */
function rate({ seen, rules, holding }: Watched): readonly Condition[] {
  const { on, share, minutes: wanted } = rules.rate;
  const { state } = seen;
  const target = targetNow(seen) ?? 0;
  if (!on || state.changeover || target <= 0 || state.shift.shift === null) return [];
  const begin = Math.max(state.shift.from, state.lastChangeover?.end ?? 0) as Instant;
  const taken = minutesToProduce(seen, begin, wanted);
  if (taken.length < wanted) return [];
  const good = taken.reduce((sum, minute) => sum + (state.shift.minutes[minute] ?? 0), 0);
  const perMinute = good / taken.length;
  const key = noticeKey('rate');
  if (perMinute >= (share + (holding.has(key) ? CLEARLY : 0)) * target) return [];
  const since = after(state.shift.shift.from, (taken.at(-1)! * MINUTE) as Span);
  const facts = {
    kind: 'rate',
    perMinute: Math.round(perMinute * 10) / 10,
    target,
    minutes: wanted,
    since: epochMs(since),
    most: losesMost(seen)?.id,
  } as const;
  return [{ key, level: rules.levels.rate, facts, since, look: [], ...sizeOf(seen) }];
}

/** The newest whole minutes of the shift, newest first, in which no pause was taken and somebody looked. */
function minutesToProduce({ state, now }: Seen, begin: Instant, wanted: number): readonly number[] {
  const from = state.shift.shift!.from;
  const away = [
    ...state.stops
      .filter((stop) => stop.class === 'pause')
      .map(({ begin: at, end }) => ({ from: at, to: end ?? now })),
    ...state.shift.gaps,
  ];
  const taken: number[] = [];
  for (
    let minute = Math.floor((now - from) / MINUTE) - 1;
    minute >= 0 && taken.length < wanted;
    minute -= 1
  ) {
    const at = after(from, (minute * MINUTE) as Span);
    if (at < begin) break;
    if (!away.some((one) => one.from < at + MINUTE && one.to > at)) taken.push(minute);
  }
  return taken;
}

function changeover({ seen, rules }: Watched): readonly Condition[] {
  const { state, index, now } = seen;
  const { changeover: open } = state;
  if (!rules.changeover.on || !open) return [];
  const { allowed, by } = allowedFor(open, state.changeovers, rules.changeover);
  const lasted = between(open.begin, now);
  if (lasted <= allowed) return [];
  const name = (id: string | null) => (id === null ? undefined : index.sizeById.get(id)?.name);
  const facts = {
    kind: 'changeover',
    lasted: millis(lasted),
    allowed: millis(Math.round(allowed) as Span),
    by,
    from: open.kind === 'size' ? name(open.from) : undefined,
    to: open.kind === 'size' ? name(open.to) : undefined,
  } as const;
  const key = noticeKey('changeover', open.begin.toString(36));
  return [{ key, level: rules.levels.changeover, facts, since: open.begin, look: [], ...sizeOf(seen) }];
}

/** [NC3] How long a changeover may take by the newest finished ones of its kind, or by the setting while too few were seen. */
export function allowedFor(
  open: Pick<ChangeoverRecord, 'kind' | 'from' | 'to'>,
  finished: FoldState['changeovers'],
  rule: NoticeRules['changeover'],
): { readonly allowed: number; readonly by: 'earlier' | 'setting' } {
  const usual = finished.filter(
    ({ kind, from, to }) => kind === open.kind && (kind !== 'size' || (from === open.from && to === open.to)),
  );
  if (usual.length < CHANGEOVERS_LEAST) return { allowed: minutes(rule.minutes), by: 'setting' };
  return { allowed: Math.max(...usual.map(({ lasted }) => lasted)) * rule.times, by: 'earlier' };
}

function lost({ seen, rules, holding }: Watched): readonly Condition[] {
  const { on, share, minutes: least } = rules.lost;
  const { shift } = seen.state.shift;
  if (!on || !shift || between(shift.from, seen.now) < minutes(least)) return [];
  const { total, possible, none } = pathView(seen);
  const key = noticeKey('lost', shift.from.toString(36));
  if (possible <= 0 || total <= (share - (holding.has(key) ? CLEARLY : 0)) * possible) return [];
  const ofStation = losesMost(seen);
  const facts = {
    kind: 'lost',
    lost: total,
    planned: possible,
    most: ofStation?.id,
    mostLost: ofStation?.lost ?? none.lost,
  } as const;
  return [{ key, level: rules.levels.lost, facts, since: shift.from, look: [], ...sizeOf(seen) }];
}

/** The station that has lost most of this shift; undefined where most belong to no one station. */
function losesMost(seen: Seen) {
  const { stations, none } = pathView(seen);
  const most = stations.toSorted((a, b) => b.lost - a.lost)[0];
  return most && most.lost > none.lost ? most : undefined;
}

/**
 * [NC2] Of what nobody can tell now: the rate of a line that was to produce for too few minutes yet, as after a shift's or a
 * changeover's beginning.
 */
export function isOutputUndecided({ seen, rules }: Watched, kind: string): boolean {
  const { state } = seen;
  if (kind !== 'rate' || !rules.rate.on || state.shift.shift === null) return false;
  if (state.changeover) return true;
  const begin = Math.max(state.shift.from, state.lastChangeover?.end ?? 0) as Instant;
  return minutesToProduce(seen, begin, rules.rate.minutes).length < rules.rate.minutes;
}

export function sizeOf({ state }: Seen): { readonly size?: string } {
  return state.size === null ? {} : { size: state.size };
}
