import type { Signal } from '../../model/signals/signals.ts';
import { type Instant, SECOND } from '../../model/units/units.ts';
import { ordersTold, sizesTold } from './judgeMoments.ts';
import { type Seen, tags } from './seen.ts';

/** One figure of the truth: when each of it was made, and whether in production. */
interface Made {
  readonly at: Instant;
  readonly produced: boolean;
  readonly count: number;
}

/** A fault so near a gap may have happened in it. */
const NEAR = 10 * SECOND;

/** Every counter of cartons, minute by minute and in sum; cartons by size and by order; and the shifts' own sums. */
export function wrongCounts(seen: Seen): readonly string[] {
  return [...wrongCounters(seen), ...wrongSizes(seen), ...wrongOrders(seen), ...wrongShifts(seen)];
}

export function goodsOf({ run }: Seen): number {
  return run.ledger.cartons.filter(({ fate, mode }) => fate === 'good' && mode === 'produce').length;
}

export function countedOf({ events, run }: Seen): number {
  const ended = events.flatMap((event) => (event.kind === 'ShiftEnded' ? [event.record.account.good] : []));
  return ended.reduce((sum, good) => sum + good, run.fold.state.shift.account.good);
}

function wrongShifts(seen: Seen): readonly string[] {
  const { index, state } = seen.run.fold;
  const place = index.tallied.findIndex((signal) => index.line.signals[signal]!.role === 'goodCount');
  const counted = countedOf(seen);
  return counted === state.tally[place] ? [] : [`shifts: ${counted} good in all of them`];
}

function wrongCounters(seen: Seen): readonly string[] {
  const { run } = seen;
  const { index, state } = run.fold;
  return index.tallied.flatMap((place, tally) => {
    const signal = index.line.signals[place]!;
    // what was made before a counter was read first is nobody's to count
    const first = run.changes.find((change) => change.signal === place);
    const made = madeOf(seen, signal)?.filter(({ at }) => at > (first?.at ?? seen.start));
    if (!made || !seen.isWatched(seen.tagOf(signal))) return [];
    const heard = first?.received ?? run.to;
    const counter = { seen, signal, made, heard, tally, doubts: doubtsOf(seen, signal) };
    return [...wrongSum(counter, state.tally[tally] ?? 0), ...wrongMinutes(counter)];
  });
}

interface Counter {
  readonly seen: Seen;
  readonly signal: Signal;
  readonly made: readonly Made[];
  /** When its first value came. */
  readonly heard: Instant;
  /** Its place among those that are counted. */
  readonly tally: number;
  readonly doubts: readonly Doubt[];
}

/**
 * Counted is what was made in production, but for what a counter that began anew lost in a gap; and what was made in
 * another mode while nobody looked may be among it ([CO5]), and what was told as doubtful.
 */
function wrongSum(counter: Counter, counted: number): readonly string[] {
  const { seen, signal, made, heard } = counter;
  const sum = (of: (one: Made) => boolean) =>
    made.reduce((total, one) => total + (of(one) ? one.count : 0), 0);
  const truth = sum(({ produced }) => produced);
  const isHidden = (at: Instant) => !seen.isSeen(at, seen.tagOf(signal));
  const others = sum(({ produced, at }) => !produced && isHidden(at));
  const lost = sum(({ produced, at }) => produced && (at <= heard || mayBeLost(seen, signal, at)));
  const doubt = doubtIn(counter.doubts, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  return counted > truth + others + doubt || counted < truth - lost
    ? [`${signal.role} ${signal.of ?? ''}: ${truth} made, ${counted} counted`]
    : [];
}

/** Made while nobody looked, in a gap, or between two looks, in which that counter may have begun anew. */
function mayBeLost(seen: Seen, signal: Signal, at: Instant): boolean {
  const tag = seen.tagOf(signal);
  if (seen.isSeen(at, tag)) return false;
  const now = { from: (at - NEAR) as Instant, to: (at + NEAR) as Instant };
  const hushed = seen.isHushed(now.from, now.to, tag) ? [{ from: at, to: at }] : [];
  const gaps = [...seen.unknown, ...badOf(seen, tag), ...hushed];
  return gaps.some((gap) => at >= gap.from - NEAR && at <= gap.to + NEAR && seen.isAnew(gap, tag));
}

function badOf(seen: Seen, tag: string) {
  return seen.faults.flatMap((fault) =>
    fault.kind === 'bad' && fault.on === tag ? [seen.timeOf(fault)] : [],
  );
}

/** Every minute of which all was seen counts what was made in it. */
function wrongMinutes(counter: Counter): readonly string[] {
  const { seen, signal, made, tally } = counter;
  const tag = seen.tagOf(signal);
  const off = seen.off(tag);
  const minutes = seen.events.flatMap((event) => (event.kind === 'MinuteEnded' ? [event] : []));
  return minutes.slice(1).flatMap(({ at: to, tally: after }, before) => {
    const { at: from, tally: until } = minutes[before]!;
    if (!seen.isAllSeen(from, to, tag)) return [];
    const gained = after[tally]! - until[tally]!;
    const count = (begin: number, end: number) => countIn(made, begin, end);
    const least = count(from + off, to - off);
    const most = count(from - off, to + off) + doubtIn(counter.doubts, from - off, to + off);
    return gained < least || gained > most
      ? [`${signal.role} ${signal.of ?? ''}: ${gained} in the minute to ${to}, ${least} to ${most} made`]
      : [];
  });
}

function countIn(made: readonly Made[], from: number, to: number): number {
  let [low, high] = [0, made.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (made[middle]!.at < from) low = middle + 1;
    else high = middle;
  }
  let sum = 0;
  for (; low < made.length && made[low]!.at < to; low += 1) if (made[low]!.produced) sum += made[low]!.count;
  return sum;
}

/** So many may have been counted, from one moment to another, that were not made. */
interface Doubt {
  readonly at: Instant;
  readonly until: Instant;
  readonly count: number;
}

/**
 * What was counted and may not have been made, of a counter that somebody had set: with a notice that says so; or by no
 * more than it may have counted itself, also over its end, which nobody can tell from counting.
 */
function doubtsOf(seen: Seen, signal: Signal): readonly Doubt[] {
  const tag = seen.tagOf(signal);
  const sets = seen.faults.filter(
    (fault) => 'on' in fault && fault.on === tag && (setting as readonly string[]).includes(fault.kind),
  );
  if (sets.length === 0) return [];
  const marked = seen.events.flatMap((event) =>
    event.kind === 'CounterMarked' && event.signal === signal.index && doubted.has(event.mark)
      ? [event.at]
      : [],
  );
  const ends = sets.map((fault) => gapAt(seen, seen.timeOf(fault).from)?.to ?? seen.timeOf(fault).from);
  return stepsTold(seen, signal).flatMap(({ at, value, gained }) => {
    const until = gapAt(seen, at)?.to ?? at;
    const near = (moment: number) => moment >= at - seen.off(tag) - NEAR && moment <= until + NEAR;
    const isMarked = marked.some((moment) => moment === at || moment === until);
    const isLikely = gained <= DOUBTFUL && ends.some(near);
    return isMarked || isLikely ? [{ at, until, count: isMarked ? Math.max(gained, value) : gained }] : [];
  });
}

function doubtIn(doubts: readonly Doubt[], from: number, to: number): number {
  return doubts.reduce((sum, { at, until, count }) => (until >= from && at <= to ? sum + count : sum), 0);
}

const setting = ['set', 'corrected', 'reset'] as const;
const doubted: ReadonlySet<string> = new Set(['reset', 'implausible']);
/** What a counter may have made in five minutes, in which a reading of it may come once. */
const DOUBTFUL = 700;

function gapAt({ unknown }: Seen, at: Instant) {
  return unknown.find(({ from, to }) => at >= from && at <= to);
}

/** Values of a counter as they were recorded, and what each gained, over its end where it fell. */
function stepsTold({ run }: Seen, { index, wraps = 2 ** 32 }: Signal) {
  const values = run.changes
    .filter(({ signal, value }) => signal === index && typeof value === 'number')
    .toSorted((a, b) => a.at - b.at)
    .map(({ at, value }) => ({ at, value: Number(value) }));
  return values.slice(1).map(({ at, value }, place) => {
    const step = value - values[place]!.value;
    return { at, value, gained: step < 0 ? step + wraps : step };
  });
}

function madeOf(seen: Seen, signal: Signal): readonly Made[] | undefined {
  const { ledger } = seen.run;
  const cartons = (fate: (one: (typeof ledger.cartons)[number]) => boolean) =>
    ledger.cartons.filter(fate).map(({ at, mode }) => ({ at, produced: mode === 'produce', count: 1 }));
  switch (signal.role) {
    case 'goodCount':
      return cartons(({ fate }) => fate === 'good');
    case 'rejectCount':
      return cartons(({ reason }) => reason === signal.of);
    case 'missedPickCount':
      return ledger.missed.map(({ at, mode }) => ({ at, produced: mode === 'produce', count: 1 }));
    case 'crushedCount':
      return ledger.crushed
        .filter(({ station }) => station === signal.of)
        .map(({ at, mode, cartons: count }) => ({ at, produced: mode === 'produce', count }));
    case 'notLoadedCount':
    case 'presentedCount':
      // the ledger knows them by what became of their cartons: when they were counted the machine's own PLC says
      return stepsOf(seen, seen.tagOf(signal));
    default:
      return undefined;
  }
}

/** Every step of a counter of the machine's own, one at a time; undefined where its facts are not known. */
function stepsOf({ run, start }: Seen, of: string): readonly Made[] | undefined {
  let produced = true;
  return run.facts?.flatMap(({ tag, value, at }) => {
    if (tag === tags.mode) produced = value === 1;
    return tag === of && at > start ? [{ at, produced, count: 1 }] : [];
  });
}

/** Cartons at discharge by what was told of them: a size or an order, from one moment to the next. */
function wrongSizes(seen: Seen): readonly string[] {
  const { ledger, fold } = seen.run;
  if (!seen.isWatched(tags.size)) return [];
  const made = ledger.cartons.filter(({ fate, reason }) => fate === 'good' || reason !== undefined);
  return wrongShares(seen, 'size', tags.size, sizesTold(seen), made, fold.state.cartonsBySize);
}

function wrongOrders(seen: Seen): readonly string[] {
  const { ledger, fold } = seen.run;
  const told = ordersTold(seen);
  if (!told || !seen.isWatched(tags.order) || fold.state.orders.length === 0) return [];
  const made = ledger.cartons.filter(({ fate }) => fate === 'good');
  const counted = Object.fromEntries(fold.state.orders.map(({ number, good }) => [number, good]));
  return wrongShares(seen, 'order', tags.order, told, made, counted);
}

type Cartons = Seen['run']['ledger']['cartons'];

/** What was certainly counted with each, and what may have been: made, or told, while nobody looked. */
function wrongShares(
  seen: Seen,
  name: string,
  tag: string,
  told: readonly { readonly at: Instant; readonly what: string }[],
  made: Cartons,
  counted: Readonly<Record<string, number>>,
): readonly string[] {
  const off = seen.off(tag, tags.good);
  const sure = new Map<string, number>();
  let doubtful = 0;
  let place = 0;
  for (const { at, mode } of made) {
    while (told[place + 1] && told[place + 1]!.at <= at) place += 1;
    const next = told[place + 1]?.at ?? seen.run.to;
    const clear = at - (told[place]?.at ?? at) > off && next - at > off;
    const known = seen.isSeen(at, tags.good, tag) && (clear || told.length === 1);
    if (mode === 'produce' && known) add(sure, told[place]!.what);
    // in another mode, and seen: nobody counts it
    else if (mode === 'produce' || !seen.isSeen(at, tags.good, tag)) doubtful += 1;
  }
  const doubt = doubtful + doubtOfGoods(seen);
  return told
    .map(({ what }) => what)
    .filter((what, index, all) => all.indexOf(what) === index)
    .flatMap((what) => {
      const [least, given] = [sure.get(what) ?? 0, counted[what] ?? 0];
      return given < least || given > least + doubt
        ? [`${name} ${what}: ${given} counted, ${least} to ${least + doubt} made`]
        : [];
    });
}

function add(counts: Map<string, number>, what: string): void {
  counts.set(what, (counts.get(what) ?? 0) + 1);
}

/** Of the counters of what comes to discharge. */
function doubtOfGoods(seen: Seen): number {
  const doubts = seen.signals('goodCount', 'rejectCount').flatMap((signal) => doubtsOf(seen, signal));
  return doubts.reduce((sum, { count }) => sum + count, 0);
}
