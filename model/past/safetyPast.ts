import type { OpenMatter } from '../fold/state.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { RecordBodies } from '../records/records.ts';
import { between, type EpochMs, epochMs, type Instant, type Millis, millis } from '../units/units.ts';
import { BEFORE, type BeforeKind, type CameBefore, cameBefore } from './cameBefore.ts';
import { type DevicePast, devicesPast } from './devicesPast.ts';
import { type PastAsked, type SeenTime, seenTime } from './past.ts';
import { type RanOn, ranOnOf } from './ranOn.ts';
import type { Standstill } from './standstill.ts';
import { cellStarts, type TimeCell, timeCells } from './timeCells.ts';
import { sumOf, type Use, type UseRecords, type UseSum, usesOf } from './uses.ts';

/** What stop devices and guards read in a stretch of the past. Nothing in it is ranked or scored. */
export interface SafetyPast {
  readonly seen: SeenTime;
  /** First on the screen; no more than were asked for. */
  readonly ranOn: readonly RanOn[];
  readonly ranOnCount: Readonly<Record<RanOn['reading'], number>>;
  /** Findings that the list had no room for, and that a person has to close. */
  readonly olderFindings: number;
  /** What the line's file binds that could explain a reading, or take a device out. */
  readonly bound: { readonly enabling: boolean; readonly muting: boolean };
  readonly presses: UseSum;
  readonly openings: UseSum;
  /** From pressed to the first good carton: the middle one, and of how many it is known. */
  readonly toFirstGood: { readonly middle: Millis | undefined; readonly of: number };
  readonly cells: readonly TimeCell[];
  /** In the order of the line's file: stop devices, then guards. */
  readonly devices: readonly DevicePast[];
  /** The newest first; no more than were asked for. */
  readonly list: readonly PastUse[];
  /** The scale that the bars of the list are drawn to; one that is longer is cut off there. At least a second. */
  readonly scale: Millis;
  /** Where that scale bears a mark: whole seconds or minutes. */
  readonly ticks: readonly Millis[];
  /** How many there are to be listed, and openings in a stop that are left out of it. */
  readonly listed: number;
  readonly leftOut: number;
  /** In a fixed order; kinds that came before no use are left out. */
  readonly before: readonly { readonly kind: BeforeKind; readonly uses: number }[];
}

/** held: until released. released: until reset. reset: until restarted. restarted: until the first good carton. between: a step in it was not seen. */
export interface StepPart {
  readonly kind: 'held' | 'released' | 'reset' | 'restarted' | 'between';
  readonly from: Millis;
  readonly to: Millis;
}

/** So long after the use; or still to come; or nobody saw it. */
export type StepSeen = Millis | 'toCome' | 'notSeen';

export interface PastUse {
  readonly id: string;
  readonly of: string;
  readonly name: string;
  readonly kind: Use['kind'];
  readonly at: EpochMs;
  /** False where nobody saw the moment: it was counted, or found so. */
  readonly owned: boolean;
  readonly role: Use['role'];
  readonly released: StepSeen;
  /** Undefined for a guard: its reset is not kept. */
  readonly reset: StepSeen | undefined;
  readonly restarted: StepSeen;
  readonly firstGood: StepSeen;
  /** The bar of it: what lies between moments that were seen. */
  readonly parts: readonly StepPart[];
  readonly before: CameBefore;
  /** Of a circuit: the buttons that it may have been, and which one a person says. */
  readonly candidates: readonly string[];
  readonly candidate: string | undefined;
}

export interface SafetyAsked extends PastAsked, UseRecords {
  /** Records are given from here on, some time before `from`; before it, how each guard read last. */
  readonly since: Instant;
  /** What each device and guard did last before that, and last while the line ran; the oldest first. */
  readonly earlier: readonly Use[];
  readonly begun: Instant;
  readonly findings: readonly OpenMatter[];
  /** Ids of findings that nobody has closed. */
  readonly open: ReadonlySet<string>;
  readonly olderFindings: number;
  readonly entries: readonly RecordBodies['entry'][];
  /** By id of the device or guard. */
  readonly standstills: ReadonlyMap<string, Standstill>;
  /** Only uses of this device or guard are listed, all of them. */
  readonly device: string | undefined;
  /** So many of each list at most. */
  readonly most: number;
}

export function safetyPast(asked: SafetyAsked): SafetyPast {
  const { index, from, to, most } = asked;
  const all = usesOf(index, asked);
  const uses = all.filter(({ at }) => at >= from && at < to);
  const ranOn = ranOnOf({ ...asked, uses });
  const worth = uses.filter(isListed);
  const listed = asked.device === undefined ? worth : uses.filter(({ of }) => of === asked.device);
  const befores = worth.map((use) => cameBefore(index, asked, all, use).kind);
  const starts = cellStarts(from, to);
  const list = listed
    .slice(-most)
    .reverse()
    .map((use) => pastUse(asked, all, use));
  const scale = scaleOf(list);
  return {
    seen: seenTime(asked, asked.gaps, asked.begun),
    ranOn: ranOn.slice(0, most),
    ranOnCount: countOf(ranOn),
    olderFindings: asked.olderFindings,
    bound: { enabling: isBound(index, 'enabling'), muting: isBound(index, 'muting') },
    presses: sumOf(uses.filter(({ kind }) => kind === 'pressed')),
    openings: sumOf(uses.filter(({ kind }) => kind === 'opened')),
    toFirstGood: middleOf(uses),
    cells: timeCells(starts, to, asked.gaps, asked.begun),
    devices: devicesPast({
      ...asked,
      uses: [...asked.earlier, ...all.filter(({ at }) => at >= asked.since)],
      ranOn,
      starts,
    }),
    list,
    scale,
    ticks: ticksOf(scale),
    listed: listed.length,
    leftOut: asked.device === undefined ? uses.length - worth.length : 0,
    before: BEFORE.map((kind) => ({ kind, uses: befores.filter((one) => one === kind).length })).filter(
      (row) => row.uses > 0,
    ),
  };
}

/** All uses of a stretch as lists have them, the oldest first, for a file. */
export function safetyUses(asked: SafetyAsked): readonly PastUse[] {
  const all = usesOf(asked.index, asked);
  return all.filter(({ at }) => at >= asked.from && at < asked.to).map((use) => pastUse(asked, all, use));
}

/** A door that was opened to clear a stop says nothing of the door. */
function isListed({ kind, role }: Use): boolean {
  return kind === 'pressed' || role !== 'during';
}

function countOf(ranOn: readonly RanOn[]): SafetyPast['ranOnCount'] {
  const of = (reading: RanOn['reading']) => ranOn.filter((one) => one.reading === reading).length;
  return {
    lasts: of('lasts'),
    open: of('open'),
    closed: of('closed'),
    older: of('older'),
    explained: of('explained'),
  };
}

function middleOf(uses: readonly Use[]): SafetyPast['toFirstGood'] {
  const known = uses
    .flatMap(({ kind, owned, at, firstGood }) =>
      kind === 'pressed' && owned && firstGood !== null ? [between(at, firstGood)] : [],
    )
    .sort((a, b) => a - b);
  const middle = known[Math.floor((known.length - 1) / 2)];
  return { middle: middle === undefined ? undefined : millis(middle), of: known.length };
}

function pastUse(asked: SafetyAsked, all: readonly Use[], use: Use): PastUse {
  const { index } = asked;
  const device = index.line.devices.find(({ id }) => id === use.of);
  const step = (moment: Instant | null, later: readonly (Instant | null)[]): StepSeen => {
    if (moment !== null && use.owned) return millis(between(use.at, moment));
    return goesOn(use) && later.every((one) => one === null) ? 'toCome' : 'notSeen';
  };
  const { released, reset, restarted, firstGood } = use;
  const seen = {
    released: step(released, [reset, restarted, firstGood]),
    reset: step(reset, [restarted, firstGood]),
    restarted: step(restarted, [firstGood]),
    firstGood: step(firstGood, []),
  };
  return {
    id: use.id,
    of: use.of,
    name: device?.name ?? index.line.guards.find(({ id }) => id === use.of)?.name ?? use.of,
    kind: use.kind,
    at: epochMs(use.at),
    owned: use.owned,
    role: use.role,
    ...seen,
    reset: use.kind === 'opened' ? undefined : seen.reset,
    parts: partsOf([seen.released, seen.reset, seen.restarted, seen.firstGood]),
    before: cameBefore(index, asked, all, use),
    candidates: device?.candidates ?? [],
    candidate: use.candidate ?? undefined,
  };
}

const PARTS = ['held', 'released', 'reset', 'restarted'] as const;

/** From one seen moment to the next; a part that has only its own two moments as ends bears its name. */
function partsOf(steps: readonly StepSeen[]): readonly StepPart[] {
  const parts: StepPart[] = [];
  let last = { place: -1, at: 0 as Millis };
  for (const [place, seen] of steps.entries()) {
    if (typeof seen !== 'number' || seen < last.at) continue;
    const kind = place === last.place + 1 ? PARTS[place]! : 'between';
    parts.push({ kind, from: last.at, to: seen });
    last = { place, at: seen };
  }
  return parts;
}

/** As long as the longest, but not so long that one by itself makes all others short. */
function scaleOf(list: readonly PastUse[]): Millis {
  const ends = list.flatMap(({ parts }) => parts.at(-1)?.to ?? []).sort((a, b) => a - b);
  const middle = ends[Math.floor(ends.length / 2)] ?? 0;
  return Math.max(1000, Math.min(ends.at(-1) ?? 0, 6 * middle)) as Millis;
}

const TICKS_MOST = 6;
const TICK_STEPS = [1, 2, 5, 10, 30, 60, 120, 300, 600, 1800, 3600, 7200, 14_400, 43_200, 86_400];

function ticksOf(scale: Millis): readonly Millis[] {
  const step = 1000 * (TICK_STEPS.find((one) => scale / (1000 * one) < TICKS_MOST + 1) ?? 7 * 86_400);
  return Array.from(
    { length: Math.min(TICKS_MOST, Math.floor(scale / step)) },
    (_, n) => ((n + 1) * step) as Millis,
  );
}

/** Whether what follows a use may still come: its stop is open, or its output pause. */
function goesOn({ stop }: Use): boolean {
  return stop !== undefined && (stop.end === null || (stop.endSeen && stop.lost === null));
}

function isBound({ line }: LineIndex, role: 'enabling' | 'muting'): boolean {
  return line.signals.some((signal) => signal.role === role);
}
