import { beforeAll, describe, expect, it } from 'vitest';
import type { Change, Role } from '../../model/signals/signals.ts';
import { byLineTime } from '../../model/signals/signals.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { HOUR, type Instant, SECOND } from '../../model/units/units.ts';
import type { Fault } from '../../simulator/faults/faults.ts';
import { readFaults } from '../../simulator/faults/language.ts';
import { monday } from '../simulator/simulatedLine.ts';
import { type FaultedRun, runFaulted } from './faultedRun.ts';
import { judge } from './judge.ts';

const faults = readFaults(
  [
    '1:00:00 server killed for 20 s',
    '2:00:00 link cut for 20 s',
    '3:00:00 value Cartoner.State bad for 30 s',
  ].join('\n'),
);
let run: FaultedRun;

beforeAll(async () => {
  run = await runFaulted(3, 5, faults);
});

/** What the judge says of the same run where something else had been recorded. */
function judged(spoil: (changes: readonly Change[]) => readonly Change[], of: readonly Fault[] = faults) {
  const fold = new LineFold(run.line);
  const changes = [...spoil(run.changes)].sort(byLineTime);
  return judge({ ...run, changes, fold, events: fold.take(changes) }, of, monday).wrong;
}

const roleOf = ({ signal }: Change): Role => run.line.signals[signal]!.role;
const without = (role: Role) => (changes: readonly Change[]) => {
  const firsts = new Set<number>();
  // the first value of each stays: it is only what follows that is lost
  return changes.filter((change) => {
    if (roleOf(change) !== role || !firsts.has(change.signal)) {
      firsts.add(change.signal);
      return true;
    }
    return false;
  });
};
const moved = (role: Role, by: number) => (changes: readonly Change[]) =>
  changes.map((change) =>
    roleOf(change) === role && change.at > monday + HOUR / 2
      ? { ...change, at: (change.at + by) as Instant }
      : change,
  );

describe('the judge of runs through faults', () => {
  it('finds nothing wrong with a run that was recorded as it has to be', () => {
    expect(judged((changes) => changes)).toEqual([]);
  });

  it.each([
    'goodCount',
    'rejectCount',
    'missedPickCount',
    'crushedCount',
    'size',
    'guard',
    'stopDevice',
    'state',
    'stopReason',
  ] as const)('finds it wrong without the values of %s', (role) => {
    expect(run.changes.filter((change) => roleOf(change) === role).length).toBeGreaterThan(1);
    expect(judged(without(role))).not.toEqual([]);
  });

  it('finds outages that leave no gap', () => {
    const whole = judged((changes) =>
      changes.map((change) =>
        roleOf(change) === 'link' && change.value === true ? { ...change, value: 'whole' } : change,
      ),
    );
    expect(whole).toContainEqual(expect.stringMatching(/^no gap for killed/));
    const good = judged((changes) =>
      changes.filter((change) => roleOf(change) !== 'state' || change.value !== null),
    );
    expect(good).toContainEqual(expect.stringMatching(/^no gap for bad/));
  });

  it('finds gaps without a fault, and gaps longer than theirs', () => {
    const link = run.line.signals.findIndex(({ role }) => role === 'link');
    const gap = (from: number, to: number) => (changes: readonly Change[]) => [
      ...changes,
      ...[from, to].map((at, place) => ({
        signal: link,
        at: (monday + at * SECOND) as Instant,
        received: (monday + at * SECOND) as Instant,
        status: 0,
        value: place === 1,
      })),
    ];
    expect(judged(gap(15_000, 15_020))).toContainEqual(expect.stringMatching(/^a gap without a fault/));
    expect(judged(gap(3_560, 3_600))).toContainEqual(expect.stringMatching(/^a gap of .* its faults allow/));
  });

  it.each(['state', 'stopDevice', 'guard', 'size'] as const)(
    'finds moments of %s that are half a second off',
    (role) => {
      expect(judged(moved(role, SECOND / 2))).not.toEqual([]);
    },
  );

  it('finds one good carton more, and one press more', () => {
    const more = judged((changes) => {
      const last = changes.findLast((change) => roleOf(change) === 'goodCount')!;
      return [...changes, { ...last, at: (last.at + 1) as Instant, value: (last.value as number) + 1 }];
    });
    expect(more).toContainEqual(expect.stringMatching(/^goodCount/));
    const press = judged((changes) => {
      const device = changes.find((change) => roleOf(change) === 'stopDevice')!;
      const at = (seconds: number) => (monday + seconds * SECOND) as Instant;
      return [
        ...changes,
        { ...device, at: at(16_000), received: at(16_000), value: true },
        { ...device, at: at(16_001), received: at(16_001), value: false },
      ];
    });
    expect(press).toContainEqual(expect.stringMatching(/^a press that was none/));
  });
});
