import type { LineIndex } from '../fold/lineIndex.ts';
import type { PressRecord, StopRecord } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import { between, type Instant, seconds } from '../units/units.ts';

type Guard = RecordBodies['guard'];
type Gap = RecordBodies['gap'];

/**
 * One use of a stop device or a guard: a press, or an opening. `noStop`: the line ran, and no stop came with it.
 * `owned` is false where nobody saw the moment: only its twin counted it, or it was found so.
 */
export interface Use {
  readonly id: string;
  /** Id of the device or guard. */
  readonly of: string;
  readonly kind: 'pressed' | 'opened';
  readonly at: Instant;
  readonly owned: boolean;
  readonly role: 'caused' | 'during' | 'uncertain' | 'noStop';
  /** Unlatched, or closed. */
  readonly released: Instant | null;
  /** Not kept of guards. */
  readonly reset: Instant | null;
  readonly restarted: Instant | null;
  readonly firstGood: Instant | null;
  readonly stop: StopRecord | undefined;
  /** Which button of a circuit a person says it was. */
  readonly candidate: string | null;
}

export interface UseSum {
  readonly uses: number;
  readonly caused: number;
  readonly during: number;
  readonly uncertain: number;
  readonly noStop: number;
}

/** What uses are made of: records, each list the oldest first. */
export interface UseRecords {
  readonly stops: readonly StopRecord[];
  readonly presses: readonly PressRecord[];
  readonly guards: readonly Guard[];
  readonly gaps: readonly Gap[];
}

/** A value is read again so soon after nobody was looking: what it says then happened at no known moment. */
const READ_AGAIN = seconds(2);
/** How far from an opening a stop that comes of it may begin. */
const FOLLOWS = seconds(10);

/** All presses and openings that records tell of, the oldest first. */
export function usesOf(index: LineIndex, records: UseRecords): readonly Use[] {
  return [...pressed(index, records), ...opened(index, records)].sort(
    (a, b) => a.at - b.at || a.id.localeCompare(b.id),
  );
}

export function sumOf(uses: readonly Use[]): UseSum {
  const of = (role: Use['role']) => uses.filter((use) => use.role === role).length;
  return {
    uses: uses.length,
    caused: of('caused'),
    during: of('during'),
    uncertain: of('uncertain'),
    noStop: of('noStop'),
  };
}

function pressed(index: LineIndex, { presses, stops }: UseRecords): Use[] {
  const stopById = new Map(stops.map((stop) => [stop.id, stop]));
  return presses.map((press) => {
    const told = stopById.get(press.stop ?? '');
    // until it is released its record does not name the stop that came of it
    const cameOfIt = press.role === 'caused' && press.stop === null;
    const stop = told ?? (cameOfIt ? stopOf(stops, press.pressed, press.released) : undefined);
    return {
      id: press.id,
      of: index.line.devices[press.device]?.id ?? '',
      kind: 'pressed',
      at: press.pressed,
      owned: press.known === 'edge',
      role: cameOfIt ? roleOf(index, press.pressed, stop, false) : press.role,
      released: press.known === 'count' ? null : press.released,
      reset: press.reset,
      restarted: press.restarted,
      firstGood: press.firstGood,
      stop,
      candidate: press.candidate,
    };
  });
}

/** An opening is a guard read open after it was read closed; read open at the first look, its moment is nobody's. */
function opened(index: LineIndex, records: UseRecords): Use[] {
  const uses: Use[] = [];
  for (const { id } of index.line.guards) {
    const moves = records.guards.filter(({ guard }) => guard === id);
    for (const [place, { at, open }] of moves.entries()) {
      const before = moves[place - 1];
      if (!open || before?.open) continue;
      const owned = before !== undefined && !readAgain(records.gaps, at);
      uses.push(openingOf(index, records, { id, at, owned, closed: closedAfter(moves, place) }));
    }
  }
  return uses;
}

function closedAfter(moves: readonly Guard[], place: number): Instant | null {
  for (let next = place + 1; next < moves.length; next += 1) if (!moves[next]!.open) return moves[next]!.at;
  return null;
}

function openingOf(
  index: LineIndex,
  { stops, presses, gaps }: UseRecords,
  opening: {
    readonly id: string;
    readonly at: Instant;
    readonly owned: boolean;
    readonly closed: Instant | null;
  },
): Use {
  const { id, at, owned, closed } = opening;
  const stop = stopOf(stops, at, closed);
  const byPress = presses.some((press) => press.stop === stop?.id && press.role === 'caused');
  return {
    id: `guard-${id}-${at.toString(36)}`,
    of: id,
    kind: 'opened',
    at,
    owned,
    role: owned ? roleOf(index, at, stop, byPress) : 'uncertain',
    released: closed !== null && readAgain(gaps, closed) ? null : closed,
    reset: null,
    restarted: stop?.endSeen ? stop.end : null,
    firstGood: stop?.endSeen ? stop.firstGood : null,
    stop,
    candidate: null,
  };
}

/** The stop in which it was opened; else the one that began soon after, while it was still open. */
function stopOf(stops: readonly StopRecord[], at: Instant, closed: Instant | null): StopRecord | undefined {
  // one that ended unseen was the last that was known of the moment at which it is said to end
  const within = stops.findLast(
    ({ begin, end, endSeen }) => begin <= at && (end === null || at < end || (at === end && !endSeen)),
  );
  if (within) return within;
  const follows = stops.find(({ begin }) => begin > at);
  return follows && between(at, follows.begin) <= FOLLOWS && (closed === null || follows.begin <= closed)
    ? follows
    : undefined;
}

/** As with a press: it caused the stop only if the machine still produced; too close together, the order is not certain. */
function roleOf(index: LineIndex, at: Instant, stop: StopRecord | undefined, byPress: boolean): Use['role'] {
  if (!stop) return 'noStop';
  const apart = between(stop.begin, at);
  if (apart > index.orderCertain) return 'during';
  if (apart < -index.orderCertain) return 'caused';
  if (stop.kind === 'safety') return byPress ? 'uncertain' : 'caused';
  return stop.kind === null ? 'uncertain' : 'during';
}

function readAgain(gaps: readonly Gap[], at: Instant): boolean {
  return gaps.some(({ from, to }) => at > from && between(to, at) <= READ_AGAIN);
}
