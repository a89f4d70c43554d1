import type { Line } from '../../model/line/line.ts';
import type { StopEntry } from './entries.ts';
import type { Ledger } from './ledger.ts';

/** A stop as a try within its episode (ST5), the first being 1. */
export interface Attempt {
  readonly stop: StopEntry;
  readonly attempt: number;
}

/**
 * Stops as ST5 joins them: a machine's own stop at the station of the stop before it, with no more cartons at the
 * discharge check since restart than the line file's limit. The ledger's own `attempt` says what the machine knows,
 * that a jam really came of an earlier one; the two need not agree.
 */
export function attemptsOf(ledger: Ledger, line: Line): Attempt[] {
  const cartons = ledger.cartons.filter(({ fate, mode }) => fate !== 'crushed' && mode === 'produce');
  const attempts: Attempt[] = [];
  for (const stop of ledger.stops) {
    const before = attempts.at(-1);
    const restarted = before?.stop.end;
    const sameStation =
      before !== undefined && stop.station !== undefined && before.stop.station === stop.station;
    const again =
      sameStation &&
      stop.stopKind === 'machine' &&
      restarted !== undefined &&
      cartons.filter(({ at }) => at > restarted && at < stop.begin).length <= line.settings.rejamCartons;
    attempts.push({ stop, attempt: again ? before.attempt + 1 : 1 });
  }
  return attempts;
}
