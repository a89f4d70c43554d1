import type { LineFold } from '../fold/fold.ts';
import { active } from '../fold/lineIndex.ts';
import type { PackmlState } from '../packml/packml.ts';
import { type StationRef, stationRef } from '../past/past.ts';
import type { Change } from '../signals/signals.ts';
import {
  type EpochMs,
  epochMs,
  type Instant,
  type Millis,
  millis,
  MINUTE,
  type Span,
} from '../units/units.ts';
import { targetNow } from '../view/rateView.ts';
import { seenAt } from '../view/seen.ts';
import { type Happened, type Looked, tellEvent, tellHappenings } from './happened.ts';

/** A stretch of a line's time, looked at closely: what it made, what its machine did, and what happened, in order. */
export interface WindowView {
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** In cartons a minute, at its end; undefined where none is set. */
  readonly target: number | undefined;
  readonly bucketMs: Millis;
  /** Good cartons a minute; null where that was not observed. */
  readonly rates: readonly (number | null)[];
  /** What the pace-setting machine's state read; undefined while it is not known. */
  readonly states: readonly (Stretched & { readonly state: PackmlState | undefined })[];
  /** Where the line was not observed; `isolated`: it stood meanwhile, as its counters tell. */
  readonly unseen: readonly (Stretched & { readonly kind: 'unknown' | 'isolated' })[];
  readonly stops: readonly WindowStop[];
  /** Stations to which rejects were charged, in the order of the line. */
  readonly rejects: readonly { readonly station: StationRef; readonly marks: readonly RejectMark[] }[];
  /** Stop devices that read pressed in it, and guards that read open. */
  readonly devices: readonly WindowDevice[];
  readonly happened: readonly Happened[];
  /** What happened besides, and is left out. */
  readonly more: number;
}

export interface Stretched {
  readonly from: EpochMs;
  readonly to: EpochMs;
}

export interface WindowStop extends Stretched {
  readonly id: string;
  readonly number: number | undefined;
}

/** One reject, when it was counted; `beyond`: its station was outside its own normal then. */
export interface RejectMark {
  readonly at: EpochMs;
  readonly name: string;
  readonly beyond: boolean;
}

export interface WindowDevice {
  readonly id: string;
  readonly name: string;
  readonly kind: 'device' | 'guard';
  readonly spans: readonly (Stretched & {
    /** How long it lasted; undefined where it began before the window, or lasts beyond it. */
    readonly lasted: Millis | undefined;
  })[];
}

/** So many points a window has at most: with more of them single cartons would be drawn as a rate. */
const BUCKETS = 90;
const HAPPENED_MOST = 300;

/** `fold`: the line at the window's beginning, which is stepped on to its end; `changes`: all of the window, in line time. */
export function windowView(
  fold: LineFold,
  changes: readonly Change[],
  { from, to }: { readonly from: Instant; readonly to: Instant },
): WindowView {
  const looked: Looked = { fold, from, to, happened: [], told: new Set(), marks: new Map() };
  const span = Math.ceil((to - from) / BUCKETS / (MINUTE / 60)) * (MINUTE / 60);
  const made = [goodsOf(fold)];
  const states = new Stretches<PackmlState | undefined>(from, stateOf(fold));
  const unseen = new Stretches<boolean>(from, fold.state.gap !== null);
  const stood = new Set<Instant>();
  const devices = fold.index.line.signals
    .filter(({ role }) => role === 'stopDevice' || role === 'guard')
    .map((signal) => ({ signal, reads: new Stretches<boolean>(from, readsActive(fold, signal.index)) }));
  let last = fold.state.happenings.at(-1);
  for (const change of changes) {
    while (change.at >= from + made.length * span) made.push(goodsOf(fold));
    const events = fold.take([change]);
    last = tellHappenings(looked, last);
    for (const event of events) {
      tellEvent(looked, event);
      if (event.kind === 'GapEnded' && event.judged === 'isolated') stood.add(event.at);
    }
    states.read(change.at, stateOf(fold));
    unseen.read(change.at, fold.state.gap !== null);
    const device = devices.find(({ signal }) => signal.index === change.signal);
    device?.reads.read(change.at, readsActive(fold, change.signal));
  }
  while (made.length * span < to - from + span) made.push(goodsOf(fold));
  const dark = unseen.upTo(to).filter(({ value }) => value);
  return {
    from: epochMs(from),
    to: epochMs(to),
    target: targetNow(seenAt(fold, to)),
    bucketMs: millis(span as Span),
    rates: ratesOf(made, span, from, dark),
    states: states.upTo(to).map(({ value, ...at }) => ({ ...inMs(at), state: value })),
    unseen: dark.map((gap) => ({ ...inMs(gap), kind: stood.has(gap.to) ? 'isolated' : 'unknown' })),
    stops: stopsOf(looked),
    rejects: fold.index.line.stations.flatMap(({ id }) => {
      const marks = looked.marks.get(id);
      return marks ? [{ station: stationRef(fold.index, id)!, marks }] : [];
    }),
    devices: devices.flatMap(({ signal, reads }) => deviceOf(looked, signal, reads)),
    happened: looked.happened.slice(0, HAPPENED_MOST),
    more: Math.max(0, looked.happened.length - HAPPENED_MOST),
  };
}

interface Stretch<Value> {
  readonly from: Instant;
  readonly to: Instant;
  readonly value: Value;
}

/** What holds from one moment to the next, told as it changes. */
class Stretches<Value> {
  private readonly begun: { readonly from: Instant; readonly value: Value }[];

  constructor(from: Instant, value: Value) {
    this.begun = [{ from, value }];
  }

  read(at: Instant, value: Value): void {
    if (this.begun.at(-1)!.value !== value) this.begun.push({ from: at, value });
  }

  upTo(to: Instant): readonly Stretch<Value>[] {
    return this.begun
      .map(({ from, value }, place) => ({ from, value, to: this.begun[place + 1]?.from ?? to }))
      .filter((one) => one.to > one.from);
  }
}

function inMs({ from, to }: { readonly from: Instant; readonly to: Instant }): Stretched {
  return { from: epochMs(from), to: epochMs(to) };
}

function goodsOf({ index, state }: LineFold): number {
  return index.tallied.reduce(
    (sum, signal, place) =>
      sum + (index.line.signals[signal]!.role === 'goodCount' ? state.tally[place]! : 0),
    0,
  );
}

function stateOf({ index, state }: LineFold): PackmlState | undefined {
  const { stateSignal } = index;
  if (stateSignal < 0) return state.judged ? (state.producing ? 'Execute' : 'Stopped') : undefined;
  const value = state.values[stateSignal];
  return state.known[stateSignal] === 0 || state.gap !== null || typeof value !== 'number'
    ? undefined
    : index.states.get(value);
}

function readsActive({ index, state }: LineFold, signal: number): boolean {
  return state.known[signal] !== 0 && active(index.line.signals[signal]!, state.values[signal] ?? null);
}

function ratesOf(
  made: readonly number[],
  span: number,
  from: Instant,
  dark: readonly Stretch<boolean>[],
): (number | null)[] {
  return made.slice(1).map((count, place) => {
    const [begin, end] = [from + place * span, from + (place + 1) * span];
    const unseen = dark.reduce(
      (sum, one) => sum + Math.max(0, Math.min(one.to, end) - Math.max(one.from, begin)),
      0,
    );
    return unseen > span / 2 ? null : Math.round(((count - made[place]!) * MINUTE * 10) / span) / 10;
  });
}

function stopsOf({ fold: { index, state }, from, to }: Looked): readonly WindowStop[] {
  return state.stops
    .filter((stop) => stop.begin < to && (stop.end === null || stop.end > from))
    .map((stop) => ({
      id: stop.id,
      number: stationRef(index, stop.station)?.number,
      ...inMs({
        from: Math.max(stop.begin, from) as Instant,
        to: Math.min(stop.end ?? to, to) as Instant,
      }),
    }));
}

function deviceOf(
  { fold: { index }, from, to }: Looked,
  { role, of = '' }: { readonly role: string; readonly of?: string },
  reads: Stretches<boolean>,
): readonly WindowDevice[] {
  const kind = role === 'guard' ? 'guard' : 'device';
  const list = kind === 'guard' ? index.line.guards : index.line.devices;
  const spans = reads
    .upTo(to)
    .filter(({ value }) => value)
    .map((span) => ({
      ...inMs(span),
      lasted: span.from === from || span.to === to ? undefined : millis((span.to - span.from) as Span),
    }));
  const name = list.find(({ id }) => id === of)?.name ?? of;
  return spans.length > 0 ? [{ id: of, name, kind, spans }] : [];
}
