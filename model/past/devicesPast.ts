import type { LineIndex } from '../fold/lineIndex.ts';
import type { Side } from '../line/line.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, type Instant, instantFromMs } from '../units/units.ts';
import type { RanOn } from './ranOn.ts';
import type { Standstill } from './standstill.ts';
import { cellAt } from './timeCells.ts';
import { sumOf, type Use, type UseSum } from './uses.ts';

/** A stop device, a circuit of several, or a guard: what is known of it, and what is not. Never that it is proven. */
export interface DevicePast {
  readonly id: string;
  readonly name: string;
  readonly kind: 'button' | 'circuit' | 'guard';
  readonly candidates: readonly string[];
  readonly place: Place;
  readonly sum: UseSum;
  /** Cell by cell of the stretch. */
  readonly cells: readonly DeviceCell[];
  readonly lastOperated: Operated;
  readonly lastRunning: Operated;
  /** When it last stopped the machine in the stretch. notUsable: its input is in doubt, as it read so while the line ran. */
  readonly standstill: Standstill | 'notSeen' | 'notUsable';
  readonly lastTest: RecordedTest | undefined;
}

/** Beside which stations it is: undefined for what is at none of them. */
export interface Place {
  readonly side: Side;
  readonly from: string | undefined;
  readonly to: string | undefined;
}

export interface DeviceCell extends UseSum {
  readonly tests: number;
  /** Read so while the line ran, and nobody has closed it. */
  readonly open: number;
}

/** Not seen, and seen at no certain moment, are two answers. */
export type Operated =
  | { readonly kind: 'seen'; readonly at: EpochMs; readonly how: Use['kind'] }
  | { readonly kind: 'notCertain'; readonly at: EpochMs }
  /** From then on it was not. */
  | { readonly kind: 'notSeen'; readonly since: EpochMs };

/** A test that a person recorded: when it was recorded, by whom, and how it was made. */
export interface RecordedTest {
  readonly device: string;
  readonly at: EpochMs;
  readonly person: string;
  readonly method: string;
}

export interface DevicesAsked {
  readonly index: LineIndex;
  readonly begun: Instant;
  readonly from: Instant;
  readonly to: Instant;
  /** All of the stretch, and what each device and guard did last before it; the oldest first. */
  readonly uses: readonly Use[];
  readonly ranOn: readonly RanOn[];
  /** By id of the device or guard. */
  readonly standstills: ReadonlyMap<string, Standstill>;
  readonly starts: readonly Instant[];
  readonly entries: readonly RecordBodies['entry'][];
}

export function devicesPast(asked: DevicesAsked): readonly DevicePast[] {
  const { line } = asked.index;
  return [
    ...line.devices.map(({ id, name, kind, candidates, side, station }) =>
      devicePast(asked, { id, name, kind, candidates, place: { side, from: station, to: station } }),
    ),
    ...line.guards.map(({ id, name, side, from, to }) =>
      devicePast(asked, { id, name, kind: 'guard', candidates: [], place: { side, from, to } }),
    ),
  ];
}

function devicePast(
  asked: DevicesAsked,
  device: Pick<DevicePast, 'id' | 'name' | 'kind' | 'candidates' | 'place'>,
): DevicePast {
  const all = asked.uses.filter(({ of }) => of === device.id);
  const uses = all.filter(({ at }) => at >= asked.from && at < asked.to);
  const open = asked.ranOn.filter(({ of, reading }) => of === device.id && isOpen(reading));
  const tests = testsOf(asked.entries).filter((test) => test.device === device.id);
  return {
    ...device,
    sum: sumOf(uses),
    cells: asked.starts.map((_, place) => {
      const within = (at: number) => cellAt(asked.starts, at as Instant) === place;
      return {
        ...sumOf(uses.filter(({ at }) => within(at))),
        tests: tests.filter(({ at }) => within(instantFromMs(at)) && instantFromMs(at) < asked.to).length,
        open: open.filter(({ at }) => within(instantFromMs(at))).length,
      };
    }),
    lastOperated: operated(asked, all.at(-1), () => true),
    lastRunning: operated(
      asked,
      all.findLast(({ role }) => role !== 'during'),
      ({ role }) => role !== 'uncertain',
    ),
    standstill: open.length > 0 ? 'notUsable' : (asked.standstills.get(device.id) ?? 'notSeen'),
    lastTest: tests.findLast(({ at }) => instantFromMs(at) < asked.to),
  };
}

/** One whose moment or order is not certain is said to be so; an older one that is certain is not put in its place. */
function operated({ begun }: DevicesAsked, last: Use | undefined, certain: (use: Use) => boolean): Operated {
  if (!last) return { kind: 'notSeen', since: epochMs(begun) };
  return last.owned && certain(last)
    ? { kind: 'seen', at: epochMs(last.at), how: last.kind }
    : { kind: 'notCertain', at: epochMs(last.at) };
}

/** Tests that people recorded, the oldest first, at line time as all else is. */
export function testsOf(entries: readonly RecordBodies['entry'][]): readonly RecordedTest[] {
  return entries.flatMap(({ at, entry }) =>
    entry.kind === 'tested'
      ? [{ device: entry.device, at: epochMs(at), person: entry.person, method: entry.method }]
      : [],
  );
}

function isOpen(reading: RanOn['reading']): boolean {
  return reading === 'open' || reading === 'lasts';
}
