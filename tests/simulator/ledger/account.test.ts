import { expect, it } from 'vitest';
import { HOUR, type Instant, MINUTE, SECOND } from '../../../model/units/units.ts';
import { accountOf, partsPerCarton } from '../../../simulator/ledger/account.ts';
import { changeoversAtRate } from '../../../simulator/ledger/atRate.ts';
import type { LedgerEntry } from '../../../simulator/ledger/entries.ts';
import { ledgerOf } from '../../../simulator/ledger/ledger.ts';
import { monday, runFor, simulatedLine } from '../simulatedLine.ts';

const line = simulatedLine();
/** 09:00, where the early shift's break may begin. */
const nine = (monday + 3 * HOUR) as Instant;
const at = (seconds: number) => (nine + seconds * SECOND) as Instant;

const carton = (
  seconds: number,
  more: Partial<Extract<LedgerEntry, { kind: 'carton' }>> = {},
): LedgerEntry => ({
  kind: 'carton',
  id: seconds,
  picked: at(seconds - 30),
  at: at(seconds),
  fate: 'good',
  mode: 'produce',
  size: 'sachet-20',
  ...more,
});

const stop = (begin: number, end: number, number: number): LedgerEntry => ({
  kind: 'stop',
  begin: at(begin),
  end: at(end),
  number,
  stopKind: number === 201 ? 'operator' : number === 202 ? 'changeover' : 'machine',
  episode: begin,
  attempt: 1,
  by: 'machine',
});

const head: readonly LedgerEntry[] = [
  { kind: 'start', at: nine, seed: 1, inPockets: 0 },
  { kind: 'target', at: nine, size: 'sachet-20', crew: 2, target: 52 },
];

/** One second at 52 cartons a minute, in parts. */
const second = 5_200_000_000;

it('[LO3] a stop pays from the last good carton to the next one, a pause beyond its allowance for itself', () => {
  const ledger = ledgerOf([
    ...head,
    carton(10),
    carton(20),
    carton(22, { fate: 'rejected', reason: 'bottom-open' }),
    stop(25, 55, 51),
    carton(60),
    stop(70, 70 + 25 * 60, 201),
    carton(1_590),
  ]);
  const account = accountOf(ledger, line, nine, at(1_800));
  expect(account.good).toBe(4);
  expect(account.possible).toBe(600 * second);
  expect(account.lost).toEqual(
    new Map([
      ['|slow', 230 * second - 2 * partsPerCarton],
      ['bottom-major|stopped', 40 * second - 2 * partsPerCarton],
      ['|pauseOver', 330 * second - partsPerCarton],
      ['bottom-major|reject', partsPerCarton],
    ]),
  );
  expect(account.classes).toEqual(
    new Map([
      ['producing', 70 * SECOND - 30 * SECOND + 230 * SECOND],
      ['stopped', 30 * SECOND],
      ['plannedPause', 20 * MINUTE],
      ['pauseOver', 5 * MINUTE],
    ]),
  );
});

it('[LO3] of two stops between two good cartons the second pays from its own beginning', () => {
  const ledger = ledgerOf([...head, carton(10), stop(12, 40, 51), stop(50, 80, 91), carton(100)]);
  expect(accountOf(ledger, line, nine, at(100)).lost).toEqual(
    new Map([
      ['|slow', 10 * second - partsPerCarton],
      ['bottom-major|stopped', 40 * second],
      ['top-major|stopped', 50 * second],
    ]),
  );
});

it('[LO8] what passed before the shift ended stays there, whatever stops later', () => {
  const ledger = ledgerOf([...head, carton(10), stop(30, 80, 51), carton(100)]);
  expect(accountOf(ledger, line, nine, at(25)).lost).toEqual(
    new Map([['|slow', 25 * second - partsPerCarton]]),
  );
  expect(accountOf(ledger, line, at(25), at(110)).lost).toEqual(
    new Map([
      ['bottom-major|stopped', 75 * second - partsPerCarton],
      ['|slow', 10 * second],
    ]),
  );
});

it('[CH2] a changeover is at rate with the good carton that completes 141 within three minutes', () => {
  const entries: LedgerEntry[] = [...head, stop(0, 600, 202)];
  entries.push({
    kind: 'changeover',
    begin: at(0),
    returned: at(600),
    change: 'size',
    fromOrder: '1',
    toOrder: '2',
    fromSize: 'sachet-48',
    toSize: 'sachet-20',
    trialCartons: 12,
  });
  for (let made = 0; made < 60; made += 1) entries.push(carton(610.5 + 2 * made));
  for (let made = 0; made < 200; made += 1) entries.push(carton(730 + made));
  const [changeover] = changeoversAtRate(ledgerOf(entries), line, at(3_000));
  expect(changeover?.firstGood).toBe(at(610.5));
  // In the three minutes up to second 830 there are 650.5, 652.5 … 728.5, which are 40, and 730 … 830, which are 101.
  expect(changeover?.atRate).toBe(at(830));
});

it('[LO2] possible less good is the sum of what was lost, to the last part, in any window of a real run', () => {
  const { ledger, to } = runFor(30, { seed: 6 });
  for (const [from, until] of [
    [0, 8],
    [8, 16],
    [3.21, 3.77],
    [0, 30],
    [29.9, 30],
  ] as const) {
    const [begin, end] = [
      (monday + Math.round(from * HOUR)) as Instant,
      Math.min(to, monday + Math.round(until * HOUR)) as Instant,
    ];
    const account = accountOf(ledger, line, begin, end);
    const lost = [...account.lost.values()].reduce((sum, parts) => sum + parts, 0);
    expect(lost).toBe(account.possible - account.good * partsPerCarton);
    expect([...account.classes.values()].reduce((sum, ticks) => sum + ticks, 0)).toBe(end - begin);
    expect(account.possible).toBeGreaterThan(0);
  }
}, 600_000);
