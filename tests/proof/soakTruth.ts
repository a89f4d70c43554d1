import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readLineFile } from '../../gateway/binding/binding.ts';
import { startLiveLine } from '../../gateway/live/liveLine.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { byLineTime, type Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import type { LedgerEntry } from '../../simulator/ledger/entries.ts';
import { type Ledger, ledgerOf, momentOf, readLedger } from '../../simulator/ledger/ledger.ts';
import type { FaultedRun } from '../faults/faultedRun.ts';
import { type Judgement, judge } from '../faults/judge.ts';
import type { Outage } from './soakOutages.ts';

export interface Truth extends Judgement {
  readonly changes: number;
  /** Outages after which the line is unknown for a while, and those after which nothing is missing. */
  readonly gaps: number;
  readonly whole: number;
}

/**
 * What a folder's tape says up to `ends`, held against the simulator's ledger beside it; and whether a gateway that starts
 * on this tape has the state that its changes give in line time. `start`: where the outages' times count from.
 */
export async function truthOf(
  folder: string,
  outages: readonly Outage[],
  { start, ends }: { readonly start: Instant; readonly ends: Instant },
): Promise<Truth> {
  const { line } = await readLineFile(join(folder, 'line.yaml'));
  const { changes, resumed } = await tapeOf(join(folder, 'data'), line);
  const begins = firstCount(line, changes);
  const told = new LineFold(line);
  const past = changes.filter(({ at }) => at < ends);
  const events = told.take(past).filter((event) => event.kind !== 'StopEnded' || event.stop.begin > begins);
  const entries = readLedger(readFileSync(join(folder, 'ledger'), 'utf8'));
  const run: FaultedRun = {
    line,
    ledger: stretchOf(entries, begins, ends),
    fold: told,
    events,
    changes: past,
    to: ends,
  };
  const judged = judge(run, outages, start);
  const whole = new LineFold(line);
  whole.take(changes);
  const wrong = whole.text() === resumed ? [] : ['a restart gives another state than the whole tape'];
  const links = changes.filter(({ signal, at }) => line.signals[signal]?.role === 'link' && at < ends);
  const unknown = told.state.shift.gaps.filter(({ kind }) => kind === 'unknown').length;
  const earlier = events.flatMap((event) => (event.kind === 'ShiftEnded' ? event.record.gaps : []));
  return {
    ...judged,
    wrong: [...judged.wrong, ...wrong],
    changes: changes.length,
    gaps: unknown + earlier.filter(({ kind }) => kind === 'unknown').length,
    whole: links.filter(({ value }) => value === 'whole').length,
  };
}

/** All of a tape in line time, and the state with which a gateway resumes on it. */
async function tapeOf(data: string, line: Line): Promise<{ changes: readonly Change[]; resumed: string }> {
  const tape = await openSqliteTape(data, new Map([[line.id, line.signals]]));
  const changes: Change[] = [];
  for await (const some of tape.read(line.id, 0, tape.end(line.id))) changes.push(...some);
  const live = await startLiveLine({
    line,
    tape,
    now: () => Date.now(),
    speed: 1,
    outside: () => ({ servers: [] }),
    told: () => {},
  });
  const resumed = live.fold().text();
  await tape.close();
  return { changes: changes.sort(byLineTime), resumed };
}

/** Good cartons are counted from the first reading of their counter on. */
function firstCount(line: Line, changes: readonly Change[]): Instant {
  const first = changes.find(({ signal }) => line.signals[signal]?.role === 'goodCount');
  if (!first) throw new Error('The gateway heard no count of good cartons');
  return first.at;
}

/** The ledger of a stretch: what began in it, and what ended after it as if it had not ended. */
function stretchOf(entries: readonly LedgerEntry[], begins: Instant, ends: Instant): Ledger {
  const within = (at: Instant) => at < ends;
  const kept = entries.filter(
    (entry) => entry.kind === 'start' || (momentOf(entry) > begins && momentOf(entry) < ends),
  );
  return ledgerOf(
    kept.map((entry) => {
      if (entry.kind !== 'stop' || entry.end === undefined || within(entry.end)) return entry;
      const { end: _end, ...open } = entry;
      return open;
    }),
  );
}
