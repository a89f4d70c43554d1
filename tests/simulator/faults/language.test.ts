import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineError } from '../../../model/trouble/trouble.ts';
import { HOUR, MINUTE, SECOND, type Span } from '../../../model/units/units.ts';
import type { Fault, FaultBody } from '../../../simulator/faults/faults.ts';
import { faultsText, readFaults } from '../../../simulator/faults/language.ts';
import { wireCases } from '../../faults/wireCases.ts';

const span = (most: number) => fc.integer({ min: 1, max: most }).map((ms) => ((ms * SECOND) / 1000) as Span);
const on = fc.constantFrom('Cartoner.State', 'Discharge.Good', 'Stop.main-panel');
const lasts = span(100_000_000);
const lastingKinds = [
  'cut',
  'dark',
  'killed',
  'reissued',
  'download',
  'still',
  'frozen',
  'stampless',
  'unheard',
  'empty',
  'refused',
  'twice',
  'mixed',
] as const;
const body: fc.Arbitrary<FaultBody> = fc.oneof(
  ...lastingKinds.map((kind) => fc.record({ kind: fc.constant(kind), lasts })),
  fc.record({ kind: fc.constant('local' as const) }),
  fc.record({ kind: fc.constant('rollover' as const), on, left: fc.integer({ min: 1, max: 9_999 }) }),
  fc.record({ kind: fc.constant('late' as const), on, lag: span(100_000_000) }),
  fc.record({ kind: fc.constant('reset' as const), on }),
  fc.record({ kind: fc.constant('corrected' as const), on, by: fc.integer({ min: -999, max: 999 }) }),
  fc.record({ kind: fc.constant('set' as const), on, to: fc.integer({ min: 1, max: 9_999_999 }) }),
  fc.record({ kind: fc.constant('skewed' as const), on, by: span(5000) }),
  fc.record({ kind: fc.constant('sampled' as const), every: span(5000), lasts }),
  fc.record({ kind: fc.constant('limited' as const), items: fc.integer({ min: 1, max: 999 }), lasts }),
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
      3:00:00 counter Pick.Missed near its end
      3:00:00 counter Pick.Missed 40 before its end
      3:10:00 server killed with the same ids for 3 s
      3:20:00 tag Cartoner.Size late by 20 s
      3:30:00 clock local
      3:40:00 keep-alive before dark for 4 s
      3:50:00 answers empty for 5 s
      4:00:00 certificate refused for 6 s
      4:10:00 counter Pick.Missed set to 1200
      4:20:00 tag Cartoner.Size skewed by -1500 ms
      4:30:00 values sampled every 500 ms for 2 s
      4:40:00 no more than 30 items for 2 s
    `;
    expect(readFaults(text)).toEqual([
      { at: 12.5 * MINUTE, kind: 'cut', lasts: 70 * SECOND },
      { at: 20 * MINUTE + SECOND / 4, kind: 'bad', on: 'Cartoner.State', lasts: 2 * MINUTE, withValue: true },
      { at: HOUR, kind: 'reset', on: 'Discharge.Good' },
      { at: 2 * HOUR, kind: 'stepped', by: -HOUR },
      { at: 2.5 * HOUR, kind: 'queue', size: 5, silent: true, lasts: HOUR },
      { at: 3 * HOUR, kind: 'rollover', on: 'Pick.Missed', left: 3 },
      { at: 3 * HOUR, kind: 'rollover', on: 'Pick.Missed', left: 40 },
      { at: 190 * MINUTE, kind: 'reissued', lasts: 3 * SECOND },
      { at: 200 * MINUTE, kind: 'late', on: 'Cartoner.Size', lag: 20 * SECOND },
      { at: 210 * MINUTE, kind: 'local' },
      { at: 220 * MINUTE, kind: 'unheard', lasts: 4 * SECOND },
      { at: 230 * MINUTE, kind: 'empty', lasts: 5 * SECOND },
      { at: 4 * HOUR, kind: 'refused', lasts: 6 * SECOND },
      { at: 250 * MINUTE, kind: 'set', on: 'Pick.Missed', to: 1200 },
      { at: 260 * MINUTE, kind: 'skewed', on: 'Cartoner.Size', by: -1.5 * SECOND },
      { at: 270 * MINUTE, kind: 'sampled', every: SECOND / 2, lasts: 2 * SECOND },
      { at: 280 * MINUTE, kind: 'limited', items: 30, lasts: 2 * SECOND },
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

  it('reads every sentence of the README, which has one of every kind', () => {
    const readme = readFileSync(join(import.meta.dirname, '../../../simulator/README.md'), 'utf8');
    const sentences = /```\n(link cut[^`]*)```/
      .exec(readme)![1]!
      .split(/[·\n]/)
      .flatMap((one) => one.trim() || []);
    const faults = readFaults(
      sentences.map((one) => `0:00:01 ${one.replace('TAG', 'Discharge.Good')}`).join('\n'),
    );
    expect(faults).toHaveLength(sentences.length);
    expect([...new Set(faults.map(({ kind }) => kind))].sort()).toEqual(Object.keys(wireCases).sort());
  });

  it('names every line that it does not understand, and what there is', () => {
    const wrong = [
      '0:10 link cut for 1 s',
      '0:00:10 link cut',
      '0:00:10 link cut for 0 s',
      '0:00:10 link cut for 3 days',
      '0:00:10 counter Pick.Missed 0 before its end',
      '0:00:10 queues of -5 for 3 s',
      '0:00:10 tag Cartoner.Size late by -1 s',
    ];
    const right = '0:00:10 link cut for 3 s';
    try {
      readFaults([wrong[0], right, ...wrong.slice(1)].join('\n'));
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(LineError);
      expect((error as LineError).message).toContain('1, 3, 4, 5, 6, 7, 8');
      expect((error as LineError).mend).toContain('link cut for N s; ');
    }
  });
});
