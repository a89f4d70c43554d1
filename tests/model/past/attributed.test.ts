import { describe, expect, it } from 'vitest';
import { MEASURED_FOR } from '../../../model/attribution/accuracy.ts';
import { SHARES_MEASURED } from '../../../model/attribution/measured.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { AttributedAnswer } from '../../../model/past/attributedAnswer.ts';
import { attributedPast } from '../../../model/past/attributedPast.ts';
import { attributedWords } from '../../../model/words/english-attributed.ts';
import { recordSteps } from '../../../model/records/records.ts';
import { sensedLine } from '../attribution/sensedLine.ts';
import { changes, foldOf, running } from '../smallLine.ts';
import { boundLine, changesOf, runFor } from '../../simulator/simulatedLine.ts';

describe('who may have spoiled the rejects of a period', () => {
  const { index } = foldOf([...running(), [0, 'near-fold', 0]], sensedLine());

  it('[AT1] is one difference of two minutes: by reason, by station, and nobody’s', () => {
    const past = attributedPast(index, { attributed: [317, 633, 50] }, { attributed: [1217, 2433, 350] });
    expect(past).toEqual({
      rejects: 3,
      unattributed: 0.3,
      reasons: [
        {
          reason: 'open',
          rejects: 3,
          shares: [
            { station: 'pick', cartons: 0.9 },
            { station: 'fold', cartons: 1.8 },
            { station: undefined, cartons: 0.3 },
          ],
        },
      ],
      stations: [
        { station: 'pick', cartons: 0.9, charged: 0 },
        { station: 'fold', cartons: 1.8, charged: 3 },
      ],
    });
  });

  it('[AT1] without a minute before, it is all that was recorded', () => {
    expect(attributedPast(index, undefined, { attributed: [317, 633, 50] })).toMatchObject({
      rejects: 1,
      unattributed: 0.05,
    });
  });

  it('[AT1] periods of a simulated shift add up to the whole, and to what was counted', () => {
    const bound = boundLine();
    const fold = new LineFold(bound.line);
    const events = fold.take(changesOf(bound, runFor(3, { seed: 9, lively: 3 }).told));
    const minutes = recordSteps(events, fold.state).flatMap((step) =>
      step.kind === 'put' && step.record.kind === 'minute' ? [step.record.body] : [],
    );
    const [first, middle, last] = [minutes[10]!, minutes[80]!, minutes.at(-1)!];
    const parts = [first, middle].map((from, n) => attributedPast(fold.index, from, [middle, last][n]!));
    const whole = attributedPast(fold.index, first, last);
    whole.stations.forEach(({ station, cartons }, place) => {
      expect(parts[0]!.stations[place]!.cartons + parts[1]!.stations[place]!.cartons, station).toBeCloseTo(
        cartons,
        9,
      );
    });
    const counted = bound.line.signals
      .filter(({ role, of }) => role === 'rejectCount' && of !== 'empty')
      .map((signal) => fold.index.tallyAt[signal.index]!)
      .reduce((sum, place) => sum + last.tally[place]! - first.tally[place]!, 0);
    expect(whole.rejects).toBe(counted);
    expect(whole.rejects).toBeGreaterThan(10);
    const laid = whole.stations.reduce((sum, { cartons }) => sum + cartons, whole.unattributed);
    expect(laid).toBeCloseTo(whole.rejects, 9);
    expect(whole.stations.map(({ charged }) => charged).reduce((sum, n) => sum + n, 0)).toBe(whole.rejects);
  });
});

it('[AT1] a minute’s record says what was laid to whom by its end', () => {
  const line = sensedLine();
  const fold = new LineFold(line);
  const rows = [...running(), [0, 'near-fold', 0], [3.5, 'rejectOpen', 3], [61, 'good', 1]] as const;
  const events = fold.take(changes(line, rows));
  const records = recordSteps(events, fold.state);
  expect(records).toContainEqual(
    expect.objectContaining({
      record: expect.objectContaining({
        kind: 'minute',
        body: expect.objectContaining({ attributed: [900, 1800, 300] }),
      }),
    }),
  );
});

describe('what is said of it', () => {
  const seen = { from: 0, to: 1, since: undefined, unknown: 0, isolated: 0 } as AttributedAnswer['seen'];
  const answer = (more: Partial<AttributedAnswer>): AttributedAnswer => ({
    seen,
    rejects: 10,
    unattributed: 1,
    reasons: [],
    stations: [],
    heldTo: 'sensed',
    doubted: [],
    ...more,
  });

  it('[AT1] is that it cannot be told, where nobody saw any of the time', () => {
    expect(attributedWords.lead(answer({ rejects: undefined, unattributed: undefined }))[0]).toBe(
      'It cannot be told.',
    );
    expect(attributedWords.lead(answer({ rejects: 0, unattributed: 0 }))[0]).toBe('No rejects.');
  });

  it('[AT5] names the figure that was measured of such lines, or that there is none', () => {
    for (const heldTo of MEASURED_FOR)
      expect(attributedWords.measured(heldTo)).toContain(SHARES_MEASURED[heldTo].brier.toFixed(2));
    expect(attributedWords.measured(undefined)).toContain('was not measured');
    expect(attributedWords.lead(answer({ heldTo: 'file' }))[1]).toContain('as the line’s file gives them');
  });

  it('[AT5] names stations whose pockets look wrong, and says not to go by the shares', () => {
    const station = { id: 'fold', number: 2, name: 'Fold', drawing: 'fold' } as const;
    expect(attributedWords.doubted(answer({}))).toBe('');
    const said = attributedWords.doubted(answer({ doubted: [{ station, nearer: 2 }] }));
    expect(said).toContain('2 Fold (2 pockets nearer to the check)');
    expect(said).toContain('do not go by these shares');
    expect(attributedWords.doubted(answer({ doubted: [{ station, nearer: undefined }] }))).toContain(
      'beside it',
    );
  });
});
