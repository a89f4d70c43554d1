import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { CARTON, lostByKey } from '../../../model/fold/account.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { attributedPast } from '../../../model/past/attributedPast.ts';
import { figuresOver } from '../../../model/past/figuresOver.ts';
import type { FiguresPast } from '../../../model/past/figuresPast.ts';
import { type FiguresFilter, figureStretches, shiftsWithin } from '../../../model/past/figureStretches.ts';
import { stationCounts } from '../../../model/past/stationCounts.ts';
import { type RecordBodies, type RecordKind, recordSteps } from '../../../model/records/records.ts';
import { HOUR, type Instant, MINUTE } from '../../../model/units/units.ts';
import { runUntil, startMachine } from '../../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../../simulator/simulatedLine.ts';

const HOURS = 40;
const END = (monday + HOURS * HOUR) as Instant;

/** Forty hours of a busy line with a stretch that nobody saw, as records. */
function simulated() {
  const bound = boundLine();
  const fold = new LineFold(bound.line);
  const machine = startMachine({ seed: 5, start: monday, lively: 4 });
  const link = bound.line.signals.findIndex(({ role }) => role === 'link');
  const dark = { from: (monday + 11 * HOUR) as Instant, to: (monday + 11.5 * HOUR) as Instant };
  const kept = new Map<string, { kind: RecordKind; at: Instant; body: unknown }>();
  for (let at = monday; at < END; at = (at + HOUR / 2) as Instant) {
    const until = (at + HOUR / 2) as Instant;
    const told = changesOf(bound, runUntil(machine, until));
    const heard = at === dark.from ? [] : told;
    const cut =
      at === dark.from
        ? [{ signal: link, at: dark.from, received: dark.from, status: 0, value: false }]
        : at === dark.to
          ? [{ signal: link, at: dark.to, received: dark.to, status: 0, value: true }]
          : [];
    for (const step of recordSteps(fold.take([...cut, ...heard]), fold.state)) {
      if (step.kind === 'put')
        kept.set(`${step.record.kind} ${step.record.at} ${step.record.id}`, structuredClone(step.record));
      if (step.kind === 'drop') kept.delete(`${step.of} ${step.at} ${step.id}`);
    }
  }
  const of = <Kind extends RecordKind>(kind: Kind) =>
    [...kept.values()]
      .filter((record) => record.kind === kind)
      .sort((a, b) => a.at - b.at)
      .map(({ body }) => body as RecordBodies[Kind]);
  return { fold, of, line: bound.line };
}

let told: ReturnType<typeof simulated>;
let minutes: RecordBodies['minute'][];
beforeAll(() => {
  told = simulated();
  minutes = told.of('minute');
});

const minuteAt = (at: Instant) => minutes.findLast((minute) => minute.at <= at);
const known = () => ({
  shifts: shiftsWithin(told.line.calendar, told.line.zone, { from: monday, to: END }),
  sizes: told.of('size'),
  orders: told.of('order'),
});

function figures(from: Instant, to: Instant, filter: FiguresFilter = {}): FiguresPast {
  const within = <One>(
    list: readonly One[],
    begin: (one: One) => Instant,
    end: (one: One) => Instant | null,
  ) => list.filter((one) => begin(one) < to && (end(one) ?? END) > from);
  return figuresOver({
    index: told.fold.index,
    stretches: figureStretches({ from, to }, filter, known()),
    stops: within(
      told.of('stop'),
      ({ begin }) => begin,
      ({ end }) => end,
    ),
    gaps: within(
      told.of('gap'),
      (gap) => gap.from,
      (gap) => gap.to,
    ),
    presses: told.of('press'),
    sizes: told.of('size').filter(({ at }) => at < to),
    tallyAt: (at) => minuteAt(at)?.tally ?? [],
    begun: monday,
    now: END,
  });
}

/** Everything that adds up, as one flat list. */
function flat({
  pot,
  plannedDown,
  unknown,
  isolated,
  elements,
  made,
  stops,
  withoutRate,
  gained,
}: FiguresPast) {
  const numbers = [pot, plannedDown, unknown, isolated, withoutRate];
  return [...numbers, ...Object.values(elements), ...Object.values(made), ...Object.values(stops), ...gained];
}

function expectSame(parts: readonly FiguresPast[], whole: FiguresPast): void {
  const each = parts.map(flat);
  flat(whole).forEach((one, n) => {
    const sum = each.reduce((total, part) => total + (part[n] ?? 0), 0);
    expect(sum).toBeCloseTo(one, 6);
  });
}

/** A period between two moments, at least as long as a minute. */
function inOrder(a: Instant, b: Instant): [Instant, Instant] {
  return a < b ? [a, b] : [b, (a + MINUTE) as Instant];
}

const moment = fc
  .integer({ min: 1, max: HOURS * 60 - 1 })
  .map((minute) => (monday + minute * MINUTE) as Instant);
const anywhere = fc
  .integer({ min: 1, max: HOURS * 3600 - 1 })
  .map((second) => (monday + second * (MINUTE / 60)) as Instant);

describe('what was made, lost and waited for', () => {
  it('[KP4] of pieces is that of the whole, wherever and however often it is cut', () => {
    const whole = figures(monday, END);
    expect(whole.unknown).toBeGreaterThan(29);
    fc.assert(
      fc.property(fc.array(anywhere, { minLength: 1, maxLength: 6 }), (cuts) => {
        const edges = [monday, ...cuts.toSorted((a, b) => a - b), END];
        const pieces = edges.slice(1).map((to, n) => figures(edges[n]!, to));
        expectSame(pieces, whole);
      }),
      { seed: 22_400, numRuns: 60 },
    );
  });

  it('[KP4] over all sizes, all orders and all kinds of shift is that of the whole, in any period', () => {
    const { sizes, shifts, orders } = known();
    const all = {
      size: [...new Set(sizes.map(({ size }) => size))],
      order: [...new Set(orders.map(({ order }) => order))],
      shift: [...new Set(shifts.map(({ rule }) => rule))],
    };
    expect(all.size.length > 1 && all.order.length > 1 && all.shift.length > 2).toBe(true);
    fc.assert(
      fc.property(moment, moment, (a, b) => {
        const [from, to] = inOrder(a, b);
        const whole = figures(from, to);
        for (const key of ['size', 'order', 'shift'] as const)
          expectSame(
            all[key].map((one) => figures(from, to, { [key]: one })),
            whole,
          );
      }),
      { seed: 22_401, numRuns: 25 },
    );
  });

  it('[KP1] is time of one class each: elements add up to the planned busy time in any period', () => {
    fc.assert(
      fc.property(anywhere, anywhere, (a, b) => {
        const { pot, plannedDown, unknown, elements } = figures(...inOrder(a, b));
        const { pbt, apt, aust, adet, adot } = elements;
        expect(apt + aust + adet + adot).toBeCloseTo(pbt, 6);
        expect(pot - plannedDown - unknown).toBeCloseTo(pbt, 6);
      }),
      { seed: 22_402, numRuns: 100 },
    );
  });

  it('[KP2] is the same at the stations as on the line: rejects, empty cartons, missed picks and crushed ones', () => {
    fc.assert(
      fc.property(moment, moment, (a, b) => {
        const { gained, made } = figures(...inOrder(a, b));
        const stations = told.line.stations.map(({ id }) => stationCounts(told.fold.index, gained, id));
        const sum = (key: 'rejects' | 'empty' | 'missed' | 'crushed') =>
          stations.reduce((total, one) => total + (one[key] ?? 0), 0);
        expect([sum('rejects'), sum('empty'), sum('missed'), sum('crushed')]).toEqual([
          made.rejected,
          made.notLoaded,
          made.missed,
          made.crushed,
        ]);
      }),
      { seed: 22_403, numRuns: 60 },
    );
  });

  it('[LO2] is lost to stations and causes without a rest: possible less good, in every shift and over all', () => {
    const shifts = told.of('shift');
    expect(shifts.length).toBeGreaterThanOrEqual(4);
    for (const { account } of shifts) {
      const lost = lostByKey(account).reduce((sum, parts) => sum + parts, 0);
      expect(lost).toBe(account.possible - account.good * CARTON);
    }
    const good = shifts.reduce((sum, { account }) => sum + account.good, 0);
    const last = shifts.at(-1)!;
    expect(figures(monday, last.shift!.to).made.good).toBe(good);
  });

  it('[AT1] is laid to stations and to nobody without a rest, in pieces and in all', () => {
    const { index } = told.fold;
    const whole = attributedPast(index, undefined, minutes.at(-1)!);
    fc.assert(
      fc.property(moment, (cut) => {
        const between = minuteAt(cut);
        if (!between) return;
        const pieces = [
          attributedPast(index, undefined, between),
          attributedPast(index, between, minutes.at(-1)!),
        ];
        expect(pieces[0]!.rejects + pieces[1]!.rejects).toBe(whole.rejects);
        for (const piece of pieces) {
          const laid = piece.stations.reduce((sum, { cartons }) => sum + cartons, piece.unattributed);
          expect(laid).toBeCloseTo(piece.rejects, 6);
        }
      }),
      { seed: 22_404, numRuns: 40 },
    );
    expect(whole.rejects).toBe(figures(monday, END).made.rejected);
  });

  it('[BA1] is balanced: what is unaccounted for between two minutes adds up over any minutes between', () => {
    const kept = minutes.flatMap(({ flow }) => (flow && flow[5] !== null ? [flow[5]] : []));
    expect(kept.length).toBeGreaterThan(1000);
    const steps = kept.slice(1).map((one, n) => one - kept[n]!);
    expect(steps.reduce((sum, step) => sum + step, 0)).toBe(kept.at(-1)! - kept[0]!);
  });
});
