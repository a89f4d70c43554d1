import { describe, expect, it } from 'vitest';
import type { LineFold } from '../../../model/fold/fold.ts';
import { FIRST_SETTINGS, type NoticeRules } from '../../../model/notices/settings.ts';
import { epochMs, type Instant, type Millis } from '../../../model/units/units.ts';
import { seenAt } from '../../../model/view/seen.ts';
import { conditionsOf } from '../../../model/watch/conditions.ts';
import type { Watched } from '../../../model/watch/watched.ts';
import { at, foldOf, goods, type Rows, running } from '../smallLine.ts';

const server = { id: 'plc', up: true, since: epochMs(at(0)) };

function watched(fold: LineFold, after: number, more: Partial<Watched> = {}): Watched {
  return {
    seen: seenAt(fold, at(after)),
    outside: { servers: [server] },
    wall: epochMs(at(after)),
    begun: epochMs(at(0)),
    rules: FIRST_SETTINGS.when,
    holding: new Set(),
    stations: [],
    tested: new Map(),
    disk: undefined,
    ...more,
  };
}

/** Keys of what holds, so many seconds after six. */
const keys = (fold: LineFold, after: number, more: Partial<Watched> = {}) =>
  conditionsOf(watched(fold, after, more)).present.map(({ key }) => key);
const rules = (more: Partial<NoticeRules>): Partial<Watched> => ({
  rules: { ...FIRST_SETTINGS.when, ...more },
});

/** One good carton each so many seconds. */
const every = (seconds: number, from: number, to: number): Rows =>
  goods(0, Math.floor((to - from) / seconds), 1).map(([step, signal, count]) => [
    from + (step as number) * seconds,
    signal,
    count,
  ]);

describe('what holds of a line', () => {
  it('[NC2] is a rate below the share of the target over the minutes that are looked at, and until it is clearly better', () => {
    const slow = foldOf([...running(), ...every(1.5, 1, 1850)]);
    expect(keys(slow, 1799)).toEqual([]);
    expect(keys(slow, 1801)).toEqual(['rate']);
    const facts = conditionsOf(watched(slow, 1801)).present[0]!.facts;
    expect(facts).toMatchObject({ kind: 'rate', target: 60, minutes: 30, since: epochMs(at(0)) });
    // 49 of 60 a minute are more than four fifths, and not clearly more
    const nearly = foldOf([...running(), ...every(60 / 49, 1, 1850)]);
    expect(keys(nearly, 1801)).toEqual([]);
    expect(keys(nearly, 1801, { holding: new Set(['rate']) })).toEqual(['rate']);
  });

  it('[NC2] leaves out a planned pause and what nobody saw, and says nothing of less than that many minutes', () => {
    const some = rules({ rate: { on: true, share: 0.8, minutes: 5 } });
    const unseen: Rows = [
      ...running(),
      ...goods(1, 300, 1),
      [301, 'link', false],
      [900, 'link', true],
      [900, 'state', 6],
      [900, 'good', 300],
      ...goods(901, 1090, 301),
    ];
    expect(keys(foldOf(unseen), 1085, some)).toEqual([]);
  });

  it('[NC3] is a changeover that lasts longer than earlier ones, or than the setting while few were seen', () => {
    const begun: Rows = [
      ...running(),
      ...goods(1, 60, 1),
      [60.5, 'mode', 4],
      [60.5, 'state', 2],
      [61, 'reason', 202],
    ];
    const fold = foldOf([...begun, [3700, 'heartbeat', 1]]);
    expect(keys(fold, 60.5 + 3600).filter((key) => key.startsWith('changeover'))).toEqual([]);
    fold.take([{ ...heartbeat(fold, 3700) }]);
    const [key] = keys(fold, 3701).filter((one) => one.startsWith('changeover'));
    expect(key).toMatch(/^changeover\//);
    const facts = conditionsOf(watched(fold, 3701)).present.find((one) => one.key === key)!.facts;
    expect(facts).toMatchObject({ kind: 'changeover', by: 'setting', allowed: 3_600_000 });
  });

  it('[NC4] is cartons lost above a share of the plan so far, when the shift is old enough', () => {
    const some = rules({
      lost: { on: true, share: 0.3, minutes: 10 },
      rate: { on: false, share: 0.8, minutes: 30 },
    });
    const fold = foldOf([...running(), ...every(2, 0, 660)]);
    expect(keys(fold, 599, some)).toEqual([]);
    const [key] = keys(fold, 660, some);
    expect(key).toMatch(/^lost\//);
    const facts = conditionsOf(watched(fold, 660, some)).present[0]!.facts;
    expect(facts).toMatchObject({ kind: 'lost', planned: 660, lost: 660 - 331 });
  });

  it('[NC5] is a press from the moment it is seen until the line has restarted', () => {
    const pressed: Rows = [
      ...running(),
      ...goods(1, 10, 1),
      [10.5, 'panel', true],
      [10.6, 'state', 8],
      [20, 'panel', false],
    ];
    const fold = foldOf(pressed);
    const [key] = keys(fold, 20.5);
    expect(key).toMatch(/^press\//);
    const { facts, level } = conditionsOf(watched(fold, 20.5)).present[0]!;
    expect(level).toBe('urgent');
    expect(facts).toMatchObject({ kind: 'press', device: 'main panel', role: 'caused', candidates: [] });
    expect(keys(foldOf([...pressed, [40, 'state', 6], [41, 'good', 11]]), 41.5)).toEqual([]);
  });

  it('[PS5] is what read open while the line ran, until a person closes it', () => {
    const fold = foldOf([
      ...running(),
      ...goods(1, 10, 1),
      [10.2, 'door', true],
      ...goods(11, 20, 11),
      [20.5, 'door', false],
      ...goods(21, 24, 21),
    ]);
    const [ran] = conditionsOf(watched(fold, 24)).present;
    expect(ran).toMatchObject({
      level: 'urgent',
      facts: { kind: 'ranOn', of: 'guard', name: 'guard door 1' },
    });
  });

  it('[NC6] is a server that was heard and is not, after its setting', () => {
    const fold = foldOf([...running(), ...goods(1, 10, 1), [10, 'link', false]]);
    const gone = (since: number | undefined) => ({
      outside: {
        servers: [{ id: 'plc', up: false, ...(since === undefined ? {} : { since: epochMs(at(since)) }) }],
      },
    });
    expect(keys(fold, 69, gone(10))).toEqual([]);
    expect(keys(fold, 70, gone(10))).toEqual(['server/plc']);
    // five minutes later it is time that nobody saw as well
    expect(keys(fold, 310, gone(10))).toEqual(['server/plc', 'unseen']);
  });

  it('[NC6] is after a start a server that was heard before it, once it had time to be heard again; what holds goes on', () => {
    const fold = foldOf([...running(), ...goods(1, 10, 1), [10, 'link', false]]);
    const away = { outside: { servers: [{ id: 'plc', up: false }] } };
    const startedAt = (second: number) => ({ ...away, begun: epochMs(at(second)) });
    expect(keys(fold, 130, startedAt(100))).toEqual([]);
    expect(keys(fold, 160, startedAt(100))).toEqual(['server/plc']);
    expect(keys(fold, 101, { ...startedAt(100), holding: new Set(['server/plc']) })).toEqual(['server/plc']);
    const [gone] = conditionsOf(watched(fold, 160, startedAt(100))).present;
    expect(gone).toMatchObject({ since: at(10), facts: { kind: 'server', since: epochMs(at(10)) } });
  });

  it('[NC6] is a disk that fills up and a clock that is off, until they are clearly better', () => {
    const fold = foldOf([...running(), ...goods(1, 10, 1)]);
    const disk = (megabytes: number) => ({ disk: { freeBytes: megabytes * 1e6 } });
    expect(keys(fold, 10, disk(1000))).toEqual([]);
    expect(keys(fold, 10, disk(999))).toEqual(['disk']);
    expect(keys(fold, 10, { ...disk(1249), holding: new Set(['disk']) })).toEqual(['disk']);
    expect(keys(fold, 10, { ...disk(1250), holding: new Set(['disk']) })).toEqual([]);
    const clock = (ms: number) => ({ outside: { servers: [{ ...server, clockOffset: ms as Millis }] } });
    expect(keys(fold, 10, clock(-10_000))).toEqual([]);
    expect(keys(fold, 10, clock(-10_001))).toEqual(['clock/plc']);
    expect(keys(fold, 10, { ...clock(8001), holding: new Set(['clock/plc']) })).toEqual(['clock/plc']);
  });

  it('[NC7] is all that has no test recorded within its interval, as one thing, where the rule is on', () => {
    const fold = foldOf([...running(), ...goods(1, 10, 1)]);
    const day = 864_000_000_000;
    const tested = new Map<string, Instant>([
      ['panel', (at(10) - 29 * day) as Instant],
      ['circuit', (at(10) - 31 * day) as Instant],
    ]);
    expect(keys(fold, 10, { tested })).toEqual([]);
    const on = rules({ test: { on: true, days: 30 } });
    const [due, ...more] = conditionsOf(watched(fold, 10, { ...on, tested })).present;
    expect(more).toEqual([]);
    expect(due).toMatchObject({ key: 'test', since: at(10) - day });
    expect(due!.facts).toEqual({
      kind: 'test',
      devices: [
        { device: 'circuit', name: 'stop circuit', last: epochMs((at(10) - 31 * day) as Instant) },
        { device: 'door', name: 'guard door 1', last: undefined },
      ],
      everyDays: 30,
    });
    for (const device of ['circuit', 'door']) tested.set(device, at(9));
    expect(keys(fold, 10, { ...on, tested })).toEqual([]);
  });

  it('[NL8] is not known of the line while nobody sees it, and of servers and disks it is', () => {
    const fold = foldOf([...running(), ...goods(1, 10, 1), [10, 'link', false]]);
    const { undecided } = conditionsOf(watched(fold, 20));
    const all = [
      'stops/fold',
      'rate',
      'press/p1',
      'ranOn/g1',
      'lost/x',
      'server/plc',
      'disk',
      'clock/plc',
      'unseen',
    ];
    // a disk that does not answer, and the clock of a server that is not heard, cannot be told either
    const line = ['stops/fold', 'rate', 'press/p1', 'ranOn/g1', 'lost/x'];
    expect(all.filter(undecided)).toEqual([...line, 'disk', 'clock/plc']);
    const heard = { servers: [{ ...server, clockOffset: 0 as Millis }] };
    const told = conditionsOf(watched(fold, 20, { disk: { freeBytes: 1e12 }, outside: heard }));
    expect(all.filter(told.undecided)).toEqual(line);
  });

  it('[NL8] is not known of stations while their past is being worked out', () => {
    const fold = foldOf([...running(), ...goods(1, 10, 1)]);
    const { undecided } = conditionsOf(watched(fold, 10, { stations: undefined }));
    expect(['stops/fold', 'rejects/fold', 'lost'].map(undecided)).toEqual([true, true, false]);
    const due = conditionsOf(watched(fold, 10, { tested: undefined }));
    expect(due.undecided('test')).toBe(true);
  });

  it('[NC2] is not known of the rate before it was to produce for as many minutes', () => {
    const fold = foldOf([...running(), ...goods(1, 10, 1)]);
    const { undecided } = conditionsOf(watched(fold, 10));
    expect(undecided('rate')).toBe(true);
  });
});

function heartbeat({ index }: LineFold, after: number) {
  const { index: signal } = index.line.signals.find(({ role }) => role === 'heartbeat')!;
  return { signal, at: at(after), received: at(after), status: 0, value: after as number };
}
