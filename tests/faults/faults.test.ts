import { expect, it } from 'vitest';
import type { LineEvent } from '../../model/fold/events.ts';
import { between, type Instant, MINUTE, SECOND } from '../../model/units/units.ts';
import { readFaults } from '../../simulator/faults/language.ts';
import { monday } from '../simulator/simulatedLine.ts';
import { type FaultedRun, runFaulted } from './faultedRun.ts';
import { judge } from './judge.ts';

/** Two hours of the simulated line, a fault in the middle of them; seconds of the gap that it leaves at most. */
const cases: readonly { readonly faults: string; readonly gap: number; readonly presses?: number }[] = [
  { faults: '', gap: 0 },
  { faults: '1:00:00 link cut for 20 s', gap: 0 },
  { faults: '1:00:00 link dark for 3 s', gap: 0 },
  { faults: '1:00:00 link dark for 20 s', gap: 0 },
  { faults: '1:00:00 link cut for 3 min', gap: 190 },
  { faults: '1:00:00 link cut for 11 min', gap: 670 },
  { faults: '1:00:00 server killed for 3 s', gap: 13 },
  { faults: '1:00:00 counter Discharge.Good reset', gap: 0 },
  { faults: '1:00:00 value Discharge.Good bad for 30 s', gap: 40 },
  { faults: '1:00:00 value Discharge.Good bad with value for 30 s', gap: 40 },
  { faults: '1:00:00 value Cartoner.State bad for 30 s', gap: 40 },
  { faults: '1:00:00 program still for 60 s', gap: 70 },
  { faults: '1:00:00 heartbeat still for 60 s', gap: 0 },
  { faults: '1:00:00 stamps missing for 60 s', gap: 0 },
  { faults: '1:00:00 queues of 5 for 10 min', gap: 0 },
  { faults: '1:00:00 messages twice for 60 s', gap: 0 },
  { faults: '1:00:00 messages mixed for 60 s', gap: 0 },
  { faults: '1:00:00 clock stepped by 1 h', gap: 0 },
  { faults: '1:00:00 clock stepped by -1 h', gap: 0 },
  { faults: '1:00:00 clock stepped by 5 s', gap: 0 },
  { faults: '1:00:00 clock stepped by -5 s', gap: 0 },
  { faults: '0:40:00 clock stepped by -1 h\n1:10:00 clock stepped by 1 h', gap: 0 },
  { faults: '0:59:50 link cut for 20 s\n1:00:00 clock stepped by 1 h', gap: 0 },
  { faults: '0:59:50 link cut for 20 s\n1:00:00 clock stepped by -1 h', gap: 0 },
  { faults: '0:58:00 link cut for 3 min\n1:00:00 clock stepped by -1 h', gap: 190 },
  { faults: '1:00:00 clock stepped by 1 h\n1:01:00 server killed for 3 s', gap: 13 },
  { faults: '1:00:00 button Stop.MainPanel pressed for 30 ms', gap: 0, presses: 1 },
  {
    faults: '0:59:00 link cut for 20 s\n0:59:10 button Stop.MainPanel pressed for 30 ms',
    gap: 0,
    presses: 1,
  },
];

const good = ({ ledger }: FaultedRun) =>
  ledger.cartons.filter(({ fate, mode }) => fate === 'good' && mode === 'produce').length;

const stopsOf = (events: readonly LineEvent[]) =>
  events.flatMap((event) => (event.kind === 'StopEnded' ? [event.stop] : []));

for (const { faults, gap, presses = 0 } of cases) {
  it(`[CV1] ${faults === '' ? 'no fault' : faults.replaceAll('\n', ', ')}: all is counted once, and nothing is pretended`, async () => {
    const run = await runFaulted(3, 2, readFaults(faults));
    const { shift } = run.fold.state;
    expect(shift.account.good).toBe(good(run));
    const unknown = shift.gaps.filter(({ kind }) => kind === 'unknown');
    const unseen = unknown.reduce((sum, { from, to }) => sum + between(from, to), 0);
    expect(unseen / SECOND).toBeLessThanOrEqual(gap);
    if (gap > 0) expect(unseen).toBeGreaterThan(0);
    const isSeen = (at: Instant) => unknown.every(({ from, to }) => at < from || at > to);
    const known = run.ledger.stops.filter(
      ({ begin, end }) => end !== undefined && isSeen(begin) && isSeen(end),
    );
    const seen = stopsOf(run.events).filter(({ begin, end }) => isSeen(begin) && isSeen(end!));
    expect(seen.map(({ begin, end, reason }) => [begin, end, reason])).toEqual(
      known.map(({ begin, end, number }) => [begin, end, number]),
    );
    expect(run.fold.state.presses.filter(({ known: how }) => how === 'edge').length).toBe(
      run.ledger.presses.length + presses,
    );
  }, 600_000);
}

it('[CO3] a program downloaded: what was made while nobody looked is not known, and nothing else is lost', async () => {
  const run = await runFaulted(3, 2, readFaults('1:00:00 program downloaded for 20 s'));
  const { shift, counterMarks } = run.fold.state;
  const [gap] = shift.gaps.filter(({ kind }) => kind === 'unknown');
  expect(gap!.from).toBeGreaterThan(monday + 59 * MINUTE);
  expect(between(gap!.from, gap!.to) / SECOND).toBeLessThanOrEqual(30);
  const inGap = run.ledger.cartons.filter(
    ({ fate, at }) => fate === 'good' && at >= gap!.from && at <= gap!.to,
  ).length;
  expect(good(run) - shift.account.good).toBeGreaterThanOrEqual(0);
  expect(good(run) - shift.account.good).toBeLessThanOrEqual(inGap);
  expect(counterMarks.every(({ mark }) => mark === 'reset')).toBe(true);
}, 600_000);

it('[CH1] a size that is told after the first cartons of it: nothing is lost, and it begins where it is told', async () => {
  const faults = readFaults('0:00:01 tag Cartoner.Size late by 40 s');
  const run = await runFaulted(3, 5, faults);
  const [changed] = run.ledger.targets.filter(
    ({ size }, place, all) => place > 0 && all[place - 1]!.size !== size,
  );
  const began = run.events.flatMap((event) => (event.kind === 'SizeBegan' ? [[event.size, event.at]] : []));
  expect(began).toContainEqual([changed!.size, changed!.at + 40 * SECOND]);
  expect(judge(run, faults, monday)).toMatchObject({ wrong: [], unknownSeconds: 0 });
  const bySize = (size: string) =>
    run.ledger.cartons.filter(
      (one) =>
        one.size === size && one.mode === 'produce' && (one.fate === 'good' || one.fate === 'rejected'),
    ).length;
  const told = run.fold.state.cartonsBySize;
  for (const size of [changed!.size, run.ledger.start && run.ledger.targets[0]!.size]) {
    // whatever came in those 40 s at most
    expect(Math.abs((told[size] ?? 0) - bySize(size))).toBeLessThanOrEqual(40);
  }
  expect(Object.values(told).reduce((sum, one) => sum + one, 0)).toBe(
    run.ledger.cartons.filter(
      ({ fate, mode, reason }) => mode === 'produce' && (fate === 'good' || reason !== undefined),
    ).length,
  );
}, 600_000);
