import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { usesBefore } from '../../../gateway/api/pastUses.ts';
import { openRecords, type Records } from '../../../gateway/records/records.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { LineIndex } from '../../../model/fold/lineIndex.ts';
import type { Line } from '../../../model/line/line.ts';
import { type Use, usesOf } from '../../../model/past/uses.ts';
import { type RecordBodies, type RecordKind, recordSteps } from '../../../model/records/records.ts';
import { byLineTime } from '../../../model/signals/signals.ts';
import type { Instant } from '../../../model/units/units.ts';
import { at, boundSignals, changes, type Rows, running, smallLine } from '../../model/smallLine.ts';

const lines = {
  'a line with a state tag': smallLine(),
  'a line known from its cycles alone': smallLine(
    {},
    boundSignals.filter(({ role }) => role !== 'state'),
  ),
  'a line with a heartbeat': smallLine({
    settings: { ...smallLine().settings, heartbeatSeconds: 40 },
  }),
};

const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-uses-'));
let records: Records;
beforeAll(() => {
  records = openRecords(folder);
});
afterAll(() => {
  records.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Steps of some tenths to some hours, over two days: close together, and far beyond what is looked at around a use. */
const wait = fc.oneof(
  fc.constantFrom(0.01, 0.02, 0.03, 1, 2.5, 6, 9.99, 15),
  fc.integer({ min: 16, max: 8000 }),
);
const told = fc.oneof(
  { weight: 6, arbitrary: fc.tuple(fc.constant('door'), fc.boolean()) },
  { weight: 3, arbitrary: fc.tuple(fc.constantFrom('panel', 'circuit'), fc.boolean()) },
  { weight: 4, arbitrary: fc.tuple(fc.constant('state'), fc.constantFrom(6, 6, 11, 8, 2)) },
  { weight: 2, arbitrary: fc.tuple(fc.constant('reason'), fc.constantFrom(0, 51, 301, 202)) },
  { weight: 3, arbitrary: fc.tuple(fc.constant('cycles'), fc.integer({ min: 1, max: 50 })) },
  { weight: 1, arbitrary: fc.tuple(fc.constant('panelCount'), fc.integer({ min: 1, max: 3 })) },
  { weight: 2, arbitrary: fc.tuple(fc.constant('link'), fc.constantFrom(true, false)) },
);
const run = fc
  .array(fc.tuple(wait, told, fc.constantFrom(0, 0, 0, 0.005, 3, 30)), { minLength: 5, maxLength: 120 })
  .map((steps): Rows => {
    let now = 1;
    const count: Record<string, number> = { cycles: 0, panelCount: 0 };
    return [
      ...running(),
      ...steps.map(([after, [signal, value], late]): Rows[number] => {
        now += after;
        const sum = count[signal];
        if (sum === undefined) return [Math.max(0.5, now - late), signal, value];
        count[signal] = sum + (value as number);
        return [now, signal, count[signal]];
      }),
    ];
  });

/** The records of a run that is told in pieces, as a gateway keeps them; it is asked after each piece. */
function keep(line: Line, rows: Rows, inOrder: boolean, ask: (index: LineIndex) => void) {
  const bound = new Set(line.signals.map(({ id }) => id));
  const all = changes(
    line,
    rows.filter(([, signal]) => bound.has(signal)),
  );
  if (inOrder) all.sort(byLineTime);
  const fold = new LineFold(line);
  const edition = records.begin(line.id, 'one');
  records.serve(line.id, edition);
  for (let from = 0; from < all.length; from += 7) {
    records.write(edition, recordSteps(fold.take(all.slice(from, from + 7)), fold.state), from);
    ask(fold.index);
  }
  return fold.index;
}

const seen = ({ of, kind, at: when, owned, role }: Use) => ({ of, kind, at: when, owned, role });

/** Of each device and guard the last use, and the last with which the line ran. */
function lastOf(uses: readonly Use[], line: Line) {
  return [...line.devices, ...line.guards].map(({ id }) => {
    const own = uses.filter(({ of }) => of === id);
    return [own.at(-1), own.findLast(({ role }) => role !== 'during')].map((use) => use && seen(use));
  });
}

function everything(line: Line) {
  const all = <Kind extends RecordKind>(kind: Kind): RecordBodies[Kind][] =>
    records.ask({ line: line.id, kind, from: 0 as Instant, to: Number.MAX_SAFE_INTEGER as Instant });
  return { stops: all('stop'), presses: all('press'), guards: all('guard'), gaps: all('gap') };
}

describe('what each device and guard did last before a moment, looked up by its subject', () => {
  it.each(
    Object.entries(lines).flatMap(([name, line]) => [
      [name, 'in order', line] as const,
      [name, 'late', line] as const,
    ]),
  )('is what all records say, of %s told %s', (_name, how, line) => {
    fc.assert(
      fc.property(run, fc.array(fc.integer({ min: 0, max: 200_000 }), { maxLength: 6 }), (rows, some) => {
        const moments = [...some, 1_000_000].map(at);
        // what is remembered of an answer is not what is said once more was told
        const index = keep(line, rows, how === 'in order', (known) => {
          for (const moment of moments) usesBefore(records, known, moment);
        });
        const uses = usesOf(index, everything(line));
        for (const moment of moments) {
          const whole = uses.filter((use) => use.at < moment);
          expect(lastOf(usesBefore(records, index, moment), line)).toEqual(lastOf(whole, line));
        }
      }),
      { numRuns: 100 },
    );
  });
});
