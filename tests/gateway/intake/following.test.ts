import { describe, expect, it } from 'vitest';
import type { Message, RawValue } from '../../../gateway/intake/connection.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { byLineTime } from '../../../model/signals/signals.ts';
import { instantFromMs } from '../../../model/units/units.ts';
import { smallLine } from '../../model/smallLine.ts';
import { FakeLink, type FakeLinkOptions } from './fakeLink.ts';
import { link, signals } from './fixture.ts';

const BEGAN = Date.UTC(2026, 2, 17, 12);
const BAD = 0x80050000; // BadCommunicationError, OPC 10000-4
const [STATE, COUNT, STOP] = [0, 1, 2];
const types = [6, 7, 1]; // Int32, UInt32, Boolean: OPC 10000-6

/** A tag, its value, the second of its stamp, its status. */
type Told = readonly [item: number, value: number | boolean | undefined, stamp: number, status?: number];

const raw = ([item, value, stamp, status = 0]: Told): RawValue => {
  const ms = BEGAN + stamp * 1000;
  const wire = value === undefined ? undefined : { dataType: types[item]!, scalar: true, value };
  return { item, status, wire, sourceMs: ms, sourceTicks: 0, serverMs: ms, serverTicks: 0 };
};

function publish(second: number, number: number, told: readonly Told[], more = false): Message {
  const received = BEGAN + second * 1000;
  const values = () => told.map(raw);
  return {
    kind: 'message',
    life: 1,
    number,
    keepAlive: told.length === 0,
    more,
    received,
    size: told.length,
    values,
  };
}

/** Live from second 1 on: it runs, has counted 100, and nobody presses. */
async function live(options: Partial<FakeLinkOptions> & { now?: readonly Told[] } = {}) {
  const now = {
    told: options.now ?? [
      [STATE, 6, 0.5],
      [COUNT, 100, 0.5],
      [STOP, false, 0.5],
    ],
  } as {
    told: readonly Told[];
  };
  const fake = new FakeLink({
    signals: signals.slice(0, 3),
    linkSignal: link,
    began: BEGAN,
    reading: () => now.told.map(raw),
    ...options,
  });
  await fake.open();
  await fake.tell(publish(0.5, 1, now.told), publish(1, 2, []));
  expect(fake.flow.phase).toBe('live');
  return { fake, now };
}

/** What a signal is, one after the other, in line time. */
const story = (fake: FakeLink, signal: number) =>
  [...fake.of(signal)].sort(byLineTime).map(({ value, status }) => (status === 0 ? value : 'bad'));
const lastOf = (fake: FakeLink, signal: number) => story(fake, signal).at(-1);
/** What the link said, without that it is heard still. */
const gaps = (fake: FakeLink) =>
  fake
    .of(link)
    .map(({ value }) => value)
    .filter((value, place, all) => place === 0 || (value === false) !== (all[place - 1] === false));

describe('values of one tag that follow each other', () => {
  it('a quality that goes to and fro under one stamp is each time as it was told last', async () => {
    const { fake } = await live();
    await fake.tell(publish(60, 2, [[STATE, undefined, 0.5, BAD]]));
    expect(lastOf(fake, STATE)).toBe('bad');
    await fake.tell(publish(70, 3, [[STATE, 6, 0.5]]));
    expect(lastOf(fake, STATE)).toBe(6);
    await fake.tell(publish(80, 4, [[STATE, undefined, 0.5, BAD]]));
    expect(story(fake, STATE)).toEqual([6, 'bad', 6, 'bad']);
    await fake.tell(publish(90, 5, [[STATE, 6, 0.5]]));
    expect(story(fake, STATE)).toEqual([6, 'bad', 6, 'bad', 6]);
  });

  it('a stop device that is pressed, released and pressed again under one coarse stamp reads pressed', async () => {
    const { fake } = await live();
    const told: Told[] = [
      [STOP, true, 9],
      [STOP, false, 9],
      [STOP, true, 9],
    ];
    await fake.tell(publish(9.5, 2, told));
    expect(story(fake, STOP)).toEqual([false, true, false, true]);
    await fake.tell(publish(9.75, 3, [[STOP, false, 9]]));
    expect(lastOf(fake, STOP)).toBe(false);
  });

  it('what is told twice in a row is recorded once', async () => {
    const { fake } = await live();
    await fake.tell(publish(9.5, 2, [[COUNT, 101, 9]]), publish(9.75, 3, [[COUNT, 101, 9]]));
    expect(story(fake, COUNT)).toEqual([100, 101]);
  });

  it.each([0.1, 1, 1.9])('a clock that is put back by %d s turns nothing round', async (by) => {
    const { fake } = await live();
    await fake.tell(
      publish(20.9, 2, [
        [STOP, true, 20.8],
        [STATE, 11, 20.85],
        [COUNT, 119, 20.85],
      ]),
      publish(21.8, 3, [
        [STOP, false, 21.7 - by],
        [STATE, 6, 21.75 - by],
        [COUNT, 120, 21.76 - by],
      ]),
      publish(22.1, 4, [[COUNT, 121, 22 - by]]),
    );
    expect(story(fake, STOP)).toEqual([false, true, false]);
    expect(story(fake, STATE)).toEqual([6, 11, 6]);
    expect(story(fake, COUNT)).toEqual([100, 119, 120, 121]);
  });

  it('values without a time of their own follow each other as they came, also beside some that have one', async () => {
    const { fake } = await live();
    const message = publish(60, 2, [
      [COUNT, 101, 59],
      [COUNT, 102, 59.5],
    ]);
    const [stamped, unstamped] = message.values();
    // no time, as OPC UA sends it (OPC 10000-6, 5.2.2.5)
    const none = { ...unstamped!, sourceMs: Date.UTC(1601, 0, 1) };
    await fake.tell({ ...message, values: () => [stamped!, none] });
    expect(story(fake, COUNT)).toEqual([100, 101, 102]);
  });

  it('steps back of less than two seconds, again and again, count nothing twice', async () => {
    const { fake } = await live();
    const line = smallLine({}, [
      { id: 'state', role: 'state' },
      { id: 'good', role: 'goodCount', wraps: 2 ** 32 },
      { id: 'stop', role: 'stopDevice', of: 'panel', type: 'boolean' },
    ]);
    let [number, behind] = [2, 0];
    for (let second = 2; second <= 600; second += 1, number += 1) {
      if (second % 60 === 0) behind += 1.9;
      await fake.tell(publish(second, number, [[COUNT, 98 + second, second - 0.1 - behind]]));
    }
    const fold = new LineFold(line);
    fold.take(fake.changes.filter(({ signal }) => signal !== link).sort(byLineTime));
    expect(fold.state.counterMarks).toEqual([]);
    expect(fold.state.values[COUNT]).toBe(698);
  });

  it('a value that is long late keeps its own time', async () => {
    const { fake } = await live();
    await fake.tell(publish(20, 2, [[COUNT, 119, 19.9]]), publish(20.25, 3, [[COUNT, 110, 10]]));
    expect(fake.of(COUNT).at(-1)).toMatchObject({ value: 110, at: instantFromMs(BEGAN + 10_000) });
    expect(lastOf(fake, COUNT)).toBe(119);
  });
});

describe('what a server does not tell', () => {
  it('a tag that it reads out but will not watch is not known', async () => {
    const { fake } = await live({ refused: new Map([[STOP, 0x80db0000]]) }); // BadTooManyMonitoredItems
    expect(lastOf(fake, STATE)).toBe(6);
    expect(fake.of(STOP).at(-1)).toMatchObject({ value: null, status: 0x80db0000 });
  });

  const four = (from: number): Told[] =>
    Array.from({ length: 4 }, (_, n): Told => [COUNT, 150 + n, from + n / 10]);

  it('a tag that it will not watch is not known anew after an outage, though it changed meanwhile', async () => {
    const { fake, now } = await live({ refused: new Map([[COUNT, BAD]]) });
    now.told = [
      [STATE, 6, 0.5],
      [COUNT, 131, 30],
      [STOP, false, 0.5],
    ];
    await fake.tell({ kind: 'lost' }, { kind: 'restored' }, publish(60, 2, [[STATE, 6, 59]]));
    expect(fake.flow.phase).toBe('live');
    expect(fake.of(COUNT).map(({ value, status }) => [value, status])).toEqual([
      [100, 0],
      [null, BAD],
    ]);
  });

  it('a full queue after a while without any publish is a gap, though no bit says so', async () => {
    const { fake, now } = await live({ queue: 4 });
    await fake.tell(publish(2, 2, [[COUNT, 101, 1.9]]));
    now.told = [[COUNT, 153, 60.3]];
    await fake.tell(publish(61, 3, four(60)), publish(61.3, 4, [[COUNT, 154, 61.2]]));
    expect(gaps(fake)).toEqual([true, false, true]);
    expect(fake.of(link)[1]!.at).toBe(instantFromMs(BEGAN + 2000));
    expect(lastOf(fake, COUNT)).toBe(154);
  });

  it('and so it is behind publishes that had been sent before', async () => {
    const { fake, now } = await live({ queue: 4 });
    now.told = [[COUNT, 153, 60.3]];
    await fake.tell(
      publish(61, 2, [[COUNT, 101, 1.9]]),
      publish(61.01, 3, [[COUNT, 102, 2.2]]),
      publish(61.02, 4, four(60).slice(0, 2), true),
      publish(61.03, 5, four(60).slice(2)),
      publish(61.3, 6, [[COUNT, 154, 61.2]]),
    );
    expect(gaps(fake)).toEqual([true, false, true]);
  });

  it('one that is full in time is none', async () => {
    const { fake } = await live({ queue: 4 });
    await fake.tell(publish(1.9, 2, four(1.5)), publish(2.15, 3, [[COUNT, 154, 2.1]]));
    expect(gaps(fake)).toEqual([true]);
  });

  it('after back-pressure the link is heard again once what the queues held is recorded: whole if none was full', async () => {
    for (const [values, end] of [
      [four(1.2).slice(0, 3), 'whole'],
      [four(1.2), true],
    ] as const) {
      const { fake, now } = await live({ queue: 4 });
      await fake.flow.resumed();
      now.told = [values.at(-1)!];
      await fake.tell(publish(1.9, 2, values), publish(2.2, 3, []));
      expect(gaps(fake)).toEqual([true, false, end]);
    }
  });

  it('what comes while every tag is read, with a queue that is full, does not end whole', async () => {
    let came: Message[] = [];
    const { fake, now } = await live({ queue: 4, whileRead: () => came.splice(0) });
    await fake.tell({ kind: 'lost' });
    now.told = [[COUNT, 153, 9.3]];
    came = [publish(10.1, 3, four(9))];
    await fake.tell({ kind: 'restored' }, publish(10, 2, [[COUNT, 101, 8]]), publish(10.4, 4, []));
    expect(gaps(fake)).toEqual([true, false, true]);
  });
});

describe('numbers that begin again', () => {
  it('in the same subscription are no repetition: the connection is made anew, and the time between is a gap', async () => {
    let reopened = 0;
    const { fake } = await live({
      reopened: () => {
        reopened += 1;
      },
    });
    for (let n = 2; n <= 39; n += 1) await fake.tell(publish(n, n, [[COUNT, 98 + n, n - 0.1]]));
    await fake.tell(publish(40, 1, [[COUNT, 138, 39.9]]));
    expect(reopened).toBe(1);
    expect(gaps(fake).at(-1)).toBe(false);
    expect(fake.of(link).at(-1)!.at).toBe(instantFromMs(BEGAN + 39_000));
  });

  it('a whole message that comes twice is dropped', async () => {
    const { fake } = await live();
    const twice = publish(3, 2, [
      [COUNT, 101, 2.9],
      [STATE, 11, 2.95],
    ]);
    await fake.tell(twice, publish(3.25, 3, [[COUNT, 102, 3.2]]), { ...twice, received: BEGAN + 3400 });
    expect(gaps(fake)).toEqual([true]);
    expect(story(fake, STATE)).toEqual([6, 11]);
  });
});
