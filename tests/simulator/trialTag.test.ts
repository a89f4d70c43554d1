import { expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { HOUR } from '../../model/units/units.ts';
import { accountOf } from '../../simulator/ledger/account.ts';
import { standard } from '../../simulator/lines/variant.ts';
import { boundLine, changesOf, monday, runFor } from './simulatedLine.ts';

const orders = [
  { number: '1', size: 'sachet-20', blend: 'mint', quantity: 1500 },
  { number: '2', size: 'sachet-48', blend: 'mint', quantity: 1500 },
  { number: '3', size: 'sachet-20', blend: 'mint', quantity: 90_000 },
] as const;

it('[CH5] of a line that tells its trial cartons by a tag they count as little as of one with a set-up mode: the ledger’s cartons', () => {
  const variant = { ...standard, trialTag: true };
  const bound = boundLine(variant);
  const { told, ledger, to } = runFor(4, { seed: 5, orders, variant });
  const fold = new LineFold(bound.line);
  const trials: number[] = [];
  for (const event of fold.take(changesOf(bound, told)))
    if (event.kind === 'ChangeoverEnded') trials.push(event.changeover.trialCartons);
  expect(fold.state.shift.account.good).toBe(accountOf(ledger, bound.line, monday, to).good);
  expect(trials.length).toBeGreaterThan(1);
  expect(Math.max(...trials)).toBeGreaterThan(5);
  expect(to - monday).toBe(4 * HOUR);
});
