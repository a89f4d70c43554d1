import { afterEach, describe, expect, it } from 'vitest';
import { type Instant, instantFromMs } from '../../../model/units/units.ts';
import { link, moment, until } from './fixture.ts';
import { endAll, initial, listen, serve, up } from './listening.ts';

afterEach(endAll, 60_000);

describe('the time of a value', { timeout: 180_000 }, () => {
  it('the first values stand at the beginning of the connection, after the link', async () => {
    const server = await serve();
    const old = instantFromMs(Date.now() - 3_600_000);
    initial(server, old);
    const began = instantFromMs(Date.now() - 1500);
    const recorded = listen({ endpoint: server.endpoint });
    await up(recorded);
    expect(recorded.changes.map(({ signal, value }) => [signal, value])).toEqual([
      [link, true],
      [0, 6],
      [1, 100],
      [2, false],
      [3, 'ready'],
    ]);
    for (const { at } of recorded.changes) expect(at).toBeGreaterThan(began);
    expect(recorded.changes[1]!.at).toBe(recorded.changes[0]!.at + 1);
    const status = recorded.intake.status();
    expect(status.revised.get(1)).toEqual({ sampling: 0, queue: 100, publishing: 250 });
    expect([...status.items.values()].map(({ kind }) => kind)).toEqual(['good', 'good', 'good', 'good']);
    expect(status.trouble).toBeUndefined();
  });

  it('[TI1] values arrive with their source time to 100 ns, in line time across tags', async () => {
    const server = await serve();
    initial(server);
    const recorded = listen({ endpoint: server.endpoint });
    await up(recorded);
    const before = recorded.changes.length;
    const at = moment(1234);
    server.set('Text', 'b', (at + 30_000) as Instant);
    server.set('State', 7, (at + 20_001) as Instant);
    server.set('Count', 101, (at + 10_000) as Instant);
    server.set('Count', 102, (at + 20_002) as Instant);
    server.set('Stop', true, (at + 20_001) as Instant);
    await until('five changes', () => recorded.changes.length >= before + 5);
    expect(
      recorded.changes.slice(before).map((one) => [one.signal, one.at - at, one.value, one.status]),
    ).toEqual([
      [1, 10_000, 101, 0],
      [0, 20_001, 7, 0],
      [2, 20_001, true, 0],
      [1, 20_002, 102, 0],
      [3, 30_000, 'b', 0],
    ]);
  });

  it('a server whose clock is local time sent as UTC is put on UTC', async () => {
    const server = await serve();
    const winter = instantFromMs(Date.UTC(2026, 0, 15, 12, 0, 0));
    initial(server);
    const recorded = listen({ endpoint: server.endpoint, clock: 'local' });
    await up(recorded);
    server.set('Count', 101, winter);
    await until('the count', () => recorded.of(1).at(-1)?.value === 101);
    expect(recorded.of(1).at(-1)!.at).toBe(instantFromMs(Date.UTC(2026, 0, 15, 11, 0, 0)));
  });

  it('a server whose clock is not to be trusted has the time of receipt', async () => {
    const server = await serve();
    initial(server);
    const recorded = listen({ endpoint: server.endpoint, clock: 'received' });
    await up(recorded);
    server.set('Count', 101, instantFromMs(Date.UTC(2021, 0, 1)));
    await until('the count', () => recorded.of(1).at(-1)?.value === 101);
    const { at, received } = recorded.of(1).at(-1)!;
    expect(at).toBe(received);
  });

  it('a clock that is ahead is measured, and the link stands on it', async () => {
    const server = await serve();
    const ahead = 90_000_000;
    initial(server, moment());
    const recorded = listen({ endpoint: server.endpoint });
    await up(recorded);
    for (let n = 1; n <= 6; n += 1) {
      server.set('Count', 100 + n, moment(ahead));
      await until('the count', () => recorded.of(1).at(-1)?.value === 100 + n);
    }
    expect(recorded.intake.status().clockOffsetMs).toBeGreaterThan(6000);
    expect(recorded.intake.status().clockOffsetMs).toBeLessThanOrEqual(9000);
    await server.stop();
    await until('lost', () => recorded.of(link).at(-1)?.value === false);
    const last = recorded.of(1).at(-1)!;
    expect(recorded.of(link).at(-1)!.at).toBeGreaterThanOrEqual(last.at);
    expect(last.at - last.received).toBeGreaterThan(60_000_000);
  });

  it('[SI1] a value that is bad, and good again with the time it had before, is known again from then on', async () => {
    const server = await serve();
    const at = moment();
    initial(server, at);
    const recorded = listen({ endpoint: server.endpoint });
    await up(recorded);
    server.set('State', 6, moment(), { status: 0x80050000 });
    await until('bad', () => recorded.of(0).length === 2);
    server.set('State', 6, at);
    await until('good', () => recorded.of(0).length === 3);
    expect(recorded.of(0).map(({ status }) => status)).toEqual([0, 0x80050000, 0]);
    expect(recorded.of(0)[2]!.at).toBeGreaterThan(recorded.of(0)[1]!.at);
  });
});
