import type { ChangeoverKind, PressRecord, StopClass } from '../fold/state.ts';
import type { ReportStrip } from '../report/reportStrip.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { TargetThen } from './crewAt.ts';
import { notedIn } from '../records/noted.ts';
import { type EntryRow, entryRow } from './entriesPast.ts';
import { type PastAsked, type SeenTime, type StationRef, stationRef } from './past.ts';

/** A stretch of a line's past as a strip, and what can be gone to in it. */
export interface Course {
  readonly seen: SeenTime;
  readonly strip: ReportStrip;
  /** From here on cartons were of this size; the first one ran when the stretch began. */
  readonly sizes: readonly { readonly at: EpochMs; readonly name: string; readonly target: number }[];
  readonly stops: readonly CourseStop[];
  readonly presses: readonly CoursePress[];
  readonly changeovers: readonly CourseChangeover[];
  readonly notices: readonly {
    readonly id: string;
    readonly at: EpochMs;
    readonly station: StationRef | undefined;
  }[];
  /** What people noted of moments in it, whenever they wrote it; also what was withdrawn. In order of the moments. */
  readonly notes: readonly CourseNote[];
}

export interface CourseStop {
  readonly id: string;
  readonly at: EpochMs;
  readonly until: EpochMs | undefined;
  readonly class: StopClass;
  readonly station: StationRef | undefined;
  /** First fault; undefined while nobody knows. */
  readonly name: string | undefined;
}

export interface CoursePress {
  readonly id: string;
  readonly at: EpochMs;
  readonly until: EpochMs | undefined;
  readonly role: PressRecord['role'];
  readonly device: string;
}

/** [RP21] `at` is the moment that it is about; `said`: what was written, when, by whom, and how it was corrected. */
export interface CourseNote {
  readonly id: string;
  readonly at: EpochMs;
  /** None for a bookmark. */
  readonly words: string;
  /** It was written after the moment that it is about. */
  readonly later: boolean;
  readonly withdrawn: boolean;
  readonly said: EntryRow;
}

export interface CourseChangeover {
  readonly at: EpochMs;
  readonly until: EpochMs | undefined;
  readonly kind: ChangeoverKind;
  readonly to: string | undefined;
}

export interface CourseAsked extends PastAsked {
  readonly seen: SeenTime;
  readonly strip: ReportStrip;
  readonly sizes: readonly RecordBodies['size'][];
  readonly targetAt: (size: string, at: Instant) => TargetThen;
  readonly stops: readonly RecordBodies['stop'][];
  readonly presses: readonly RecordBodies['press'][];
  readonly changeovers: readonly RecordBodies['changeover'][];
  readonly notices: readonly RecordBodies['notice'][];
  /** Notes about moments of the stretch, and entries of it. */
  readonly entries: readonly RecordBodies['entry'][];
  /** Ids of entries that can still be corrected. */
  readonly correctable: ReadonlySet<string>;
}

export function courseOf(asked: CourseAsked): Course {
  const { index, from, to, seen, strip } = asked;
  const within = (at: Instant) => at >= from && at < to;
  const sizeName = (id: string | null) => (id === null ? undefined : (index.sizeById.get(id)?.name ?? id));
  return {
    seen,
    strip,
    sizes: asked.sizes.map(({ at, size }) => {
      const since = Math.max(at, from) as Instant;
      return { at: epochMs(since), name: sizeName(size)!, target: asked.targetAt(size, since).perMinute };
    }),
    stops: asked.stops.filter(({ begin }) => within(begin)).map((stop) => stopOf(index, stop)),
    presses: asked.presses
      .filter(({ pressed, known }) => within(pressed) && known === 'edge')
      .map(({ id, pressed, restarted, role, device }) => ({
        ...{ id, role, at: epochMs(pressed), until: until(restarted) },
        device: index.line.devices[device]?.name ?? '',
      })),
    changeovers: asked.changeovers
      .filter(({ begin }) => within(begin))
      .map(({ begin, end, kind, to: size }) => ({
        ...{ at: epochMs(begin), until: until(end), kind, to: sizeName(size) },
      })),
    notices: asked.notices
      .filter(({ at }) => within(at))
      .map(({ id, at, station }) => ({ id, at: epochMs(at), station: stationRef(index, station) })),
    notes: notesOf(asked),
  };
}

function notesOf({ entries, correctable, from, to }: CourseAsked): readonly CourseNote[] {
  const notes = new Map<string, CourseNote>();
  for (const one of entries) {
    const noted = notedIn(one);
    if (!noted || noted.about < from || noted.about >= to) continue;
    const said = entryRow(one, correctable, () => undefined);
    if (!said) continue;
    const { words, about, withdrawn } = noted;
    const at = epochMs(about);
    notes.set(said.id, { id: said.id, at, words, later: said.at > at, withdrawn, said });
  }
  return [...notes.values()].sort((a, b) => a.at - b.at);
}

function stopOf(index: LineIndex, stop: RecordBodies['stop']): CourseStop {
  return {
    ...{ id: stop.id, at: epochMs(stop.begin), until: until(stop.end), class: stop.class },
    station: stationRef(index, stop.station),
    name: index.reasonByNumber.get(stop.reason)?.name,
  };
}

function until(at: Instant | null): EpochMs | undefined {
  return at === null ? undefined : epochMs(at);
}
