import type { LineEvent } from '../fold/events.ts';
import type { LineFold } from '../fold/fold.ts';
import { active } from '../fold/lineIndex.ts';
import type { HappeningRecord } from '../fold/state.ts';
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
import type { Entry } from '../entries/entries.ts';

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
  /** Where the line was not observed. */
  readonly unseen: readonly Stretched[];
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

/** Something that happened, with its moment to a tenth of a millisecond. */
export interface Happened {
  readonly at: number;
  readonly kind:
    | HappeningRecord['kind']
    | 'stopBegan'
    | 'restarted'
    | 'reset'
    | 'firstGood'
    | 'changeoverBegan'
    | 'changeoverEnded'
    | 'unseenBegan'
    | 'unseenEnded'
    | 'sizeBegan'
    | 'orderBegan'
    | 'settingMoved'
    | 'noticeRaised'
    | 'entry';
  readonly name: string;
  readonly station: StationRef | undefined;
  /** The stop or notice it belongs to. */
  readonly of?: string;
  /** What a person entered. */
  readonly entry?: Entry;
}

/** A chart never gets more points than this. */
const BUCKETS = 240;
const HAPPENED_MOST = 300;

interface Looked {
  readonly fold: LineFold;
  readonly from: Instant;
  readonly to: Instant;
  readonly happened: Happened[];
  readonly told: Set<string>;
  readonly marks: Map<string, RejectMark[]>;
}

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
  const devices = fold.index.line.signals
    .filter(({ role }) => role === 'stopDevice' || role === 'guard')
    .map((signal) => ({ signal, reads: new Stretches<boolean>(from, readsActive(fold, signal.index)) }));
  let last = fold.state.happenings.at(-1);
  for (const change of changes) {
    while (change.at >= from + made.length * span) made.push(goodsOf(fold));
    const events = fold.take([change]);
    last = tellHappenings(looked, last);
    for (const event of events) tellEvent(looked, event);
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
    unseen: dark.map(inMs),
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

/** What the fold noted since `last`, which it still holds unless it has noted many. Answers the newest. */
function tellHappenings(looked: Looked, last: HappeningRecord | undefined): HappeningRecord | undefined {
  const { happenings } = looked.fold.state;
  const newest = happenings.at(-1);
  if (newest === last) return last;
  for (const one of happenings.slice(last ? happenings.lastIndexOf(last) + 1 : 0)) {
    const station = stationRef(looked.fold.index, one.station);
    tell(looked, { at: exactly(one.at), kind: one.kind, name: one.name, station });
    if (one.kind === 'reject' && station) markReject(looked, one, station);
  }
  return newest;
}

function markReject({ fold, marks }: Looked, { at, name }: HappeningRecord, station: StationRef): void {
  const place = fold.index.stationAt.get(station.id);
  const beyond = place !== undefined && (fold.state.stations[place]?.outSince ?? null) !== null;
  const list = marks.get(station.id) ?? [];
  marks.set(station.id, [...list, { at: epochMs(at), name, beyond }]);
}

function tellEvent(looked: Looked, event: LineEvent): void {
  const { index } = looked.fold;
  const at = exactly(event.at);
  const one = (
    kind: Happened['kind'],
    name = '',
    more: Partial<Pick<Happened, 'station' | 'of' | 'entry'>> = {},
  ) => tell(looked, { at, kind, name, station: undefined, ...more });
  switch (event.kind) {
    case 'StopBegan':
      return one('stopBegan', '', { of: event.stop.id });
    case 'StopEnded':
      return one('restarted', '', { of: event.stop.id });
    case 'StopSettled': {
      const { firstGood, id } = event.stop;
      if (firstGood !== null && isFirst(looked, `good ${id}`))
        tell(looked, { at: exactly(firstGood), kind: 'firstGood', name: '', station: undefined, of: id });
      return;
    }
    case 'PressMoved': {
      const { reset, id, device } = event.press;
      if (reset !== null && isFirst(looked, `reset ${id}`))
        one('reset', index.line.devices[device]?.name ?? '', { of: id });
      return;
    }
    case 'ChangeoverBegan':
      return one('changeoverBegan');
    case 'ChangeoverEnded':
      return one('changeoverEnded');
    case 'GapBegan':
      return one('unseenBegan');
    case 'GapEnded':
      return one('unseenEnded');
    case 'SizeBegan':
      return one('sizeBegan', index.sizeById.get(event.size)?.name ?? event.size);
    case 'OrderBegan':
      return one('orderBegan', event.order);
    case 'SettingMoved': {
      if (!isFirst(looked, `move ${event.move.adjustment} ${event.move.begin}`)) return;
      const moved = index.line.adjustments.find(({ number }) => number === event.move.adjustment);
      return one('settingMoved', moved ? `${moved.number} ${moved.name}` : event.move.adjustment, {
        station: stationRef(index, moved?.station),
      });
    }
    case 'NoticeMoved':
      if (isFirst(looked, `notice ${event.notice.id}`) && event.notice.at >= looked.from)
        one('noticeRaised', '', { of: event.notice.id });
      return;
    case 'Entered':
      return one('entry', '', { entry: event.entry });
    case 'StopExplained':
    case 'Pressed':
    case 'PressTakenBack':
    case 'GuardMoved':
    case 'GapCounted':
    case 'ShiftEnded':
    case 'EntryCorrected':
    case 'SheetMoved':
    case 'FindingKept':
    case 'MinuteEnded':
    case 'CounterMarked':
    case 'Amended':
    case 'BeyondReach':
      return;
  }
}

function isFirst({ told }: Looked, what: string): boolean {
  if (told.has(what)) return false;
  told.add(what);
  return true;
}

function tell({ happened }: Looked, one: Happened): void {
  happened.push(one);
}

/** Milliseconds since 1970 with what lies below them: offsets are told to a tenth of a second, and order is kept. */
function exactly(at: Instant): number {
  return epochMs(0 as Instant) + at / 10_000;
}
