import { type PauseWindow, pausesOf } from '../calendar/calendar.ts';
import type { StopRecord } from '../fold/state.ts';
import { tenthsFor } from '../fold/target.ts';
import { type EpochMs, type Instant, MINUTE, type Millis, millis, minutes } from '../units/units.ts';
import { pressView } from './headView.ts';
import { isUnexplained } from './mattersView.ts';
import { targetNow } from './rateView.ts';
import { ms, type Seen } from './seen.ts';
import type { TrendSpan, TrendView } from './trend.ts';

/** The strip's edge moves on in steps no wider than a pixel, so that it is not sent anew each second. */
const NOW_STEP_MS = 10_000;
/** A chart never gets more points than this. */
const POINTS_MOST = 480;

/** The shift as a strip: rate by the minute, and what is cut out of it. Between shifts it is the last 8 hours. */
export function trendView(seen: Seen): TrendView {
  const { index, state } = seen;
  const shift = state.shift.shift;
  // before the first word of the line there is nothing to show yet
  const from = shift?.from ?? (state.shift.from < 0 ? seen.now : state.shift.from);
  const to = shift?.to ?? ((from + 480 * MINUTE) as Instant);
  const target = targetNow(seen);
  const highest = Math.max(
    ...index.line.sizes.map((size) => tenthsFor(size, state.crew, state.targets) / 10),
  );
  const edge = (Math.floor(ms(seen.now) / NOW_STEP_MS) * NOW_STEP_MS) as EpochMs;
  const windows = shift ? pausesOf(index.line.calendar, index.line.zone, shift) : [];
  return {
    from: ms(from),
    to: ms(to),
    now: edge,
    target,
    maxRate: Math.ceil((Math.max(target ?? 0, highest) * 1.25) / 10) * 10,
    ...bucketsOf(seen, from, to),
    spans: spansOf(seen, from),
    pauses: windows.filter((window) => isToCome(seen, window)).map((window) => toCome(window, edge)),
    presses: state.presses.filter((press) => press.pressed >= from).map((press) => pressView(seen, press)),
  };
}

/** A pause still to come: its window is not past, and nobody has taken it or is taking it. */
function isToCome({ state, now, openStop }: Seen, window: PauseWindow): boolean {
  const taken = state.shift.pausesUsed.some((used) => used.rule === window.rule);
  return window.to > now && !taken && openStop?.pauseRule !== window.rule;
}

/** Drawn at the beginning of its window, or from now on once that is past. */
function toCome(window: PauseWindow, edge: EpochMs): TrendView['pauses'][number] {
  const from = Math.max(ms(window.from), edge) as EpochMs;
  return { name: window.name, from, to: (from + millis(window.allowance)) as EpochMs };
}

function bucketsOf(seen: Seen, from: Instant, to: Instant): Pick<TrendView, 'bucketMs' | 'buckets'> {
  const { state } = seen;
  const all = Math.ceil((to - from) / MINUTE);
  const width = Math.max(1, Math.ceil(all / POINTS_MOST));
  const end = Math.min(all, Math.floor((seen.until - from) / MINUTE));
  const buckets: { at: number; rate: number | undefined; uncertain?: true }[] = [];
  for (let minute = 0; minute + width <= end; minute += width) {
    let good = 0;
    for (let n = 0; n < width; n += 1) good += state.shift.minutes[minute + n] ?? 0;
    const begin = (from + minute * MINUTE) as Instant;
    const finish = (begin + width * MINUTE) as Instant;
    const unseen = unseenShare(seen, begin, finish);
    const rate = unseen > 0.5 ? undefined : Math.round((good / width) * 10) / 10;
    const uncertain = unseen > 0 && unseen <= 0.5;
    buckets.push({ at: ms(begin), rate, ...(uncertain ? { uncertain: true as const } : {}) });
  }
  return { bucketMs: (width * 60_000) as Millis, buckets: buckets as TrendView['buckets'][number][] };
}

function unseenShare(seen: Seen, from: Instant, to: Instant): number {
  const { shift, gap } = seen.state;
  const overlap = (a: number, b: number) => Math.max(0, Math.min(b, to) - Math.max(a, from));
  let unseen = overlap(Number.NEGATIVE_INFINITY, shift.from);
  for (const span of shift.gaps) if (span.kind === 'unknown') unseen += overlap(span.from, span.to);
  if (gap) unseen += overlap(gap.from, seen.now);
  return unseen / (to - from);
}

function spansOf(seen: Seen, from: Instant): TrendSpan[] {
  const { state } = seen;
  const stops = state.stops
    .filter((stop) => stop.end === null || stop.end > from)
    .map((stop) => stopSpan(seen, stop, from));
  const gaps: TrendSpan[] = state.shift.gaps.map((gap) => gapSpan(gap.kind, gap.from, gap.to));
  if (state.gap) gaps.push(gapSpan('unknown', later(state.gap.from, from), undefined));
  else if (seen.sight === 'lost') gaps.push(gapSpan('unknown', state.heardAt, undefined));
  const started = state.shift.from;
  if (state.shift.shift && started > from) gaps.unshift(gapSpan('unknown', from, started));
  return [...stops, ...gaps];
}

function stopSpan(seen: Seen, stop: StopRecord, from: Instant): TrendSpan {
  const { index } = seen;
  const lasted = (stop.end ?? seen.now) - stop.begin;
  const place = stop.station === null ? undefined : index.stationAt.get(stop.station);
  return {
    kind: stop.class,
    from: ms(later(stop.begin, from)),
    to: ms(stop.end),
    stop: stop.id,
    station: place === undefined ? undefined : index.line.stations[place]!.number,
    reason: pauseName(seen, stop) ?? index.reasonByNumber.get(stop.reason)?.name,
    minor: lasted < minutes(index.line.settings.minorStopMinutes),
    asks: isUnexplained(seen, stop),
  };
}

function pauseName(seen: Seen, stop: StopRecord): string | undefined {
  if (stop.class !== 'pause') return undefined;
  return seen.index.line.calendar.pauses.find((rule) => rule.id === stop.pauseRule)?.name;
}

function gapSpan(kind: 'unknown' | 'isolated', from: Instant, to: Instant | undefined): TrendSpan {
  return {
    kind,
    from: ms(from),
    to: ms(to),
    stop: undefined,
    station: undefined,
    reason: undefined,
    minor: false,
    asks: false,
  };
}

function later(a: Instant, b: Instant): Instant {
  return a > b ? a : b;
}
