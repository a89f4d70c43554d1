import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineError } from '../../../model/trouble/trouble.ts';
import { HOUR, MINUTE, SECOND, type Span } from '../../../model/units/units.ts';
import type { Fault, FaultBody } from '../../../simulator/faults/faults.ts';
import { faultsText, readFaults } from '../../../simulator/faults/language.ts';

const span = (most: number) => fc.integer({ min: 1, max: most }).map((ms) => ((ms * SECOND) / 1000) as Span);
const on = fc.constantFrom('Cartoner.State', 'Discharge.Good', 'Stop.main-panel');
const lasts = span(100_000_000);
const body: fc.Arbitrary<FaultBody> = fc.oneof(
  ...(['cut', 'dark', 'killed', 'download', 'still', 'frozen', 'stampless', 'twice', 'mixed'] as const).map(
    (kind) => fc.record({ kind: fc.constant(kind), lasts }),
  ),
  fc.record({ kind: fc.constant('reset' as const), on }),
  fc.record({ kind: fc.constant('corrected' as const), on, by: fc.integer({ min: -999, max: 999 }) }),
  fc.record({ kind: fc.constant('bad' as const), on, lasts, withValue: fc.boolean() }),
  fc.record({ kind: fc.constant('pulse' as const), on, lasts }),
  fc.record({
    kind: fc.constant('stepped' as const),
    by: fc.integer({ min: -3600, max: 3600 }).map((s) => (s * SECOND) as Span),
  }),
  fc.record({
    kind: fc.constant('queue' as const),
    size: fc.integer({ min: 1, max: 100 }),
    silent: fc.boolean(),
    lasts,
  }),
);

describe('the language of faults', () => {
  it('reads a time and a sentence, in any order, with remarks', () => {
    const text = `
      # a bad morning
      1:00:00 counter Discharge.Good reset
      0:12:30 link cut for 70 s   # longer than a queue
      0:20:00.250 value Cartoner.State bad with value for 2 min
      2:00:00 clock stepped by -1 h
      2:30:00 queues of 5 silent for 1 h
    `;
    expect(readFaults(text)).toEqual([
      { at: 12.5 * MINUTE, kind: 'cut', lasts: 70 * SECOND },
      { at: 20 * MINUTE + SECOND / 4, kind: 'bad', on: 'Cartoner.State', lasts: 2 * MINUTE, withValue: true },
      { at: HOUR, kind: 'reset', on: 'Discharge.Good' },
      { at: 2 * HOUR, kind: 'stepped', by: -HOUR },
      { at: 2.5 * HOUR, kind: 'queue', size: 5, silent: true, lasts: HOUR },
    ]);
  });

  it('writes what it reads', () => {
    const at = span(100_000_000);
    fc.assert(
      fc.property(fc.array(fc.tuple(at, body)), (rows) => {
        const faults = rows.map(([when, what]) => ({ at: when, ...what }) as Fault);
        const sorted = [...faults].sort((a, b) => a.at - b.at);
        expect(readFaults(faultsText(faults))).toEqual(sorted);
      }),
    );
  });

  it('names every line that it does not understand, and what there is', () => {
    const wrong = [
      '0:10 link cut for 1 s',
      '0:00:10 link cut',
      '0:00:10 link cut for 0 s',
      '0:00:10 link cut for 3 days',
    ];
    const right = '0:00:10 link cut for 3 s';
    try {
      readFaults([wrong[0], right, ...wrong.slice(1)].join('\n'));
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(LineError);
      expect((error as LineError).message).toContain('1, 3, 4, 5');
      expect((error as LineError).mend).toContain('link cut for N s; ');
    }
  });
});
