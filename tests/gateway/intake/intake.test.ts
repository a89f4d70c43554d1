import { DataType } from 'node-opcua';
import { afterEach, describe, expect, it } from 'vitest';
import { byLineTime } from '../../../model/signals/signals.ts';
import { link, moment, pause, record, until } from './fixture.ts';
import { endAll, initial, listen, serve, tags, up } from './listening.ts';
import type { TestServer } from './testServer.ts';

afterEach(endAll, 60_000);

/** Counts up from 100 until the intake, whose tape takes nothing, asks for no more publishes; the last count. */
async function countUntilPaused(server: TestServer): Promise<number> {
  const publishes = () => server.requests('PublishRequest');
  let n = 100;
  for (let asked = -1; publishes() !== asked; ) {
    asked = publishes();
    for (const last = n + 20; n < last; ) {
      n += 1;
      server.set('Count', n, moment());
      await pause(75);
    }
  }
  return n;
}

describe('intake', { timeout: 180_000 }, () => {
  it('sees every pulse of 30 ms', async () => {
    const server = await serve();
    initial(server);
    const recorded = listen({ endpoint: server.endpoint });
    await up(recorded);
    const pulses = 20;
    for (let n = 0; n < pulses; n += 1) {
      server.set('Stop', true, moment());
      await pause(30);
      server.set('Stop', false, moment());
      await pause(45);
    }
    await until('the pulses', () => recorded.of(2).length >= 2 * pulses + 1);
    expect(recorded.of(2).map(({ value }) => value)).toEqual(
      Array.from({ length: 2 * pulses + 1 }, (_, n) => n % 2 === 1),
    );
  });

  it('a server killed and restarted: link lost, all read once, and only then the link again', async () => {
    const server = await serve();
    const began = moment();
    initial(server, began);
    const recorded = listen({ endpoint: server.endpoint });
    await up(recorded);
    server.set('Count', 101, moment());
    await until('the count', () => recorded.of(1).at(-1)?.value === 101);
    const lastAt = recorded.of(1).at(-1)!.at;
    await server.stop();
    await until('lost', () => recorded.of(link).at(-1)?.value === false);
    const lost = recorded.of(link).at(-1)!;
    expect(lost.at).toBeGreaterThanOrEqual(lastAt);
    const again = await serve({ port: server.port });
    const inGap = moment();
    again.set('State', 6, began);
    again.set('Count', 140, inGap);
    again.set('Stop', false, inGap);
    again.set('Text', 'restarted', inGap);
    const before = recorded.changes.length;
    await up(recorded);
    const after = recorded.changes.slice(before);
    expect(after.map(({ signal, value }) => [signal, value])).toEqual([
      [1, 140],
      [2, false],
      [3, 'restarted'],
      [link, true],
    ]);
    expect(after[0]!.at).toBe(inGap);
    expect(after.at(-1)!.at).toBeGreaterThanOrEqual(inGap);
    expect([...after].sort(byLineTime)).toEqual(after);
    again.set('Count', 141, moment());
    await until('live again', () => recorded.of(1).at(-1)?.value === 141);
  });

  it('a namespace that moved to another number is found again', async () => {
    const server = await serve();
    initial(server);
    const recorded = listen({ endpoint: server.endpoint });
    await up(recorded);
    await server.stop();
    await until('lost', () => !recorded.intake.status().up);
    const again = await serve({ port: server.port, shifted: true });
    initial(again);
    again.set('Count', 7, moment());
    await until('count 7', () => recorded.of(1).at(-1)?.value === 7);
    await up(recorded);
    expect([...recorded.intake.status().items.values()].map(({ kind }) => kind)).toEqual([
      'good',
      'good',
      'good',
      'good',
    ]);
  });

  it('a tag that the server does not have is reported and its signal unknown; the others are heard', async () => {
    const server = await serve();
    initial(server);
    const recorded = listen({ endpoint: server.endpoint, tags: ['State', 'Nowhere', 'Stop', 'Text'] });
    await up(recorded);
    const { items } = recorded.intake.status();
    expect([...items.values()].map(({ kind }) => kind)).toEqual(['good', 'missing', 'good', 'good']);
    expect(items.get(1)?.trouble).toContain('Nowhere');
    expect(recorded.of(1).map(({ value, status }) => [value, status])).toEqual([[null, 0x80340000]]);
    expect(recorded.of(0).map(({ value }) => value)).toEqual([6]);
  });

  it('a value of the wrong type makes its signal unknown, and says so', async () => {
    const server = await serve({ tags: { ...tags, Stop: DataType.Int32 } });
    server.set('State', 6, moment());
    server.set('Stop', 0, moment());
    const recorded = listen({ endpoint: server.endpoint });
    await up(recorded);
    expect(recorded.of(2).map(({ value, status }) => [value, status])).toEqual([[null, 0x80740000]]);
    expect(recorded.intake.status().items.get(2)?.kind).toBe('wrongType');
  });

  it('hands over one publish after the other, and waits until each is recorded', async () => {
    const server = await serve();
    initial(server);
    let open = 0;
    let most = 0;
    let gate: Promise<void> = Promise.resolve();
    const take = async () => {
      open += 1;
      most = Math.max(most, open);
      await gate;
      open -= 1;
    };
    const recorded = listen({ endpoint: server.endpoint, take, settings: { waitingMost: 10 } });
    await up(recorded);
    let release = () => {};
    gate = new Promise((resolve) => {
      release = resolve;
    });
    const n = await countUntilPaused(server);
    release();
    await until('all counts', () => recorded.of(1).at(-1)?.value === n);
    expect(recorded.of(1).map(({ value }) => value)).toEqual(
      Array.from({ length: n - 99 }, (_, place) => 100 + place),
    );
    expect(most).toBe(1);
  });

  it('what a tape too slow makes the server drop is a gap from the last publish before it', async () => {
    const server = await serve();
    initial(server);
    let gate: Promise<void> = Promise.resolve();
    const take = () => gate;
    const recorded = listen({ endpoint: server.endpoint, take, settings: { waitingMost: 10, queue: 5 } });
    await up(recorded);
    let release = () => {};
    gate = new Promise((resolve) => {
      release = resolve;
    });
    let n = await countUntilPaused(server);
    for (const last = n + 20; n < last; ) {
      n += 1;
      server.set('Count', n, moment(n));
    }
    release();
    await until('the last count', () => recorded.of(1).at(-1)?.value === n);
    await up(recorded);
    expect(recorded.of(link).map(({ value }) => value)).toEqual([true, false, true]);
    expect(recorded.said.filter((words) => words.includes('more to tell than its queues hold'))).toHaveLength(
      1,
    );
    const values = recorded.of(1).map(({ value }) => value as number);
    expect(values).toEqual([...new Set(values)].sort((a, b) => a - b));
    const [, lost, again] = recorded.of(link);
    const first = values.findIndex((value, place) => place > 0 && value > values[place - 1]! + 1);
    expect(lost!.at).toBeGreaterThanOrEqual(recorded.of(1)[first - 1]!.at);
    expect(lost!.at).toBeLessThan(recorded.of(1)[first]!.at);
    expect(again!.at).toBeGreaterThanOrEqual(recorded.of(1)[first]!.at);
  });

  it('a gateway restarted writes the gap since its last data, and nothing twice', async () => {
    const server = await serve();
    const at = moment();
    initial(server, at);
    const known = new Map([
      [0, { at, value: 6 }],
      [1, { at, value: 90 }],
      [2, { at, value: false }],
      [link, { at, value: true }],
    ]);
    server.set('Count', 100, moment(20_000));
    const recorded = listen({ endpoint: server.endpoint, known: (signal) => known.get(signal) });
    await up(recorded);
    expect(recorded.changes.map(({ signal, value }) => [signal, value])).toEqual([
      [link, false],
      [1, 100],
      [3, 'ready'],
      [link, true],
    ]);
    expect(recorded.changes[0]!.at).toBe(at);
  });

  it('where nothing changes it is written now and then that the server is still heard', async () => {
    const server = await serve();
    initial(server);
    const recorded = listen({ endpoint: server.endpoint, settings: { heardMs: 1000 } });
    await up(recorded);
    const before = recorded.changes.length;
    await until('heard again and again', () => recorded.changes.length >= before + 3);
    const heard = recorded.changes.slice(before);
    expect(heard.every(({ signal, value }) => signal === link && value === true)).toBe(true);
    const apart = heard.slice(1).map(({ at }, place) => at - heard[place]!.at);
    for (const ticks of apart) expect(ticks).toBeGreaterThanOrEqual(1000 * 10_000);
  });

  it('stopping writes that the server is no longer heard', async () => {
    const server = await serve();
    initial(server);
    const recorded = record({ endpoint: server.endpoint });
    await up(recorded);
    await recorded.intake.stop();
    expect(recorded.changes.at(-1)).toMatchObject({ signal: link, value: false });
    expect(recorded.intake.status().up).toBe(false);
  });

  it('a server that is away is waited for, and said to be', async () => {
    const server = await serve();
    await server.stop();
    const recorded = listen({ endpoint: server.endpoint });
    await until('trouble', () => recorded.intake.status().trouble !== undefined);
    expect(recorded.changes).toEqual([]);
    const again = await serve({ port: server.port });
    initial(again);
    await up(recorded);
    expect(recorded.intake.status().trouble).toBeUndefined();
  });

  it('a tag that the server brings later is heard once it is there', async () => {
    const { Text, ...others } = tags;
    const server = await serve({ tags: others });
    for (const tag of ['State', 'Count'] as const) server.set(tag, 1, moment());
    server.set('Stop', false, moment());
    const recorded = listen({ endpoint: server.endpoint, settings: { missingMs: 500 } });
    await up(recorded);
    expect(recorded.intake.status().items.get(3)?.kind).toBe('missing');
    server.add('Text', Text);
    server.set('Text', 'late', moment());
    await until('the text', () => recorded.of(3).at(-1)?.value === 'late');
    await up(recorded);
    expect(recorded.intake.status().items.get(3)?.kind).toBe('good');
    expect(recorded.of(0)).toHaveLength(1);
  });

  it('a namespace that the server does not have is told, with those it has', async () => {
    const server = await serve();
    initial(server);
    const recorded = listen({ endpoint: server.endpoint, namespace: 'urn:test:elsewhere' });
    await until('trouble', () => recorded.intake.status().trouble !== undefined);
    const trouble = recorded.intake.status().trouble!;
    expect(trouble.message).toBe('The server plc has no namespace urn:test:elsewhere.');
    expect(trouble.why).toContain('urn:test:line');
    expect(recorded.changes).toEqual([]);
  });
});
