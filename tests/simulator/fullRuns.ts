import { HOUR, type Instant, SECOND } from '../../model/units/units.ts';
import type { FastMinute, FastRun, FastStop } from '../../simulator/fast/line.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { monday } from './simulatedLine.ts';

/** Whole runs of the full simulator, in the shape in which the fast one tells its own. */
export function fullRuns(seed: number, hours: number): readonly FastRun[] {
  const machine = startMachine({ seed, start: monday });
  const minutes: { minute: FastMinute; size: string }[] = [];
  const stops: FastStop[] = [];
  for (let hour = 1; hour <= hours; hour += 1) {
    runUntil(machine, (monday + hour * HOUR) as Instant);
    for (const entry of takeEntries(machine)) tell(entry, minutes, stops);
  }
  return runsOf(minutes, stops).slice(0, -1);
}

const secondsAt = (at: Instant) => (at - monday) / SECOND;

function tell(entry: LedgerEntry, minutes: { minute: FastMinute; size: string }[], stops: FastStop[]): void {
  if (entry.kind === 'carton' && entry.mode === 'produce') {
    const minute = minuteOf(minutes, secondsAt(entry.at), entry.size);
    if (entry.fate === 'good') minute.good += 1;
    else if (entry.reason) minute.rejects[entry.reason] += 1;
  }
  if (entry.kind === 'missed' && entry.mode === 'produce') {
    const last = minutes.at(-1);
    if (last) minuteOf(minutes, secondsAt(entry.at), last.size).missed += 1;
  }
  if (entry.kind === 'stop' && entry.end !== undefined)
    stops.push({
      begin: secondsAt(entry.begin),
      end: secondsAt(entry.end),
      number: entry.number,
      kind: entry.truth === 'break' ? 'pause' : entry.stopKind,
      station: entry.station,
      attempt: entry.attempt,
    });
}

function minuteOf(minutes: { minute: FastMinute; size: string }[], now: number, size: string): FastMinute {
  const at = 60 * (1 + Math.floor(now / 60));
  const last = minutes.at(-1);
  if (last?.minute.at === at && last.size === size) return last.minute;
  const minute: FastMinute = {
    at,
    good: 0,
    missed: 0,
    rejects: { 'top-open': 0, 'bottom-open': 0, empty: 0, crushed: 0, code: 0 },
  };
  minutes.push({ minute, size });
  return minute;
}

function runsOf(
  minutes: readonly { minute: FastMinute; size: string }[],
  stops: readonly FastStop[],
): FastRun[] {
  const runs: { size: string; minutes: FastMinute[] }[] = [];
  for (const { minute, size } of minutes) {
    const last = runs.at(-1);
    if (last?.size === size) last.minutes.push(minute);
    else runs.push({ size, minutes: [minute] });
  }
  return runs.map((run) => {
    const [from, to] = [run.minutes[0]!.at - 60, run.minutes.at(-1)!.at];
    return { ...run, from, to, stops: stops.filter(({ begin }) => begin >= from && begin < to) };
  });
}
