import type { Entry } from '../entries/entries.ts';
import type { LineEvent } from '../fold/events.ts';
import type { LineFold } from '../fold/fold.ts';
import type { HappeningRecord } from '../fold/state.ts';
import { type StationRef, stationRef } from '../past/past.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';
import type { RejectMark } from './window.ts';

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
    | 'note'
    | 'entry';
  readonly name: string;
  readonly station: StationRef | undefined;
  /** The stop or notice it belongs to. */
  readonly of?: string;
  /** What a person entered. */
  readonly entry?: Entry;
  /** From where to where an adjustment was moved; null where nobody knows where it stood. */
  readonly moved?: {
    readonly from: number | null;
    readonly to: number;
    readonly decimals: number;
    readonly unit: string;
  };
  readonly note?: HappenedNote;
}

/** [RP21] When a note was written: after the moment that it is about, or then. */
export interface HappenedNote {
  readonly later: boolean;
  readonly written: EpochMs;
}

/** A stretch while it is folded, and what was told of it so far. */
export interface Looked {
  readonly fold: LineFold;
  readonly from: Instant;
  readonly to: Instant;
  readonly happened: Happened[];
  readonly told: Set<string>;
  readonly marks: Map<string, RejectMark[]>;
}

/** What the fold noted since `last`, which it still holds unless it has noted many. Answers the newest. */
export function tellHappenings(
  looked: Looked,
  last: HappeningRecord | undefined,
): HappeningRecord | undefined {
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

export function tellEvent(looked: Looked, event: LineEvent): void {
  const { index } = looked.fold;
  const at = exactly(event.at);
  const one = (
    kind: Happened['kind'],
    name = '',
    more: Partial<Pick<Happened, 'station' | 'of' | 'entry' | 'moved'>> = {},
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
      const { adjustment, begin, from, to } = event.move;
      const moved = index.line.adjustments.find(({ number }) => number === adjustment);
      const name = moved ? `${moved.number} ${moved.name}` : adjustment;
      const of = `${adjustment} ${begin}`;
      const numbers = { from, to, decimals: moved?.decimals ?? 1, unit: moved?.unit ?? '' };
      // the same move goes on while the number keeps changing: it is told once, with where it ended
      const told = looked.happened.findLastIndex((other) => other.of === of);
      if (told >= 0) looked.happened[told] = { ...looked.happened[told]!, moved: numbers };
      else one('settingMoved', name, { station: stationRef(index, moved?.station), of, moved: numbers });
      return;
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
