import { beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '../../model/signals/signals.ts';
import { SECOND } from '../../model/units/units.ts';
import { readFaults } from '../../simulator/faults/language.ts';
import { monday } from '../simulator/simulatedLine.ts';
import { runFaulted } from './faultedRun.ts';
import { all, SpoiledRun } from './spoiledRun.ts';

const HOURS = 5;
const faults = readFaults(
  [
    '1:00:00 server killed for 20 s',
    '2:00:00 link cut for 20 s',
    '3:00:00 value Cartoner.State bad for 30 s',
    '4:00:00 program still for 60 s',
  ].join('\n'),
);
/** With queues that overflow, and tell so. */
const overflowing = readFaults('0:00:00 queues of 3 for 6 h\n1:00:00 link cut for 12 s');
let spoiled: SpoiledRun;

beforeAll(async () => {
  spoiled = new SpoiledRun(await runFaulted(3, HOURS, faults), faults);
});

/** Counters of which there are several, each by what it is of; those that counted nothing in the run cannot be missed. */
const counters = ['rejectCount', 'notLoadedCount', 'presentedCount', 'crushedCount'] as const;
const roles: readonly Role[] = [
  ...['goodCount', 'missedPickCount', ...counters],
  ...['size', 'order', 'guard', 'stopDevice', 'state', 'stopReason'],
] as Role[];

describe('the judge of runs through faults', () => {
  it('finds nothing wrong with a run that was recorded as it has to be', () => {
    expect(spoiled.judged()).toEqual([]);
  });

  it.each(roles)('finds it wrong without the values of %s', (role) => {
    expect(spoiled.count(role)).toBeGreaterThan(1);
    expect(spoiled.judged(spoiled.without(role))).not.toEqual([]);
  });

  it.each(counters)('finds it wrong without the values of any one %s', (role) => {
    const of = spoiled.run.line.signals.flatMap((one) => (one.role === role ? [one.of!] : []));
    const counted = of.filter((one) => spoiled.count(role, one) > 1);
    expect(counted.length).toBeGreaterThan(1);
    for (const one of counted)
      expect(spoiled.judged(spoiled.without(role, one)), one).toContainEqual(
        expect.stringMatching(new RegExp(`^${role} ${one}: \\d+ made`)),
      );
  });

  it('finds rejects counted for another reason', () => {
    const { signals } = spoiled.run.line;
    const [one, other] = signals.filter(({ role }) => role === 'rejectCount').map(({ index }) => index);
    const swapped = spoiled.judged((changes) =>
      changes.map((change) => {
        const signal = change.signal === one ? other : change.signal === other ? one : change.signal;
        return { ...change, signal: signal! };
      }),
    );
    expect(swapped).toContainEqual(expect.stringMatching(/^rejectCount top-open/));
    expect(swapped).toContainEqual(expect.stringMatching(/^rejectCount bottom-open/));
  });

  it('finds cartons that were counted in another minute, though their sum is right', () => {
    for (const role of ['goodCount', 'presentedCount'] as const)
      expect(spoiled.judged(spoiled.moved(role, 70))).toContainEqual(
        expect.stringMatching(new RegExp(`^${role} .*in the minute`)),
      );
  });

  it('finds one good carton more, and one press more', () => {
    const more = spoiled.judged((changes) => {
      const last = changes.findLast((change) => spoiled.is(change, 'goodCount'))!;
      return [...changes, { ...last, at: (last.at + 1) as typeof last.at, value: Number(last.value) + 1 }];
    });
    expect(more).toContainEqual(expect.stringMatching(/^goodCount/));
    const press = all(spoiled.with('stopDevice', true, 16_000), spoiled.with('stopDevice', false, 16_001));
    expect(spoiled.judged(press)).toContainEqual(expect.stringMatching(/^a press that was none/));
  });

  it('finds a press that is told twice, by its device and by its twin', () => {
    const { device, pressed } = spoiled.run.ledger.presses[0]!;
    const twin = spoiled.run.line.signals.find((one) => one.role === 'stopDeviceCount' && one.of === device)!;
    const later = spoiled.judged((changes) =>
      changes.map((change) =>
        change.signal === twin.index && change.at === pressed
          ? { ...change, at: (change.at - 2 * SECOND) as typeof change.at }
          : change,
      ),
    );
    expect(later).toContainEqual(expect.stringMatching(`^${device}: \\d presses, \\d told`));
  });

  it.each(['state', 'stopDevice', 'guard', 'size', 'order'] as const)(
    'finds moments of %s that are half a second off',
    (role) => {
      expect(spoiled.judged(spoiled.moved(role, 0.5))).not.toEqual([]);
    },
  );

  it.each(['size', 'order'] as const)('finds cartons of another %s where it is told late', (role) => {
    // the set-up is long over, and cartons are made
    const late = spoiled.judged(spoiled.moved(role, 1500, 9000));
    expect(late).toContainEqual(expect.stringMatching(new RegExp(`^${role} .*counted`)));
    expect(late).toContainEqual(expect.stringMatching(new RegExp(`^an? ${role} not seen`)));
    expect(late).toContainEqual(expect.stringMatching(new RegExp(`^an? ${role} that was none`)));
  });

  it('finds a stop with another reason, and a changeover that is taken for one', () => {
    const [reason] = spoiled.run.ledger.stops.map(({ number }) => number);
    const other = spoiled.judged(spoiled.valued('stopReason', (value) => (value === reason ? 112 : value)));
    expect(other).toContainEqual(expect.stringMatching(/^a stop not seen/));
    expect(other).toContainEqual(expect.stringMatching(/^a stop that was none/));
    const [produce, setup] = [1, 4];
    const none = spoiled.judged(
      all(
        spoiled.valued('stopReason', (value) => (value === 202 ? 203 : value)),
        spoiled.valued('mode', (value) => (value === setup ? produce : value)),
        spoiled.without('size'),
      ),
    );
    expect(none).toContainEqual(expect.stringMatching(/^a changeover not seen/));
    const begun = spoiled.judged(spoiled.with('mode', setup, 15_000));
    expect(begun).toContainEqual(expect.stringMatching(/^a changeover that was none/));
  });

  it('finds outages that leave no gap', () => {
    const whole = spoiled.judged(spoiled.valued('link', (value) => (value === true ? 'whole' : value)));
    expect(whole).toContainEqual(expect.stringMatching(/^no gap for killed/));
    expect(whole).toContainEqual(expect.stringMatching(/^lost and no gap: Discharge.Good/));
    const never = spoiled.judged((changes) => changes.filter((change) => !spoiled.is(change, 'link')));
    expect(never).toContainEqual(expect.stringMatching(/^no gap for killed/));
    const good = spoiled.judged((changes) =>
      changes.filter((change) => !spoiled.is(change, 'state') || change.value !== null),
    );
    expect(good).toContainEqual(expect.stringMatching(/^no gap for bad/));
    const beats = Array.from({ length: 8 }, (_, n) => spoiled.with('heartbeat', n, 14_400 + 7 * n));
    expect(spoiled.judged(all(...beats))).toContainEqual(expect.stringMatching(/^no gap for frozen/));
  });

  it('finds a queue that overflowed without a gap', async () => {
    const run = new SpoiledRun(await runFaulted(3, 2, overflowing), overflowing);
    expect(run.judged()).toEqual([]);
    const whole = run.judged(run.valued('link', (value) => (value === true ? 'whole' : value)));
    expect(whole).toContainEqual(expect.stringMatching(/^lost and no gap: Cartoner.Cycles/));
  });

  it('finds gaps that begin late, end early, lie elsewhere, or are longer than their faults', () => {
    const { at: begin } = spoiled.run.changes.find(
      (change) => spoiled.is(change, 'link') && change.value === false && change.at > monday + 3590 * SECOND,
    )!;
    const end = spoiled.run.changes.find(
      (change) => spoiled.is(change, 'link') && change.value === true && change.at > begin,
    )!.at;
    const gap = (from: number, to: number) =>
      spoiled.judged((changes) =>
        changes.map((change) => {
          if (!spoiled.is(change, 'link') || (change.at !== begin && change.at !== end)) return change;
          const by = (change.at === begin ? from : to) * SECOND;
          return { ...change, at: (change.at + by) as typeof begin };
        }),
      );
    expect(gap(5, 0)).toContainEqual(expect.stringMatching(/^lost and no gap/));
    expect(gap(0, -5)).toContainEqual(expect.stringMatching(/^lost and no gap/));
    expect(gap(-30, -30)).toContainEqual(expect.stringMatching(/^a gap without a fault/));
    expect(gap(-8, 8)).toContainEqual(expect.stringMatching(/^a gap of .* its faults allow/));
  });

  it('finds gaps without a fault, also close by one', () => {
    const gap = (from: number, to: number) =>
      spoiled.judged(all(spoiled.with('link', false, from), spoiled.with('link', true, to)));
    expect(gap(15_000, 15_020)).toContainEqual(expect.stringMatching(/^a gap without a fault/));
    expect(gap(3_560, 3_600)).toContainEqual(expect.stringMatching(/^a gap without a fault/));
  });

  it('finds that a line which ran is said to have stood', () => {
    const held = all(
      spoiled.with('state', 11, 3400),
      (changes) =>
        changes.filter(
          (change) =>
            !spoiled.is(change, 'cycleCount') ||
            change.at < monday + 3400 * SECOND ||
            change.at > monday + 3700 * SECOND,
        ),
      spoiled.with('state', 6, 3700),
    );
    expect(spoiled.judged(held)).toContainEqual(expect.stringMatching(/^isolated, and it ran/));
  });
});
