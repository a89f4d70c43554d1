import { beforeAll, describe, expect, it } from 'vitest';
import type { GapSpan } from '../../model/fold/state.ts';
import { after, between, type Instant, SECOND, type Span } from '../../model/units/units.ts';
import { timeClasses } from '../../model/view/classes.ts';
import { seenAt } from '../../model/view/seen.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import type { DarkEntry } from '../../simulator/ledger/entries.ts';
import { type FaultedRun, runFaulted } from '../faults/faultedRun.ts';
import { PUBLISHING } from '../faults/virtualServer.ts';
import { monday } from './simulatedLine.ts';

/** Three hours of one shift in which four jams are cleared with the power locked out. */
const SEED = 120;
const HOURS = 3;
const SLACK = (PUBLISHING + 10 * SECOND) as Span;

interface Dark {
  readonly from: Instant;
  readonly to: Instant;
}

function darksOf({ ledger }: FaultedRun): Dark[] {
  return ledger.darks.filter((dark): dark is DarkEntry & Dark => dark.to !== undefined);
}

/** The gaps that fit a dark period: they begin with the last word before it, and end with the first good look after it. */
function gapsOf(gaps: readonly GapSpan[], { from, to }: Dark): GapSpan[] {
  return gaps.filter((gap) => near(gap.from, from) && near(to, gap.to));
}

function near(earlier: Instant, later: Instant): boolean {
  const apart = between(earlier, later);
  return apart >= 0 && apart <= SLACK;
}

/** Time of a shift by class is the time that passed, to the tick, and its gaps are in it as they were judged. */
function expectClassesAddUp({ fold, to }: FaultedRun): void {
  const { shift } = fold.state;
  const classes = timeClasses(seenAt(fold, to));
  expect(Object.values(classes).reduce((sum, part) => sum + part, 0)).toBe(to - shift.shift!.from);
  const lasted = (kind: GapSpan['kind']) =>
    shift.gaps.reduce((sum, gap) => sum + (gap.kind === kind ? between(gap.from, gap.to) : 0), 0);
  expect(classes.isolated).toBe(lasted('isolated'));
  // the first word of a line comes a moment after its shift has begun
  expect(classes.unknown).toBe(lasted('unknown') + between(shift.shift!.from, shift.from));
}

describe('a line that is locked out for some of its jams', () => {
  let plain: FaultedRun;
  beforeAll(async () => {
    plain = await runFaulted(SEED, HOURS, []);
  });

  it('[ST10] [CL1] every dark period is isolated time by the ledger’s moments, within its stop, and nothing else is', () => {
    const darks = darksOf(plain);
    const { gaps } = plain.fold.state.shift;
    expect(darks.length).toBe(4);
    expect(gaps.map(({ kind }) => kind)).toEqual(darks.map(() => 'isolated'));
    for (const dark of darks) {
      expect(gapsOf(gaps, dark)).toHaveLength(1);
      const around = plain.ledger.stops.find(
        ({ begin, end }) => begin <= dark.from && (end ?? plain.to) >= dark.to,
      );
      const seen = plain.fold.state.stops.find(({ begin }) => begin === around!.begin);
      expect(seen).toMatchObject({ begin: around!.begin, end: around!.end ?? null });
    }
    expectClassesAddUp(plain);
  });

  it('[ST10] [CL1] a dark period after which the cycle counter began anew stays unknown, and only that', async () => {
    const darks = darksOf(plain);
    const middle = (dark: Dark) => after(dark.from, (between(dark.from, dark.to) / 2) as Span);
    const faults: Fault[] = [
      { kind: 'reset', on: 'Cartoner.Cycles', at: between(monday, middle(darks[0]!)) },
      { kind: 'download', at: between(monday, middle(darks[2]!)), lasts: SECOND as Span },
    ];
    const run = await runFaulted(SEED, HOURS, faults);
    const { gaps } = run.fold.state.shift;
    expect(darksOf(run)).toEqual(darks);
    expect(darks.flatMap((dark) => gapsOf(gaps, dark)).map(({ kind }) => kind)).toEqual([
      'unknown',
      'isolated',
      'unknown',
      'isolated',
    ]);
    expect(gaps).toHaveLength(darks.length);
    expectClassesAddUp(run);
  });
});
