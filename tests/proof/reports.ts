import { indexOf } from '../../model/fold/lineIndex.ts';
import { type ReportStation, reportStations, type SizeShare } from '../../model/report/reportStations.ts';
import { fastRuns } from '../../simulator/fast/fast.ts';
import type { FastMinute, FastRun } from '../../simulator/fast/line.ts';
import { type FastFault, SHIFT_SECONDS } from '../../simulator/fast/options.ts';
import { boundLine } from '../simulator/simulatedLine.ts';
import { families, faults } from './normal.ts';

/** Shift reports of one simulated line: in how many a station was named that is in order, or that is not. */
export interface ReportsRow {
  readonly proof: 'reports';
  readonly kind: 'order' | 'fault';
  readonly levels: keyof typeof families;
  readonly fault: keyof typeof faults | null;
  readonly seed: number;
  /** Reports in which every size that ran had a past that is long enough. */
  readonly reports: number;
  /** Of these, how many named a station that is in order. */
  readonly falsely: number;
  /** Whole shifts with the fault whose report named its station, and how many there were. */
  readonly found: number;
  readonly faulty: number;
  /** In each report stations add up to what the line's minutes brought. */
  readonly equal: boolean;
}

export const REPORT_SEEDS = 12;
export const REPORT_SHIFTS = 120;
/** So far back a report's past goes, as the gateway asks: 60 days of three shifts. */
const PAST_SHIFTS = 180;
const FAULTY_FROM = 60;
const FAULTS = ['threeTimesAsMany', 'badLot'] as const;

const { line } = boundLine();
const index = indexOf(line);

export function* reports(): Generator<ReportsRow> {
  for (const levels of Object.keys(families) as (keyof typeof families)[])
    for (let seed = 1; seed <= REPORT_SEEDS; seed += 1) yield reportsRow(levels, null, seed);
  for (const fault of FAULTS)
    for (let seed = 1; seed <= REPORT_SEEDS; seed += 1) yield reportsRow('logNormal', fault, seed);
}

export function reportsRow(
  levels: keyof typeof families,
  name: keyof typeof faults | null,
  seed: number,
): ReportsRow {
  const fault: FastFault | undefined = name === null ? undefined : faults[name](FAULTY_FROM * SHIFT_SECONDS);
  const runs = runsUntil(REPORT_SHIFTS * SHIFT_SECONDS, {
    seed: 11_000 + seed,
    levels: families[levels],
    ...(fault ? { fault } : {}),
  });
  const sums = { reports: 0, falsely: 0, found: 0, faulty: 0 };
  let equal = true;
  for (let shift = 1; shift < REPORT_SHIFTS; shift += 1) {
    const shares = sharesOf(runs, shift);
    const stations = reportStations(index, shares);
    // a past that is too short to say anything says nothing false
    if (shares.length === 0 || stations.some(({ kind, usual }) => kind !== undefined && usual === undefined))
      continue;
    equal &&= addsUp(runs, shift, stations);
    const named = stations.filter(({ more }) => more).map(({ id }) => id);
    // from when on it is there, the station with the fault is not in order, and its own past is spoiled
    const there = fault !== undefined && shift >= FAULTY_FROM;
    sums.reports += 1;
    if (named.some((id) => !there || id !== fault.station)) sums.falsely += 1;
    if (!there || shift > FAULTY_FROM + 2) continue;
    sums.faulty += 1;
    if (named.includes(fault.station)) sums.found += 1;
  }
  return {
    proof: 'reports',
    kind: fault ? 'fault' : 'order',
    levels,
    fault: name,
    seed,
    ...sums,
    equal: equal && sums.reports > 0,
  };
}

/** By another way than a report goes: minute by minute, without the line's counters. */
function addsUp(runs: readonly Counted[], shift: number, stations: readonly ReportStation[]): boolean {
  const [from, to] = [shift * SHIFT_SECONDS, (shift + 1) * SHIFT_SECONDS];
  const brought = runs
    .flatMap(({ run }) => run.minutes.filter(({ at }) => at > from && at <= to))
    .reduce(
      (sum, { missed, rejects }) => sum + missed + Object.values(rejects).reduce((all, one) => all + one),
      0,
    );
  const told = stations.reduce((sum, { counted }) => sum + counted, 0);
  return told === brought;
}

/** A run, and what each minute of it brought, added up from the run's beginning. */
interface Counted {
  readonly run: FastRun;
  readonly sums: readonly (readonly number[])[];
}

function runsUntil(end: number, options: Parameters<typeof fastRuns>[0]): readonly Counted[] {
  const runs: Counted[] = [];
  for (const run of fastRuns(options)) {
    runs.push({ run, sums: summed(run.minutes) });
    if (run.to >= end) return runs;
  }
  return runs;
}

function summed(minutes: readonly FastMinute[]): readonly (readonly number[])[] {
  let sum: readonly number[] = index.tallied.map(() => 0);
  return [
    sum,
    ...minutes.map((minute) => {
      sum = sum.map((before, place) => before + gainOf(minute, place));
      return sum;
    }),
  ];
}

/** What a minute added to one of the line's counters. */
function gainOf({ good, missed, rejects }: FastMinute, place: number): number {
  const { role, of } = line.signals[index.tallied[place]!]!;
  if (role === 'goodCount') return good;
  if (role === 'missedPickCount') return missed;
  return role === 'rejectCount' ? (rejects[of as keyof typeof rejects] ?? 0) : 0;
}

/** What each size brought in a shift, and in the runs with it before, as the gateway cuts them. */
function sharesOf(runs: readonly Counted[], shift: number): readonly SizeShare[] {
  const [from, to] = [shift * SHIFT_SECONDS, (shift + 1) * SHIFT_SECONDS];
  const since = from - PAST_SHIFTS * SHIFT_SECONDS;
  const now = new Map<string, readonly number[]>();
  for (const one of runs) {
    const gained = gainedIn(one, from, to);
    const sum = now.get(one.run.size);
    if (gained.some((count) => count > 0))
      now.set(one.run.size, sum ? gained.map((count, place) => count + sum[place]!) : gained);
  }
  return [...now].map(([size, gained]) => ({
    size,
    gained,
    earlier: runs
      .filter(({ run }) => run.size === size && run.from < from)
      .map((one) => gainedIn(one, since, from)),
  }));
}

function gainedIn({ run, sums }: Counted, from: number, to: number): readonly number[] {
  const upTo = (moment: number) => sums[run.minutes.filter(({ at }) => at <= moment).length]!;
  const [before, after] = [upTo(from), upTo(to)];
  return after.map((count, place) => count - before[place]!);
}
