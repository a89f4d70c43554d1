import { describe, expect, it } from 'vitest';
import type { ClockSetting } from '../../../gateway/intake/lineTime.ts';
import type { Message, RawValue } from '../../../gateway/intake/connection.ts';
import { byLineTime } from '../../../model/signals/signals.ts';
import { type Instant, instantFromMs } from '../../../model/units/units.ts';
import { FakeLink } from './fakeLink.ts';
import { signals as four, link } from './fixture.ts';

const BEGAN = Date.UTC(2026, 2, 17, 12);
const COUNT = 1;
const MEASURED = 4;
const signals = [
  ...four,
  { index: MEASURED, id: 'angle', role: 'machineAngle', machine: 'm', server: 'plc', type: 'number' },
] as const;
const UINT32 = 7;
const OVERFLOW = 0x480;

/** Seconds after the beginning, on the line's time. */
const at = (after: number): Instant => instantFromMs(BEGAN + after * 1000);
const links = (fake: FakeLink) => fake.of(link).map((one) => [(one.at - at(0)) / 10_000_000, one.value]);
const counts = (fake: FakeLink) => fake.of(COUNT).map(({ value }) => value);

type Told = readonly [seconds: number, value: number, status?: number, item?: number];

function raw([seconds, value, status = 0, item = COUNT]: Told, stamped = true): RawValue {
  const ms = stamped ? BEGAN + seconds * 1000 : undefined;
  const wire = { dataType: UINT32, scalar: true, value };
  return { item, status, wire, sourceMs: ms, sourceTicks: 0, serverMs: ms, serverTicks: 0 };
}

/** A publish that comes `after` so many seconds; without values a keep-alive. */
function publish(
  after: number,
  number: number,
  told: readonly Told[] = [],
  { more = false, stamped = true, life = 1 } = {},
): Message {
  return {
    kind: 'message',
    life,
    number,
    keepAlive: told.length === 0,
    more,
    received: BEGAN + after * 1000,
    size: told.length,
    values: () => told.map((one) => raw(one, stamped)),
  };
}

/** A link that is live after 1 s, with a count of 100; `now` is what a reading gives of it. */
async function live(
  options: { readonly clock?: ClockSetting; readonly stamped?: boolean; readonly queue?: number } = {},
  first = 1,
): Promise<{ readonly fake: FakeLink; now: Told; whileRead: Message[] }> {
  const server: { fake: FakeLink; now: Told; whileRead: Message[] } = {
    now: [0.5, 100],
    whileRead: [],
    fake: undefined as never,
  };
  server.fake = new FakeLink({
    signals,
    linkSignal: link,
    began: BEGAN,
    reading: () => [raw(server.now, options.stamped)],
    whileRead: () => server.whileRead.splice(0),
    // a clock that is local in its stamps is local when it is read
    clockMs: () => server.fake.now + (options.clock === 'local' ? 3_600_000 : 0),
    ...options,
  });
  await server.fake.open();
  await server.fake.tell(
    publish(0.5, first, [[0.5, 100]], options),
    publish(1, first === 0xffffffff ? 1 : first + 1),
  );
  expect(server.fake.flow.phase).toBe('live');
  return server;
}

describe('a message that shows that something was missed', () => {
  it('a queue that overflowed while live is a gap from the last publish on, until every tag is read', async () => {
    const server = await live();
    const { fake } = server;
    await fake.tell(publish(1.25, 2, [[1.2, 101]]));
    server.now = [9.9, 150];
    await fake.tell(
      publish(10, 3, [
        [9.8, 149, OVERFLOW],
        [9.9, 150],
      ]),
    );
    expect(links(fake)).toEqual([
      [0, true],
      [1.25, false],
      [10, true],
    ]);
    expect(counts(fake)).toEqual([100, 101, 149, 150]);
    expect(fake.said).toEqual(['up', 'overflowed', 'up']);
    // the gap was written before what came with it, and the link only after all of it
    expect(fake.changes.map(({ value }) => value)).toEqual([true, 100, 101, false, 149, 150, true]);
    await fake.tell(publish(10.25, 4, [[10.1, 151]]));
    expect(counts(fake).at(-1)).toBe(151);
    expect(fake.of(link)).toHaveLength(3);
  });

  it.each([
    { kept: 'fewer values of a tag than its queue holds', queue: 4, item: COUNT, link: 'whole' },
    {
      kept: 'as many as its queue holds: more may have been dropped without a word',
      queue: 3,
      item: COUNT,
      link: true,
    },
    {
      kept: 'as many as its queue holds, of a tag that is only a sample',
      queue: 3,
      item: MEASURED,
      link: 'whole',
    },
  ])('after a cut, $kept', async ({ queue, item, link: told }) => {
    const { fake } = await live({ queue });
    await fake.tell(publish(1.25, 2, [[1.2, 100]]), { kind: 'lost' });
    const three = [2, 3, 4].map((second): Told => [second, 100 + second, 0, item]);
    // one publish in two messages
    await fake.tell(publish(10, 3, three.slice(0, 2), { more: true }), publish(10.01, 4, three.slice(2)));
    await fake.tell({ kind: 'restored' }, publish(10.25, 5, [[10.2, 110]]));
    expect(fake.flow.phase).toBe('live');
    expect(fake.of(link).at(-1)!.value).toBe(told);
  });

  it('an overflow late in a publish of several messages is a gap from before the first of them', async () => {
    const server = await live();
    const { fake } = server;
    await fake.tell(publish(1.25, 2, [[1.2, 101]]));
    server.now = [9.9, 150];
    await fake.tell(
      publish(10, 3, [[9.6, 148, 0, 0]], { more: true }),
      publish(10.01, 4, [[9.8, 149, OVERFLOW]], { more: true }),
      publish(10.02, 5, [[9.9, 150]]),
    );
    expect(links(fake)).toEqual([
      [0, true],
      [1.25, false],
      [10.02, true],
    ]);
    expect(counts(fake)).toEqual([100, 101, 149, 150]);
    expect(fake.readings).toBe(2);
  });

  it('a publish that is still coming when every tag has been read is waited for', async () => {
    const server = await live();
    const { fake } = server;
    await fake.tell({ kind: 'lost' }, { kind: 'restored' });
    server.now = [9.8, 150];
    server.whileRead = [publish(9.8, 3, [[9.6, 148]], { more: true })];
    await fake.tell(publish(9.75, 2, [[9.5, 147]]));
    expect(links(fake).at(-1)).toEqual([1, false]);
    await fake.tell(publish(9.81, 4, [[9.7, 149, OVERFLOW]]));
    expect(links(fake).at(-1)).toEqual([9.81, true]);
    expect(counts(fake)).toEqual([100, 147, 148, 149, 150]);
  });

  it('dropped samples of a measured value are no gap', async () => {
    const { fake } = await live();
    await fake.tell(publish(1.25, 2, [[1.2, 77, OVERFLOW, MEASURED]]));
    expect(fake.of(link)).toHaveLength(1);
    expect(fake.of(MEASURED).map(({ value, status }) => [value, status])).toEqual([[77, OVERFLOW]]);
  });

  it('a message that is missing is a gap from before it, not from after it', async () => {
    const server = await live();
    const { fake } = server;
    await fake.tell(publish(1.25, 2, [[1.2, 101]]));
    server.now = [1.7, 104];
    await fake.tell(publish(1.75, 4, [[1.7, 104]]));
    expect(links(fake)).toEqual([
      [0, true],
      [1.25, false],
      [1.75, true],
    ]);
    expect(fake.said).toEqual(['up', 'missed', 'up']);
  });

  it('a keep-alive that announces a later number shows that a message is missing', async () => {
    const { fake } = await live();
    await fake.tell(publish(3, 3));
    expect(links(fake)).toEqual([
      [0, true],
      [1, false],
      [3, true],
    ]);
  });

  it('a server whose queues overflow again and again is not read at every publish', async () => {
    const server = await live();
    const { fake } = server;
    for (let n = 2; n < 42; n += 1) {
      const seconds = 1 + n / 4;
      server.now = [seconds, 100 + n];
      await fake.tell(publish(seconds, n, [[seconds, 100 + n, OVERFLOW]]));
    }
    expect(fake.readings).toBeLessThanOrEqual(7);
    expect(counts(fake).at(-1)).toBeGreaterThan(130);
    const marks = links(fake);
    const known = marks.reduce((sum, [from, value], place) => {
      const to = marks[place + 1]?.[0] ?? 11.25;
      return value === false ? sum : sum + (Number(to) - Number(from));
    }, 0);
    // heard before the first overflow, and never longer than between two publishes afterwards
    expect(known).toBeLessThanOrEqual(1.5 + 7 * 0.25);
  });
});

describe.each(['utc', 'local', 'received'] as const)('messages out of order, clock %s', (clock) => {
  // where the clock is local, what is stamped as noon was an hour earlier
  const hour = clock === 'local' ? 3600 : 0;
  const told = (value: number, after: number): readonly Told[] => [[after + hour, value]];

  it.each([[[6, 4, 5]], [[6, 5, 4]], [[5, 6, 4]], [[4, 6, 5]]])('%j after a cut', async (order) => {
    const server = await live({ clock });
    const { fake } = server;
    await fake.tell(publish(1.25, 2, told(105, 1.2)), publish(1.5, 3, told(110, 1.45)));
    const sent = new Map([
      [4, told(1000, 2)],
      [5, told(1500, 3)],
      [6, told(2015, 4)],
    ]);
    await fake.tell({ kind: 'lost' });
    for (const [place, number] of order.entries())
      await fake.tell(publish(10 + place / 1000, number, sent.get(number)));
    server.now = told(2016, 10.1)[0]!;
    await fake.tell({ kind: 'restored' }, publish(10.2, 7, told(2016, 10.1)));
    expect(counts(fake)).toEqual([100, 105, 110, 1000, 1500, 2015, 2016]);
    expect(fake.of(link).map(({ value }) => value)).toEqual([true, false, 'whole']);
    const moments = fake.of(COUNT).map((one) => one.at);
    expect([...moments].sort((a, b) => a - b)).toEqual(moments);
  });

  it('also across the highest number', async () => {
    const server = await live({ clock }, 0xfffffffe);
    const { fake } = server;
    await fake.tell({ kind: 'lost' });
    server.now = told(401, 10.1)[0]!;
    await fake.tell(
      publish(10, 2, told(300, 3)),
      publish(10.01, 1, told(200, 2)),
      publish(10.02, 0xffffffff, told(105, 1.2)),
      publish(10.03, 3, told(400, 4)),
      { kind: 'restored' },
      publish(10.2, 4, told(401, 10.1)),
    );
    expect(counts(fake)).toEqual([100, 105, 200, 300, 400, 401]);
    expect(fake.of(link).at(-1)!.value).toBe('whole');
  });

  it('one that comes while every tag is read, and was numbered before what had come', async () => {
    const server = await live({ clock });
    const { fake } = server;
    await fake.tell({ kind: 'lost' }, { kind: 'restored' });
    server.now = told(300, 4)[0]!;
    server.whileRead = [
      publish(10.01, 2, told(200, 2)),
      publish(10.02, 3, told(250, 3)),
      publish(10.03, 5, told(301, 10)),
    ];
    await fake.tell(publish(10, 4, told(300, 4)));
    expect(counts(fake)).toEqual([100, 200, 250, 300, 301]);
    expect(fake.of(link).at(-1)!.value).toBe('whole');
  });

  it.each([0, 3])('a reading that is ahead of the publish after it, message %s missing', async (gone) => {
    const server = await live({ clock });
    const { fake } = server;
    await fake.tell(publish(1.25, 2, told(105, 1.2)), { kind: 'lost' }, { kind: 'restored' });
    server.now = told(304, 10.04)[0]!;
    const next = (number: number) => (gone > 0 && number >= gone ? number + 1 : number);
    await fake.tell(publish(10, next(3), told(300, 9.9)));
    const before = fake.of(link).length;
    await fake.tell(
      publish(
        10.25,
        next(4),
        [301, 302, 303, 304, 305].map((value, place) => told(value, 10.01 + place / 100)[0]!),
      ),
    );
    expect([before, fake.of(link).at(-1)!.value]).toEqual([3, gone > 0 ? true : 'whole']);
    const values = [...fake.of(COUNT)].sort(byLineTime).map(({ value }) => value);
    expect(values).toEqual([100, 105, 300, 301, 302, 303, 304, 305]);
  });

  it('a message that comes twice is dropped whole, though its values have no stamps', async () => {
    const server = await live({ clock, stamped: false });
    const { fake } = server;
    const plain = { stamped: false };
    await fake.tell(publish(1.25, 2, told(105, 1.2), plain), { kind: 'lost' });
    server.now = told(121, 10.1)[0]!;
    await fake.tell(
      publish(10, 3, told(110, 2), plain),
      publish(10.01, 4, told(120, 3), plain),
      publish(10.02, 3, told(110, 2), plain),
      { kind: 'restored' },
      publish(10.2, 5, told(121, 10.1), plain),
      publish(10.45, 4, told(120, 3), plain),
      publish(10.7, 6, told(122, 10.6), plain),
    );
    expect(counts(fake)).toEqual([100, 105, 110, 120, 121, 122]);
  });
});

describe('a link that fell silent', () => {
  it('is whole only once all that waited in the dark is recorded, which may come in several messages', async () => {
    const server = await live();
    const { fake } = server;
    await fake.flow.fellSilent();
    server.now = [2, 102];
    await fake.tell(publish(8, 2, [[1.5, 101]]));
    server.now = [8.1, 104];
    await fake.tell(
      publish(8.01, 3, [[2, 102]]),
      publish(8.02, 4, [[7, 103]]),
      publish(8.3, 5, [[8.1, 104]]),
    );
    expect(counts(fake)).toEqual([100, 101, 102, 103, 104]);
    expect(links(fake).map(([, value]) => value)).toEqual([true, false, 'whole']);
    expect(fake.changes.at(-1)).toMatchObject({ signal: link, value: 'whole' });
    expect(fake.readings).toBe(2);
  });
});
