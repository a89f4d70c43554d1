import type { CreepRecord } from '../fold/creep.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { ChangeoverRecord, FoldState, StopRecord } from '../fold/state.ts';
import { placedNow } from '../past/causeNow.ts';
import type { Learned } from '../past/setPointsPast.ts';
import { gainedBetween } from '../past/stationCounts.ts';
import type { SetAt } from '../setpoints/history.ts';
import { standingNow } from '../setpoints/standing.ts';
import type { Instant } from '../units/units.ts';
import type { Symptom, SymptomKnowledge } from './symptoms.ts';
import type { AdjustmentKnown, Cell, Happening, Move, ReasonUsual, Troubled } from './troubled.ts';

/** One whole run of the size before this one, by reason. */
export interface EarlierRun {
  readonly cartons: number;
  readonly rejects: ReadonlyMap<string, number>;
  readonly stops: ReadonlyMap<number, number>;
}

export interface TroubledAsked {
  readonly index: LineIndex;
  readonly state: Readonly<FoldState>;
  readonly knowledge: SymptomKnowledge;
  readonly station: string;
  /** The run that goes on: when its size began, and now. */
  readonly from: Instant;
  readonly to: Instant;
  readonly changeover: ChangeoverRecord | undefined;
  /** Tallies by minute of the run, the oldest first, the one at its beginning among them. */
  readonly minutes: readonly { readonly at: Instant; readonly tally: readonly number[] }[];
  readonly stops: readonly StopRecord[];
  readonly earlier: readonly EarlierRun[];
  readonly histories: ReadonlyMap<string, readonly SetAt[]>;
  readonly learned: ReadonlyMap<string, Learned>;
  readonly looks: readonly { readonly at: Instant; readonly symptom: Symptom }[];
  /** Lots and parts that came, as people said. */
  readonly fitted: readonly Happening[];
}

/** The run in so many stretches at most. */
const CELLS_MOST = 40;
/** A reason that was never seen is taken to come once in as many cartons as were. */
const NEVER_SEEN = 0.5;
/** Standard deviations on either side of a range that holds nine of ten (normal distribution). */
const NINE_OF_TEN = 1.645;

/** [DG8] All that is known of a station in the run that goes on, as a diagnosis is made of it. Undefined without an earlier run. */
export function troubledNow(asked: TroubledAsked): Troubled | undefined {
  const { index, station, earlier, changeover, looks } = asked;
  const cartons = earlier.reduce((sum, run) => sum + run.cartons, 0);
  if (cartons === 0) return undefined;
  const reasons = reasonsOf(asked, cartons);
  const symptoms = new Map<Symptom, number>();
  for (const { symptom } of looks) symptoms.set(symptom, (symptoms.get(symptom) ?? 0) + 1);
  const acting = new Set(
    asked.knowledge.adjustments
      .filter(({ stations }) => stations.includes(station))
      .map(({ number }) => number),
  );
  return {
    station,
    reasons,
    cells: cellsOf(asked, reasons),
    began: changeover?.kind,
    alike: alikeOf(asked, reasons),
    symptoms,
    adjustments: index.line.adjustments
      .filter(
        ({ number, station: own, actsOn }) =>
          own === station || actsOn?.includes(station) || acting.has(number),
      )
      .map(({ number }) => adjustmentKnown(asked, number)),
    happenings: [...asked.fitted, ...jamsOf(asked)].sort((a, b) => a.at - b.at),
  };
}

/** Every reject reason, and every stop of a machine's own: whose they are the symptoms say. */
function reasonsOf({ index: { line }, earlier }: TroubledAsked, cartons: number): readonly ReasonUsual[] {
  const usual = (count: number) => Math.max(count, NEVER_SEEN) / cartons;
  const sum = (of: (run: EarlierRun) => number | undefined) =>
    usual(earlier.reduce((total, run) => total + (of(run) ?? 0), 0));
  return [
    ...line.rejects
      .filter(({ means }) => means === 'reject')
      .map(
        ({ id, station }): ReasonUsual => ({
          kind: 'reject',
          id,
          station,
          usual: sum((run) => run.rejects.get(id)),
        }),
      ),
    ...line.reasons
      .filter(({ kind }) => kind === 'machine')
      .map(
        ({ number, station }): ReasonUsual => ({
          kind: 'stop',
          id: number,
          station,
          usual: sum((run) => run.stops.get(number)),
        }),
      ),
  ];
}

function cellsOf({ index, minutes, stops }: TroubledAsked, reasons: readonly ReasonUsual[]): readonly Cell[] {
  // while it is set up nothing is made that could tell anything
  const first = minutes.findIndex(
    ({ tally }, place) => place > 0 && rejectsIn(index, gainedBetween(minutes[0]!.tally, tally)).cartons > 0,
  );
  const made = first < 0 ? [] : minutes.slice(first - 1);
  const per = Math.max(1, Math.ceil((made.length - 1) / CELLS_MOST));
  const cells: Cell[] = [];
  for (let place = 0; place + 1 < made.length; place += per) {
    const [begin, end] = [made[place]!, made[Math.min(place + per, made.length - 1)]!];
    const gained = gainedBetween(begin.tally, end.tally);
    const { rejects, cartons } = rejectsIn(index, gained);
    const own = ownStops(stops, begin.at, end.at);
    cells.push({
      from: begin.at,
      to: end.at,
      cartons,
      counts: reasons.map(({ kind, id }) =>
        kind === 'reject' ? (rejects.get(String(id)) ?? 0) : (own.get(Number(id)) ?? 0),
      ),
    });
  }
  return cells;
}

/** What some of the tallied signals gained: rejects by reason, and cartons at discharge. */
export function rejectsIn(
  { line, tallied }: LineIndex,
  gained: readonly number[],
): { readonly rejects: ReadonlyMap<string, number>; readonly cartons: number } {
  const rejects = new Map<string, number>();
  let cartons = 0;
  tallied.forEach((signal, place) => {
    const { role, of } = line.signals[signal]!;
    const count = Math.max(0, gained[place] ?? 0);
    if (role === 'rejectCount' || role === 'goodCount') cartons += count;
    if (role === 'rejectCount' && of !== undefined) rejects.set(of, (rejects.get(of) ?? 0) + count);
  });
  return { rejects, cartons };
}

/** First tries of the machine's own stops, by reason. */
export function ownStops(
  stops: readonly StopRecord[],
  from: Instant,
  to: Instant,
): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  for (const stop of stops) {
    if (stop.begin < from || stop.begin >= to || stop.attempt > 1 || placedNow(stop).kind !== 'machine')
      continue;
    counts.set(stop.reason, (counts.get(stop.reason) ?? 0) + 1);
  }
  return counts;
}

/** The shape of the gamma distribution of the runs' levels, by moments; undefined below three runs, or where they are more alike than by chance. */
function alikeOf(
  { earlier, station, index: { line } }: TroubledAsked,
  reasons: readonly ReasonUsual[],
): number | undefined {
  const own = reasons.filter((reason) => {
    if (reason.station === station) return true;
    return (
      reason.kind === 'reject' && line.rejects.find(({ id }) => id === reason.id)?.from?.includes(station)
    );
  });
  const usual = own.reduce((sum, reason) => sum + reason.usual, 0);
  const seen = earlier.filter(({ cartons }) => cartons * usual >= 3);
  if (seen.length < 3) return undefined;
  let [over, weight] = [0, 0];
  for (const run of seen) {
    const expected = run.cartons * usual;
    const count = own.reduce(
      (sum, { kind, id }) =>
        sum + ((kind === 'reject' ? run.rejects.get(String(id)) : run.stops.get(Number(id))) ?? 0),
      0,
    );
    // variance of a count: its mean, and the mean squared over the shape
    over += (count - expected) ** 2 - expected;
    weight += expected ** 2;
  }
  return over > 0 ? weight / over : undefined;
}

function adjustmentKnown(asked: TroubledAsked, number: string): AdjustmentKnown {
  const { index, state, learned, histories } = asked;
  const standing = standingNow(index, state, { number });
  const known = learned.get(number);
  const hasSensor = index.line.signals.some(({ role, of }) => role === 'adjustment' && of === number);
  const creep = state.creeps.find(({ adjustment }) => adjustment === number);
  return {
    number,
    hasSensor,
    reading:
      standing && !standing.beforeSize
        ? {
            // the trouble came while it stood where it was found
            value: standing.found ?? standing.value,
            ...(standing.found === undefined ? {} : { put: standing.value }),
            known:
              standing.how === 'sensor' || standing.how === 'uncertain'
                ? 'sensor'
                : standing.how === 'confirmed'
                  ? 'confirmed'
                  : 'typed',
            since: standing.at,
          }
        : undefined,
    best:
      known?.recommended === undefined || !known.likely
        ? undefined
        : {
            value: known.recommended,
            sd: Math.max(1e-6, (known.likely.to - known.likely.from) / (2 * NINE_OF_TEN)),
          },
    cost: costOf(known),
    moves: movesOf(asked, histories.get(number) ?? [], creep),
  };
}

/** Rejects and stops more in 1,000 cartons for each squared unit, by what the runs taught of its ends. */
function costOf(known: Learned | undefined): AdjustmentKnown['cost'] {
  if (known?.recommended === undefined || known.cost.length < 2) return undefined;
  const { recommended, cost } = known;
  const total = (one: (typeof cost)[number]) => one.rejectsPerThousand + one.stopsPerThousand;
  const least = cost.reduce((best, one) => (total(one) < total(best) ? one : best));
  const slopes = cost.flatMap((one) => {
    const off = one.at - recommended;
    if (off === 0) return [];
    const square = off * off;
    return [
      {
        perSquare: Math.max(0, (total(one) - total(least)) / square),
        sd: (one.high - one.low) / (2 * NINE_OF_TEN * square),
        weight: square,
      },
    ];
  });
  const weight = slopes.reduce((sum, one) => sum + one.weight, 0);
  if (weight === 0) return undefined;
  const mean = (of: (one: (typeof slopes)[number]) => number) =>
    slopes.reduce((sum, one) => sum + one.weight * of(one), 0) / weight;
  return {
    perSquare: mean((one) => one.perSquare),
    sd: Math.max(
      1e-6,
      mean((one) => one.sd),
    ),
  };
}

function movesOf(
  { from, changeover }: TroubledAsked,
  history: readonly SetAt[],
  creep: CreepRecord | undefined,
): readonly Move[] {
  const since = Math.min(from, changeover?.begin ?? from);
  const until = changeover?.atRate ?? changeover?.end ?? from;
  return history.flatMap(({ at, value }, place): readonly Move[] => {
    if (at < since || value === undefined) return [];
    const before = history[place - 1]?.value;
    if (before === value) return [];
    const crept = creep !== undefined && at >= creep.since;
    return [{ at, from: before, to: value, by: at <= until ? 'changeover' : crept ? 'drift' : 'hand' }];
  });
}

/** A crash may knock a guide: the station's own stops in this run. */
function jamsOf({ stops, station, from }: TroubledAsked): readonly Happening[] {
  return stops.flatMap((stop) => {
    const { station: at, kind } = placedNow(stop);
    if (at !== station || kind !== 'machine' || stop.begin < from || stop.attempt > 1) return [];
    return [{ kind: 'jam' as const, at: stop.begin, name: undefined }];
  });
}
