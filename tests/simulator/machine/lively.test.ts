import { expect, it } from 'vitest';
import { eventful } from '../eventful.ts';
import { runFor } from '../simulatedLine.ts';

it('a lively line has more stops than the same line as it is', () => {
  const stops = (lively: number) => runFor(6, { seed: 4, lively }).ledger.stops.length;
  expect(stops(8)).toBeGreaterThan(2 * stops(1));
});

it('the eventful run has a press, a stop to be asked about and a jam in its first five minutes, each to its end', () => {
  const { ledger, to } = runFor(1 / 12, eventful);
  expect(ledger.presses).toMatchObject([{ role: 'caused', device: 'loading-front' }]);
  expect(ledger.presses[0]?.firstGood).toBeLessThan(to);
  const ended = ledger.stops.filter(({ end }) => end !== undefined);
  expect(ended.map(({ number }) => number)).toEqual([301, 205, 51]);
});
