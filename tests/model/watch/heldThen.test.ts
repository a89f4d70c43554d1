import { describe, expect, it } from 'vitest';
import { openAccount } from '../../../model/fold/account.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { ChangeoverRecord, PressRecord, ShiftRecord } from '../../../model/fold/state.ts';
import type { NoticeKind } from '../../../model/notices/notice.ts';
import { FIRST_SETTINGS, type NoticeRules, type NoticeSettings } from '../../../model/notices/settings.ts';
import type { Recipient } from '../../../model/notices/recipients.ts';
import { epochMs } from '../../../model/units/units.ts';
import { seenAt } from '../../../model/view/seen.ts';
import { conditionsOf } from '../../../model/watch/conditions.ts';
import { lostHeld, rateHeld } from '../../../model/watch/heldOutput.ts';
import { type RunThen, type StationStop, stopsHeld } from '../../../model/watch/heldStops.ts';
import { type Held, type HeldAsked, heldThen } from '../../../model/watch/heldThen.ts';
import { type Swept, triedSweep } from '../../../model/watch/triedSweep.ts';
import { at, foldOf, goods, type Rows, running, smallLine } from '../smallLine.ts';

const line = smallLine();
const index = indexOf(line);
const MIN = 60;
const HOURS = 3600;
const end = at(20 * HOURS);

const first = FIRST_SETTINGS.when;
const rules = (more: Partial<NoticeRules> = {}): NoticeRules => ({ ...first, ...more });

function asked(more: Partial<HeldAsked>): HeldAsked {
  return {
    ...{ index, rules: first, from: at(0), to: end, recordedSince: at(0) },
    ...{ presses: [], stops: [], findings: [], gaps: [], changeovers: [], tests: [] },
    ...more,
  };
}

function run<Made>(work: Generator<unknown, Made>): Made {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}

function swept(held: readonly Held[], settings: Partial<NoticeSettings> = {}, more: object = {}): Swept {
  const all = { ...FIRST_SETTINGS, ...settings };
  return run(triedSweep({ index, settings: all, shutOff: new Set(), from: at(0), held, gaps: [], ...more }));
}

const counted = (held: readonly Held[], kind: NoticeKind) => swept(held).notices.get(kind) ?? 0;
const seconds = (held: readonly Held[]) =>
  held.map(({ from, to }) => [(from - at(0)) / 1e7, (to - at(0)) / 1e7]);

const person = (number: string, more: Partial<Recipient> = {}): Recipient => ({
  ...{ person: number, ways: ['mail'], when: { quiet: [] } },
  ...more,
});

function press(id: string, after: number, more: Partial<PressRecord> = {}): PressRecord {
  return {
    ...{
      id,
      device: 0,
      pressed: at(after),
      released: at(after + 10),
      reset: null,
      restarted: at(after + 30),
    },
    ...{ firstGood: null, role: 'caused', known: 'edge', stop: null, candidate: null },
    ...more,
  };
}

function changeover(begin: number, lasted: number | null): ChangeoverRecord {
  const over = lasted === null ? null : at(begin + lasted);
  return {
    ...{ kind: 'size', begin: at(begin), from: 'sachet-20', to: 'sachet-48', fromBlend: null },
    ...{ trialBegan: null, productionBack: over, firstGood: over, atRate: over, end: over, trialCartons: 0 },
  };
}

describe('what settings would have told of days that are past', () => {
  it('[NT1] is a notice for each press that was seen, and none for what only its counter told', () => {
    const presses = [press('a', 100), press('b', 900), press('c', 1800, { known: 'count' })];
    const held = heldThen(asked({ presses }));
    expect(counted(held, 'press')).toBe(2);
    expect(counted(heldThen(asked({ presses, rules: rules({ press: { on: false } }) })), 'press')).toBe(0);
  });

  it('[NT1] is one notice for two presses in one stop, as live: the second one joins the first', () => {
    const stopped = { stop: 's1', restarted: at(400) };
    const held = heldThen(asked({ presses: [press('a', 100, stopped), press('b', 160, stopped)] }));
    expect(swept(held).notices.get('press')).toBe(1);
    expect(swept(held).joined.get('press')).toBe(1);
  });

  it('[NT1] is a notice for each thing that read so while the line ran, and for time unseen beyond the setting', () => {
    const finding = { kind: 'guardOpenRunning', of: 'door', to: null, spent: 0 } as const;
    const findings = ['f1', 'f2'].map((id, n) => ({ ...finding, id, at: at(1000 * n + 5) }));
    const gap = (from: number, lasted: number) =>
      ({ from: at(from), to: at(from + lasted), kind: 'unknown' }) as const;
    const gaps = [gap(100, 4 * MIN), gap(3000, 6 * MIN), gap(9000, 20 * MIN)];
    const held = heldThen(asked({ findings: findings as never, gaps }));
    expect(counted(held, 'ranOn')).toBe(2);
    expect(counted(held, 'unseen')).toBe(2);
    const ofTen = heldThen(asked({ gaps, rules: rules({ unseen: { on: true, minutes: 10 } }) }));
    expect(seconds(ofTen)).toEqual([[9000 + 10 * MIN, 9000 + 20 * MIN]]);
  });

  it('[NT1] is a changeover that overran those that were over by then, and the setting while they were few', () => {
    const lasted = [10, 12, 8, 14, 16].map((minutes, n) => changeover(n * HOURS, minutes * MIN));
    // the fourth lasts 14 of 1.25 × 12 minutes, the fifth 16 of 1.25 × 14
    expect(counted(heldThen(asked({ changeovers: lasted })), 'changeover')).toBe(0);
    const longer = [...lasted.slice(0, 3), changeover(3 * HOURS, 15.5 * MIN), changeover(5 * HOURS, null)];
    const held = heldThen(asked({ changeovers: longer, to: at(6 * HOURS) }));
    expect(counted(held, 'changeover')).toBe(2);
    expect(counted(heldThen(asked({ changeovers: [changeover(0, 61 * MIN)] })), 'changeover')).toBe(1);
    expect(counted(heldThen(asked({ changeovers: [changeover(0, 59 * MIN)] })), 'changeover')).toBe(0);
  });

  it('[NT1] is one notice for all devices that are due a test, and a new one once all had been done', () => {
    const test = { on: true, days: 1 };
    const tested = (device: string, after: number) =>
      ({ device, at: epochMs(at(after)), person: '12', method: 'pressed' }) as const;
    const day = 24 * HOURS;
    const tests = ['panel', 'circuit', 'door'].map((device, n) => tested(device, 2 * day + n * 60));
    const held = heldThen(asked({ rules: rules({ test }), to: at(5 * day), tests }));
    expect(counted(held, 'test')).toBe(2);
    const some = heldThen(asked({ rules: rules({ test }), to: at(5 * day), tests: tests.slice(0, 2) }));
    expect(counted(some, 'test')).toBe(1);
  });

  it('[NT1] is a notice each time that a station has so many stops within so long, counted anew after it was over', () => {
    const stop = (n: number, ran: number): StationStop => {
      const begin = at(ran + n * 30);
      const ranBy = (ran * 1e7) as StationStop['ran'];
      return {
        id: `s${n}`,
        station: 'fold',
        at: begin,
        end: at(ran + n * 30 + 30),
        ran: ranBy,
        cartons: ran,
      };
    };
    const minutes = [0, 5, 10, 12, 60, 62, 100, 101, 102];
    const then: RunThen = {
      ...{ to: end, size: 'sachet-20', judged: [] },
      stops: minutes.map((minute, n) => stop(n, minute * MIN)),
    };
    const within = { kind: 'minutes', minutes: 20 } as const;
    const held = stopsHeld(then, rules({ stopsCounted: { on: true, stops: 3, within } }), 5);
    expect(counted(held, 'stopsCounted')).toBe(2);
    const four = stopsHeld(then, rules({ stopsCounted: { on: true, stops: 4, within } }), 5);
    expect(counted(four, 'stopsCounted')).toBe(1);
  });

  it('[NT1] is a station beyond its own normal as rarely as the budget asks for, not before the grace is over', () => {
    const times = [100, 400, 700, 5000];
    const stops = times.map((after, n) => ({
      ...{ id: `s${n}`, station: 'fold', at: at(after), end: at(after + 200) },
      ...{ ran: 0 as StationStop['ran'], cartons: after },
    }));
    const looks = [2, 6, 9, 7].map((onceInShifts, n) => ({
      at: at(times[n]!),
      onceInShifts,
      rested: n === 3,
    }));
    const then: RunThen = { to: end, size: 'sachet-20', judged: [{ station: 'fold', looks }], stops };
    const held = stopsHeld(then, first, 5);
    expect(seconds(held)[0]![0]).toBe(400 + first.stops.graceSeconds);
    expect(counted(held, 'stops')).toBe(2);
    expect(counted(stopsHeld(then, first, 8), 'stops')).toBe(1);
  });

  it('[NT1] is the rate below its share from and until the minutes at which it is told live', () => {
    const every = (wait: number, from: number, count: number): Rows =>
      goods(0, 900, count).map(([step, signal, value]) => [from + (step as number) * wait, signal, value]);
    const some = rules({ rate: { on: true, share: 0.8, minutes: 5 } });
    // a carton each second and a half, then one each second
    const fold = foldOf([...running(), ...every(1.5, 1, 1), ...every(1, 1352, 902)]);
    const holding = new Set<string>();
    const live: number[] = [];
    for (let second = MIN; second <= 2220; second += MIN) {
      const conditions = conditionsOf({
        ...{ seen: seenAt(fold, at(second)), outside: { servers: [] }, wall: epochMs(at(second)) },
        ...{ begun: epochMs(at(0)), rules: some, holding, stations: [], tested: new Map(), disk: undefined },
      });
      const holds = conditions.present.some(({ key }) => key === 'rate');
      if (holds !== holding.has('rate') && !conditions.undecided('rate')) live.push(second);
      if (holds) holding.add('rate');
      else if (!conditions.undecided('rate')) holding.delete('rate');
    }
    const shifts = [fold.state.shift];
    const output = { index, rules: some, to: at(2220), shifts, changeovers: [], pauses: [] };
    const held = run(rateHeld({ ...output, targetAt: () => 60 }));
    expect(live).toHaveLength(2);
    expect(seconds(held)).toEqual([live]);
    expect(run(rateHeld({ ...output, targetAt: () => undefined }))).toEqual([]);
  });

  it('[NT1] is a shift that had lost more than its share by its end', () => {
    const shift = (good: number): ShiftRecord => {
      const { shift: record } = foldOf(running()).state;
      const account = { ...openAccount(3, at(0), 600, 0), possible: 1000 * 6_000_000_000, good };
      return { ...record, until: at(8 * HOURS), account };
    };
    const output = { index, rules: first, to: end, changeovers: [], pauses: [], targetAt: () => 60 };
    expect(lostHeld({ ...output, shifts: [shift(690)] })).toHaveLength(1);
    expect(lostHeld({ ...output, shifts: [shift(710)] })).toEqual([]);
    expect(lostHeld({ ...output, shifts: [shift(690)], to: at(7 * HOURS) })).toEqual([]);
  });

  it('[NT1] counts for each person what the first step of the plan would have brought, and what reached nobody', () => {
    const plan = (level: 'urgent' | 'call', who: string) => ({
      levels: [level],
      steps: [
        { afterMinutes: 0, tell: [{ kind: 'person', person: who }] },
        { afterMinutes: 10, tell: [{ kind: 'person', person: '99' }] },
      ],
    });
    const who = {
      recipients: [person('12'), person('34'), person('99')],
      ...{ rotas: [], plans: [plan('urgent', '12'), plan('call', '34')] },
    } as NoticeSettings['who'];
    const gaps = [{ from: at(5000), to: at(6000), kind: 'unknown' }] as const;
    const held = heldThen(asked({ presses: [press('a', 100), press('b', 900)], gaps }));
    expect([...swept(held, { who }).told]).toEqual([
      ['12', 2],
      ['34', 1],
      ['99', 0],
    ]);
    const shutOff = new Set(['12', '34', '99']);
    expect(swept(held, { who }, { shutOff }).nobody).toBe(3);
    // what was raised before the days looked at is not counted
    expect(swept(held, { who }, { from: at(500) }).told.get('12')).toBe(1);
  });

  it('[NT1] [NL8] leaves what holds as it was while nobody saw the line, and raises nothing of it', () => {
    const gaps = [{ from: at(50), to: at(200) }];
    const held = heldThen(
      asked({ presses: [press('a', 100), press('b', 190, { stop: 's2', restarted: at(900) })] }),
    );
    // the first one was pressed and over while nobody looked
    expect(swept(held, {}, { gaps }).notices.get('press')).toBe(1);
  });

  it('[NT1] stops after each moment and each look at hours, so that the line is not held up', () => {
    const notes = rules({ levels: { ...first.levels, press: 'note' } });
    const presses = Array.from({ length: 50 }, (_, n) => press(`p${n}`, 100 * n));
    const held = heldThen(asked({ presses, rules: notes }));
    const shifts = { when: { shifts: ['late'], quiet: [] } };
    const settings = {
      when: notes,
      who: { recipients: [person('12', shifts)], rotas: [], plans: [] },
    };
    const work = triedSweep({ index, settings, shutOff: new Set(), from: at(0), held, gaps: [] });
    let turns = 0;
    let next = work.next();
    for (; !next.done; next = work.next()) turns += 1;
    // when each begins and ends, and before and after it is looked for when the late shift begins
    expect(turns).toBe(50 * 4);
    expect(next.value.told.get('12')).toBe(50);
  });
});
