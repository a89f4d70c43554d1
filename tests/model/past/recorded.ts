import { LineFold } from '../../../model/fold/fold.ts';
import type { Line } from '../../../model/line/line.ts';
import { type RecordBodies, type RecordKind, recordSteps } from '../../../model/records/records.ts';
import type { Instant } from '../../../model/units/units.ts';
import { changes, type Rows } from '../smallLine.ts';

/** A line's fold after some rows, and the records that were kept of them, the oldest first. */
export function recorded(line: Line, rows: Rows) {
  const fold = new LineFold(line);
  const records = new Map<string, { kind: RecordKind; at: Instant; body: unknown }>();
  for (const step of recordSteps(fold.take(changes(line, rows)), fold.state))
    if (step.kind === 'put')
      records.set(`${step.record.kind} ${step.record.at} ${step.record.id}`, step.record);
  const of = <Kind extends RecordKind>(kind: Kind) =>
    [...records.values()]
      .filter((record) => record.kind === kind)
      .sort((a, b) => a.at - b.at)
      .map(({ body }) => body as RecordBodies[Kind]);
  /** What each counter had counted by the end of the last minute up to a moment. */
  const tallyAt = (moment: Instant): readonly number[] =>
    of('minute').findLast(({ at }) => at <= moment)?.tally ?? [];
  return { fold, of, tallyAt };
}
