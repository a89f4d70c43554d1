import { describe, expect, it } from 'vitest';
import type { EntryBody } from '../../../model/entries/entries.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { safetyPast, safetyUses, type SafetyPast } from '../../../model/past/safetyPast.ts';
import { standstillOf, standstillsAsked } from '../../../model/past/standstill.ts';
import { cellStarts } from '../../../model/past/timeCells.ts';
import { usesOf } from '../../../model/past/uses.ts';
import { type RecordBodies, recordSteps } from '../../../model/records/records.ts';
import { byLineTime } from '../../../model/signals/signals.ts';
import { epochMs, HOUR, type Instant } from '../../../model/units/units.ts';
import { at, changes, goods, type Rows, running, smallLine } from '../smallLine.ts';

const line = smallLine();

/** A device stops a line that runs; a minute later a jam stops it, in which the circuit and the door are used. */
const shift: Rows = [
  ...running(),
  ...goods(1, 100, 1),
  [100.5, 'panel', true],
  [100.55, 'state', 8],
  [100.55, 'reason', 301],
  [110, 'panel', false],
  [115, 'state', 1], // clearing
  [120, 'state', 6],
  [120, 'reason', 0],
  ...goods(123, 300, 101),
  [301, 'state', 11],
  [301, 'reason', 51],
  [305, 'circuit', true],
  [310, 'door', true],
  [330, 'door', false],
  [331, 'circuit', false],
  [335, 'state', 6],
  [335, 'reason', 0],
  ...goods(336, 399, 279),
];

/** Then the door reads open for four seconds, and the line runs on. */
const runsOn: Rows = [...shift, [400, 'door', true], ...goods(400, 420, 343), [404, 'door', false]];

const entered = (second: number, body: EntryBody): Rows[number] => [
  second,
  'entry',
  JSON.stringify({
    id: `e-${second}`,
    at: epochMs(at(second)),
    author: { kind: 'screen', screen: 'desk' },
    ...body,
  }),
];

function kept(rows: Rows) {
  const fold = new LineFold(line);
  const records = new Map<string, RecordBodies[keyof RecordBodies]>();
  for (const change of changes(line, rows).sort(byLineTime)) {
    for (const step of recordSteps(fold.take([change]), fold.state)) {
      if (step.kind !== 'put') continue;
      const { kind, at: begin, id, body } = step.record;
      // written down before the fold steps on, as what it holds goes on changing
      records.set(`${kind} ${begin} ${id}`, JSON.parse(JSON.stringify(body)) as typeof body);
    }
  }
  const of = <Kind extends keyof RecordBodies>(kind: Kind) =>
    [...records].filter(([key]) => key.startsWith(`${kind} `)).map(([, body]) => body as RecordBodies[Kind]);
  return {
    index: fold.index,
    stops: of('stop'),
    presses: of('press'),
    guards: of('guard'),
    gaps: of('gap'),
    findings: of('finding'),
    entries: of('entry'),
    open: new Set(fold.state.open.map(({ id }) => id)),
    olderFindings: 0,
  };
}

function askedOf(
  rows: Rows,
  { from = 0, to = 500, device }: { from?: number; to?: number; device?: string } = {},
) {
  return {
    ...kept(rows),
    from: at(from),
    to: at(to),
    since: at(0),
    earlier: [],
    begun: at(0),
    device,
    most: 100,
    standstills: new Map(),
  };
}

const past = (...asked: Parameters<typeof askedOf>): SafetyPast => safetyPast(askedOf(...asked));
const deviceOf = (safety: SafetyPast, id: string) => safety.devices.find((device) => device.id === id)!;

describe('what stop devices and guards read in a stretch of the past', () => {
  it('a press caused the stop where the machine still produced, and was used during it where it did not', () => {
    const { list, presses, openings, listed, leftOut } = past(shift);
    expect(list).toMatchObject([
      {
        name: 'stop circuit',
        role: 'during',
        released: 26_000,
        reset: 'notSeen',
        restarted: 30_000,
        firstGood: 31_000,
        parts: [
          { kind: 'held', from: 0, to: 26_000 },
          { kind: 'between', from: 26_000, to: 30_000 },
          { kind: 'restarted', from: 30_000, to: 31_000 },
        ],
        before: { kind: 'fault', name: 'tuck jam', ago: 4000 },
        candidates: ['front', 'back'],
      },
      {
        name: 'main panel',
        role: 'caused',
        released: 9500,
        reset: 14_500,
        restarted: 19_500,
        firstGood: 22_500,
        before: { kind: 'nothing' },
        candidates: [],
      },
    ]);
    expect(presses).toEqual({ uses: 2, caused: 1, during: 1, uncertain: 0, noStop: 0 });
    expect(openings).toEqual({ uses: 1, caused: 0, during: 1, uncertain: 0, noStop: 0 });
    expect([listed, leftOut]).toEqual([2, 1]);
  });

  it('[ST11] an opening that is the last that is known of a stop that ended unseen was in it', () => {
    const dark: Rows = [
      ...running(),
      [10, 'state', 11],
      [10, 'reason', 51],
      [40, 'door', true],
      [40, 'link', false],
      [200, 'door', false],
      [200, 'cycles', 60],
      [200, 'state', 11],
      [200, 'link', true],
    ];
    const asked = askedOf(dark);
    expect(asked.stops).toMatchObject([{ end: at(40), endSeen: false }, { begin: at(200) }]);
    expect(safetyPast(asked).openings).toMatchObject({ uses: 1, during: 1 });
  });

  it('the middle time to the first good carton is one that was seen, and says of how many', () => {
    expect(past(shift).toFirstGood).toEqual({ middle: 22_500, of: 2 });
    expect(past(running()).toFirstGood).toEqual({ middle: undefined, of: 0 });
  });

  it('of a chosen guard every opening is listed; its reset is not kept', () => {
    const { list, leftOut } = past(shift, { device: 'door' });
    expect(list).toMatchObject([
      { kind: 'opened', role: 'during', released: 20_000, restarted: 25_000, firstGood: 26_000 },
    ]);
    expect([list[0]!.reset, leftOut]).toEqual([undefined, 0]);
  });

  it('what is still to come is not what nobody saw', () => {
    const open = past([...running(), ...goods(1, 10, 1), [10.5, 'panel', true], [10.55, 'state', 8]]);
    expect(open.list).toMatchObject([
      { released: 'toCome', reset: 'toCome', restarted: 'toCome', firstGood: 'toCome', parts: [] },
    ]);
    const released = past([
      ...running(),
      [10.5, 'panel', true],
      [10.6, 'state', 8],
      [11, 'panel', false],
      [12, 'state', 6],
      [12.5, 'good', 1],
    ]);
    expect(released.list).toMatchObject([
      { released: 500, reset: 'notSeen', restarted: 1500, firstGood: 2000 },
    ]);
  });

  it('a device that only its twin counted was pressed at no seen moment, and nothing follows from it', () => {
    const { list } = past([...running(), [50, 'panelCount', 1], ...goods(51, 60, 1)]);
    expect(list).toMatchObject([
      {
        owned: false,
        role: 'uncertain',
        released: 'notSeen',
        firstGood: 'notSeen',
        before: { kind: 'unseen' },
      },
    ]);
    expect(deviceOf(past([...running(), [50, 'panelCount', 1]]), 'panel').lastOperated).toEqual({
      kind: 'notCertain',
      at: epochMs(at(50)),
    });
  });

  it('a guard read open at the first look was opened at no seen moment; one read closed was not opened', () => {
    const first = running().map((row): Rows[number] => (row[1] === 'door' ? [row[0], 'door', true] : row));
    expect(past(first, { device: 'door' }).list).toMatchObject([{ owned: false, role: 'uncertain' }]);
    expect(past(running(), { device: 'door' }).list).toEqual([]);
  });

  it('[PS5] a guard read open while the line ran stands first until a person closes it with what was found', () => {
    const { ranOn, ranOnCount, devices } = past(runsOn);
    expect(ranOn).toMatchObject([
      {
        of: 'door',
        reading: 'open',
        at: epochMs(at(400)),
        until: epochMs(at(404)),
        ran: 4000,
        closed: undefined,
        // 3 s before and after: the reading lies from 3 to 7 of 10 seconds, and the line ran in all of them
        lanes: {
          from: epochMs(at(397)),
          ran: [{ from: 0, to: 1 }],
          read: { from: 0.3, to: 0.7 },
          unseen: [],
        },
      },
    ]);
    expect(ranOnCount).toEqual({ lasts: 0, open: 1, closed: 0, older: 0, explained: 0 });
    expect(devices.map(({ standstill }) => standstill)).toEqual(['notSeen', 'notSeen', 'notUsable']);
    const closing = entered(450, { kind: 'closed', finding: ranOn[0]!.id, words: 'switch replaced' });
    const closed = past([...runsOn, closing]);
    expect(closed.ranOn).toMatchObject([{ reading: 'closed', closed: { words: 'switch replaced' } }]);
    expect(closed.ranOnCount).toMatchObject({ open: 0, closed: 1 });
  });

  it('[PS5] a reading that a signal explains stays listed, after those that wait for a person', () => {
    const explained: Rows = [...runsOn, [440, 'enabling', true], [441, 'door', true], [446, 'door', false]];
    expect(past(explained).ranOn.map(({ reading, ran }) => [reading, ran])).toEqual([
      ['open', 4000],
      ['explained', 5000],
    ]);
  });

  it('devices stand in the order of the line’s file, whatever their counts, each with what is known of it last', () => {
    const tested = entered(450, {
      kind: 'tested',
      device: 'door',
      method: 'opened at standstill',
      person: '31',
    });
    const { devices } = past([...runsOn, tested]);
    expect(devices.map(({ id }) => id)).toEqual(['panel', 'circuit', 'door']);
    expect(devices).toMatchObject([
      {
        sum: { caused: 1, during: 0 },
        lastOperated: { kind: 'seen', at: epochMs(at(100.5)), how: 'pressed' },
        lastRunning: { kind: 'seen', at: epochMs(at(100.5)) },
        lastTest: undefined,
      },
      { sum: { during: 1 }, lastRunning: { kind: 'notSeen', since: epochMs(at(0)) } },
      {
        sum: { during: 1, noStop: 1 },
        lastRunning: { kind: 'seen', at: epochMs(at(400)), how: 'opened' },
        lastTest: { person: '31', method: 'opened at standstill', at: epochMs(at(450)) },
      },
    ]);
    // one cell, as there is no more than an hour
    expect(devices[2]!.cells).toMatchObject([{ during: 1, noStop: 1, tests: 1, open: 1 }]);
  });

  it('[PS4] which button of a circuit it was is kept once a person says so', () => {
    const press = kept(shift).presses.find(({ device }) => device === 1)!.id;
    const said = entered(450, { kind: 'device', press, candidate: 'back' });
    expect(past([...shift, said]).list[0]).toMatchObject({ name: 'stop circuit', candidate: 'back' });
  });

  it('what came before is counted in a fixed order, over the uses that are listed', () => {
    const { before } = past(runsOn);
    expect(before).toEqual([
      { kind: 'fault', uses: 1 },
      { kind: 'nothing', uses: 2 },
    ]);
    const soon = past([...shift, [350, 'panel', true], [350.05, 'state', 8], [350.05, 'reason', 301]]);
    expect(soon.list[0]).toMatchObject({
      name: 'main panel',
      before: { kind: 'restarting', name: 'tuck jam', ago: 15_000 },
    });
  });

  it('a list holds what was asked for, the newest, and a file all of it', () => {
    const asked = { ...askedOf(shift), most: 1 };
    const { list, listed } = safetyPast(asked);
    expect([list.length, listed, list[0]!.name]).toEqual([1, 2, 'stop circuit']);
    expect(safetyUses(asked).map(({ name }) => name)).toEqual(['main panel', 'stop circuit', 'guard door 1']);
  });

  it('a stretch is drawn in no more than 31 cells', () => {
    const cells = (hours: number) => cellStarts(0 as Instant, (hours * HOUR) as Instant).length;
    expect([8, 24, 7 * 24, 30 * 24, 365 * 24].map(cells)).toEqual([8, 24, 28, 30, 31]);
    // the minute that has begun since is no cell of its own
    expect([0.01, 24.01, 24.5].map(cells)).toEqual([1, 24, 25]);
  });
});

describe('time to standstill, as cycles show it', () => {
  const cycles = (from: number, to: number): Rows =>
    Array.from({ length: to - from + 1 }, (_, n): Rows[number] => [from + n, 'cycles', from + n]);
  const seen = (rows: Rows) => {
    const asked = askedOf([...shift, ...rows]);
    const [one] = standstillsAsked(usesOf(asked.index, asked), asked);
    return one && [one.of, standstillOf(asked.index, one, changes(line, rows))];
  };

  it('is until the last cycle after the press, beside how long a cycle took before', () => {
    const stop = { at: epochMs(at(100.5)), cycle: 1000 };
    expect(seen([...cycles(90, 100), [101.3, 'cycles', 101]])).toEqual(['panel', { ...stop, last: 800 }]);
    expect(seen(cycles(90, 100))).toEqual(['panel', { ...stop, last: 0 }]);
  });

  it('does not count what moves once the device is released, and is not seen with too few cycles before', () => {
    expect(seen([...cycles(90, 100), [112, 'cycles', 101]])).toMatchObject(['panel', { last: 0 }]);
    expect(seen(cycles(98, 100))).toEqual(['panel', undefined]);
  });
});
