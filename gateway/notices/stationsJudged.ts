import type { FoldState, StopRecord } from '../../model/fold/state.ts';
import type { LineIndex } from '../../model/fold/lineIndex.ts';
import { loosest, rejectsFalseOnce } from '../../model/notices/budget.ts';
import { type Condition, noticeKey } from '../../model/notices/condition.ts';
import type { NoticeFacts, NoticeRecord } from '../../model/notices/notice.ts';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import {
  after,
  between,
  epochMs,
  HOUR,
  type Instant,
  instantFromMs,
  MINUTE,
  seconds,
  type Span,
} from '../../model/units/units.ts';
import { targetTenths } from '../../model/fold/target.ts';
import { lookFirst } from '../../model/watch/lookFirst.ts';
import { isCalled } from '../../model/watch/plainRule.ts';
import type { RepeatedStops, StrongestWindow } from '../../model/watch/repeated.ts';
import { isBackToNormal, judgeStops } from '../../model/watch/repeatedStops.ts';
import { begunOf } from '../api/pastAsked.ts';
import { normalOf } from '../api/pastNormal.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { rejectsGrown, type RunWithStops, runsWithStops, stopsAsked } from './stationEvidence.ts';

/** What an eight-hour shift makes at target. */
const SHIFT_MINUTES = 480;

interface Judging {
  readonly records: Records;
  readonly live: LiveLine;
  readonly settings: NoticeSettings;
}

/**
 * What is out of the ordinary at stations in the run that is on. Judged anew when a stop begins or ends and once a minute, and
 * remembered in between; undefined while records are being made, when nobody knows what is usual.
 */
export class StationsJudge {
  private readonly records: Records;
  private readonly live: LiveLine;
  private known: { readonly key: string; readonly conditions: readonly Condition[] } | undefined;

  constructor(records: Records, live: LiveLine) {
    this.records = records;
    this.live = live;
  }

  now(settings: NoticeSettings): readonly Condition[] | undefined {
    const { records, live } = this;
    if (live.recordsDue()) return undefined;
    const { state } = live.fold();
    const last = state.stops.at(-1);
    const dealtWith = state.notices.filter(({ ended }) => ended !== null).length;
    const minute = Math.floor(live.now() / MINUTE);
    const key = JSON.stringify([
      minute,
      last?.id,
      last?.end,
      last?.reason,
      dealtWith,
      state.size,
      settings.when,
    ]);
    if (this.known?.key !== key) this.known = { key, conditions: judged({ records, live, settings }) };
    return this.known.conditions.filter((condition) => !isInGrace(condition, state, settings, live.now()));
  }
}

/** [NC1] No call so long after a stop began, while operators clear it; one that holds already goes on. */
function isInGrace(
  { key, facts, station }: Condition,
  { stops, noticeKeys }: Readonly<FoldState>,
  { when }: NoticeSettings,
  now: Instant,
): boolean {
  if (facts.kind !== 'stops' && facts.kind !== 'stopsCounted') return false;
  const open = stops.at(-1);
  if (noticeKeys[key] !== undefined || !open || open.end !== null || open.station !== station) return false;
  return between(open.begin, now) < seconds(when.stops.graceSeconds);
}

function judged({ records, live, settings }: Judging): readonly Condition[] {
  const { index, state } = live.fold();
  const now = live.now();
  const to = after(now, 1 as Span);
  const begun = begunOf(records, live, { to });
  const past = runsWithStops(records, live, to, begun);
  const run = past.at(-1);
  if (!run || run.size !== state.size) return [];
  const runs = [...past.slice(0, -1), { ...run, byLast: byLastNow(run, state) }];
  const grown = rejectsGrown(records, live, run);
  const rejected = rejectConditions({ records, live, settings }, begun);
  return index.line.stations.flatMap(({ id }) => [
    ...stopConditions({ runs, index, state, settings, now, station: id, grown }),
    ...rejected(id),
  ]);
}

/** Counted by the carton, and not by the minute: what came since the line started again is known. */
function byLastNow({ stops, cartons }: RunWithStops, { cartonsSinceRestart }: Readonly<FoldState>): number {
  return stops.at(-1)?.end === null ? cartons : Math.max(0, cartons - cartonsSinceRestart);
}

interface StopsJudging {
  readonly runs: readonly RunWithStops[];
  readonly index: LineIndex;
  readonly state: Readonly<FoldState>;
  readonly settings: NoticeSettings;
  readonly now: Instant;
  readonly station: string;
  readonly grown: ReturnType<typeof rejectsGrown>;
}

function stopConditions(judging: StopsJudging): readonly Condition[] {
  const { runs, index, state, settings, station, now } = judging;
  const run = runs.at(-1)!;
  const dealt = dealtWith(state, station);
  const asked = stopsAsked(runs, station, {
    after: dealt,
    cartonsPerShift: (SHIFT_MINUTES * targetTenths({ index, state })) / 10,
    rejects: judging.grown,
  });
  if (!asked) return [];
  const own = run.stops.filter(
    (stop) => stop.station === station && stop.kind === 'machine' && stop.begin > dealt,
  );
  const found: Condition[] = [];
  const said = judgeStops(asked);
  const key = noticeKey('stops', station);
  const least = loosest(settings.when, settings.who, index.line.stations.length).stopsOnceInShifts;
  const once = said.kind === 'judged' ? said.onceInShifts / index.line.stations.length : 0;
  const holds = state.noticeKeys[key] !== undefined && !isBackToNormal(asked);
  if (settings.when.stops.on && said.kind === 'judged' && said.window && (once >= least || holds))
    found.push({
      ...headOf(judging, own, said.window.since),
      key,
      level: settings.when.levels.stops,
      facts: stopsFacts(index, said, said.window, own, Math.max(once, holds ? least : 0)),
    });
  const rule = settings.when.stopsCounted;
  const plain = rule.on
    ? isCalled(rule, {
        stops: asked.recent.map((stop) => ({ ...stop, ran: ranBy(run, stop.at) })),
        ran: ranBy(run, now),
        cartons: run.cartons,
      })
    : undefined;
  if (plain)
    found.push({
      ...headOf(judging, own, plain.since),
      key: noticeKey('stopsCounted', station),
      level: settings.when.levels.stopsCounted,
      facts: {
        kind: 'stopsCounted',
        stops: plain.stops,
        minutes: rule.within.kind === 'minutes' ? rule.within.minutes : undefined,
        cartons: rule.within.kind === 'cartons' ? rule.within.cartons : undefined,
        from: epochMs(plain.since),
        fault: mostFault(index, own, plain.since),
      },
    });
  return found;
}

/** How long the line had run by a moment, from the run's beginning on: what it stood is left out. */
function ranBy({ from, stops }: RunWithStops, at: Instant): Span {
  const stood = stops
    .filter(({ begin }) => begin < at)
    .reduce((sum, { begin, end }) => sum + Math.min(end ?? at, at) - begin, 0);
  return Math.max(0, at - from - stood) as Span;
}

/** What all that is said of a station in this run has in common. */
function headOf(
  { runs, index, state, station }: StopsJudging,
  own: readonly StopRecord[],
  since: Instant,
): Pick<Condition, 'station' | 'size' | 'stop' | 'since' | 'look'> {
  const within = own.filter(({ begin }) => begin >= since);
  const newest = within.at(-1);
  return {
    station,
    size: runs.at(-1)!.size,
    since,
    look: lookFirst(index, state, station, within),
    ...(newest ? { stop: newest.id } : {}),
  };
}

function stopsFacts(
  index: LineIndex,
  { usualCartons, by }: Extract<RepeatedStops, { kind: 'judged' }>,
  { since, stops, retries, cartons }: StrongestWindow,
  own: readonly StopRecord[],
  onceInShifts: number,
): NoticeFacts {
  return {
    kind: 'stops',
    stops,
    cartons,
    from: epochMs(since),
    usualCartons: Math.round(usualCartons),
    onceInShifts,
    tries: by === 'tries' ? stops + retries : undefined,
    fault: mostFault(index, own, since),
  };
}

/** The first fault that came most often since a moment. */
function mostFault(
  { reasonByNumber }: LineIndex,
  own: readonly StopRecord[],
  since: Instant,
): string | undefined {
  const names = own
    .filter(({ begin }) => begin >= since)
    .flatMap(({ reason }) => reasonByNumber.get(reason)?.name ?? []);
  const times = (name: string) => names.filter((one) => one === name).length;
  return names.toSorted((a, b) => times(b) - times(a))[0];
}

/** When what was said of a station was last dealt with: a person closed it, or it was back to normal and had been taken. */
function dealtWith({ notices }: Readonly<FoldState>, station: string): Instant {
  return notices.reduce(
    (last, notice) =>
      notice.ended && saidStops(notice, station) ? (Math.max(last, notice.ended.at) as Instant) : last,
    0 as Instant,
  );
}

/** By itself, or as what joined it. */
function saidStops({ kind, station: own, joined }: Readonly<NoticeRecord>, station: string): boolean {
  return (
    (own === station && OF_STOPS.has(kind)) ||
    joined.some((one) => one.station === station && OF_STOPS.has(one.kind))
  );
}

const OF_STOPS: ReadonlySet<string> = new Set(['stops', 'stopsCounted']);

/** Rejects of the newest run outside a station's own normal, by rules that look at whole batches. */
function rejectConditions(
  { records, live, settings }: Judging,
  begun: Instant,
): (station: string) => readonly Condition[] {
  const { when, who } = settings;
  const { index, state } = live.fold();
  const stations = index.line.stations.length;
  if (!when.rejects.on || !loosest(when, who, stations).rejects) return () => [];
  const to = after(live.now(), 1 as Span);
  const asked = { index, from: after(to, -HOUR as Span), to, begun };
  return (station) => {
    const row = normalOf(records, live, asked, { station })?.rules.find(
      ({ rule, outside }) => outside && rule !== 'stops',
    );
    if (!row || row.expected === undefined || row.rule === 'stops') return [];
    const since = instantFromMs(row.since);
    return [
      {
        key: noticeKey('rejects', station),
        level: when.levels.rejects,
        ...{ station, since, look: lookFirst(index, state, station, []) },
        ...(state.size === null ? {} : { size: state.size }),
        facts: {
          kind: 'rejects',
          rule: row.rule,
          rejects: row.seen,
          of: row.of,
          expected: Math.round(row.expected * 10) / 10,
          onceInShifts: Math.round(rejectsFalseOnce(stations)),
        },
      },
    ];
  };
}
