import { expect } from 'vitest';
import { causes, lostByKey } from '../../model/fold/account.ts';
import type { Line } from '../../model/line/line.ts';
import type { Instant } from '../../model/units/units.ts';
import type { Seen } from '../../model/view/seen.ts';
import { accountOf } from '../../simulator/ledger/account.ts';
import { changeoversAtRate } from '../../simulator/ledger/atRate.ts';
import type { Ledger } from '../../simulator/ledger/ledger.ts';

interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** Holds what the model saw of a stretch of a shift against the ledger: counts, losses, stops, presses, changeovers. */
export function expectEqual(line: Line, ledger: Ledger, seen: Seen, { from, to }: Stretch): void {
  const within = (at: Instant | null | undefined) => at !== null && at !== undefined && at >= from && at < to;
  const account = accountOf(ledger, line, from, to);
  const { state } = seen;

  expect({ good: seen.account.good, possible: seen.account.possible, lost: lostOf(line, seen) }).toEqual({
    good: account.good,
    possible: account.possible,
    lost: new Map([...account.lost].sort()),
  });

  const stops = ledger.stops.filter(({ begin }) => within(begin));
  expect(stops.filter(({ stopKind }) => stopKind === 'machine').length).toBeGreaterThan(0);
  expect(
    state.stops
      .filter(({ begin }) => within(begin))
      .map(({ begin, end, reason }) => ({ begin, end, reason })),
  ).toEqual(
    stops.map(({ begin, end, number }) => ({ begin, end: within(end) ? end : null, reason: number })),
  );

  const presses = ledger.presses.filter(({ pressed }) => within(pressed));
  expect(presses.length).toBeGreaterThan(0);
  const steps = (at: Instant | null | undefined) => (within(at) ? at : null);
  expect(
    state.presses
      .filter(({ pressed }) => within(pressed))
      .map(({ device, pressed, released, reset, restarted, firstGood, role }) => ({
        device: line.devices[device]?.id,
        pressed,
        steps: [released, reset, restarted, firstGood],
        role,
      })),
  ).toEqual(
    presses.map(({ device, pressed, released, reset, restarted, firstGood, role }) => ({
      device,
      pressed,
      steps: [released, reset, restarted, firstGood].map(steps),
      role,
    })),
  );

  const changeovers = changeoversAtRate(ledger, line, to).filter(({ begin }) => within(begin));
  expect(changeovers.length).toBeGreaterThan(0);
  const last = changeovers.at(-1)!;
  expect(state.changeover ?? state.lastChangeover).toMatchObject({
    begin: last.begin,
    productionBack: last.returned ?? null,
    atRate: last.atRate ?? null,
    kind: last.change,
    from: last.fromSize,
    to: last.toSize,
    trialCartons: last.trialCartons,
  });
}

/** Losses by `station|cause`, as the ledger's accounting names them. */
function lostOf(line: Line, seen: Seen): Map<string, number> {
  const lost = new Map<string, number>();
  lostByKey(seen.account).forEach((parts, key) => {
    const station = line.stations[Math.floor(key / causes.length)]?.id ?? '';
    if (parts !== 0) lost.set(`${station}|${causes[key % causes.length]}`, parts);
  });
  return new Map([...lost].sort());
}
