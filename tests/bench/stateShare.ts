import { join } from 'node:path';
import { Checkpoints, LASTING_EVERY } from '../../gateway/tape/checkpoints.ts';
import { openDatabase, statement } from '../../gateway/tape/database.ts';
import { prepare } from '../../gateway/tape/schema.ts';
import { divide, seal } from '../../gateway/tape/segments.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Change } from '../../model/signals/signals.ts';
import { HOUR, type Instant } from '../../model/units/units.ts';
import { runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { inMilliseconds } from '../model/tape/shift/shift.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';

/** States are as large as they get when some days lie behind them: told is what the last of them take. */
const HOURS = 96;
const TOLD_HOURS = 48;

/** What saved states take beside the segments of the same time, of the bundled line after some days. */
export function stateShare(folder: string): Record<string, number> {
  const bound = boundLine();
  const { line } = bound;
  const database = openDatabase(join(folder, 'states.sqlite'));
  prepare(database);
  const states = new Checkpoints(database);
  const machine = startMachine({ seed: 1, start: monday });
  const fold = new LineFold(line);
  const told: Change[] = [];
  let position = 0;
  const many = (HOURS * HOUR) / LASTING_EVERY;
  for (let place = 1; place <= many; place += 1) {
    const changes = changesOf(bound, runUntil(machine, (monday + place * LASTING_EVERY) as Instant));
    takeEntries(machine);
    fold.take(changes);
    position += changes.length;
    states.keep(1, { position, version: '1', body: JSON.stringify(fold.save()) });
    if (place * LASTING_EVERY > (HOURS - TOLD_HOURS) * HOUR) for (const change of changes) told.push(change);
  }
  const from = position - told.length;
  const bytes = statement<[number], number>(
    database,
    'SELECT sum(length(body)) FROM checkpoint WHERE position > ?',
  )
    .pluck()
    .get(from)!;
  const kept = states.positions(1, '1', from + 1, position + 1).length;
  database.close();
  return {
    checkpointShare: bytes / sealedBytes(received(told)),
    checkpointShareMs: bytes / sealedBytes(inMilliseconds(received(told))),
    bytesPerCheckpoint: Math.round(bytes / kept),
    stateCharacters: JSON.stringify(fold.save()).length,
  };
}

export function sealedBytes(changes: readonly Change[]): number {
  const { sealed, rest } = divide([], changes);
  return [...sealed, rest].reduce((total, segment) => total + seal(segment).length, 0);
}

/** As publishes of 250 ms bring them. */
function received(changes: readonly Change[]): Change[] {
  const PUBLISH = 2_500_000;
  return changes.map((change) => ({
    ...change,
    received: ((Math.floor(change.at / PUBLISH) + 1) * PUBLISH + 10_000) as Instant,
  }));
}
