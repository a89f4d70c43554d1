import { describe, expect, it } from 'vitest';
import { LineTime } from '../../../gateway/intake/lineTime.ts';
import { Memory } from '../../../gateway/intake/memory.ts';
import { ClockOffset } from '../../../gateway/intake/offset.ts';
import { SequenceWatch } from '../../../gateway/intake/sequence.ts';
import { nodeIdOf, nodeNameOf } from '../../../gateway/intake/tags.ts';
import { Watchdog } from '../../../gateway/intake/watchdog.ts';
import { LocalClock } from '../../../gateway/intake/zone.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { type Instant, instantFromMs } from '../../../model/units/units.ts';

describe('sequence numbers', () => {
  const told = (...messages: (number | [number])[]) => {
    const watch = new SequenceWatch();
    for (const one of messages)
      watch.note(1, typeof one === 'number' ? one : one[0], typeof one !== 'number');
    return watch;
  };

  it('a keep-alive carries the number of the next message', () => {
    expect(told(1, 2, [3], 3).hole).toBe(false);
    expect(told(1, 2, [4]).hole).toBe(true);
    expect(told([1], 1, 2).last).toBe(2);
  });

  it('a message that came before an older one is no hole once the older one is there', () => {
    const watch = told(5, 6, 9, 7);
    expect([watch.hole, watch.last]).toEqual([true, 7]);
    watch.note(1, 8, false);
    expect([watch.hole, watch.last]).toEqual([false, 9]);
  });

  it('a message that comes twice is told as such', () => {
    const watch = told(1, 2, 4);
    expect(watch.note(1, 2, false)).toBe('twice');
    expect(watch.note(1, 4, false)).toBe('twice');
    expect(watch.note(1, 3, false)).toBe('new');
  });

  it('numbers begin again at 1 after the highest', () => {
    const watch = told(0xfffffffe, 0xffffffff, 1);
    expect(watch.hole).toBe(false);
    watch.note(1, 3, false);
    expect(watch.hole).toBe(true);
  });

  it('a subscription made anew begins anew, and what is given up is no hole', () => {
    const watch = told(1, 2, 9);
    watch.giveUp();
    expect([watch.hole, watch.last]).toEqual([false, 9]);
    watch.note(2, 1, false);
    expect([watch.hole, watch.last]).toEqual([false, 1]);
  });
});

describe('stamps', () => {
  const stamps = (sourceMs: number | undefined, serverMs?: number) => ({
    sourceMs,
    sourceTicks: 42,
    serverMs,
    serverTicks: 7,
  });
  const now = Date.UTC(2026, 2, 17, 12);

  it('source time, else the server’s stamp, else nothing', () => {
    const time = new LineTime('utc', 'Europe/Berlin');
    expect(time.stampOf(stamps(now, now + 5), now)).toBe(instantFromMs(now, 42));
    expect(time.stampOf(stamps(undefined, now + 5), now)).toBe(instantFromMs(now + 5, 7));
    expect(time.stampOf(stamps(Date.UTC(1601, 0, 1)), now)).toBeUndefined();
    expect(new LineTime('received', 'Europe/Berlin').trusted).toBe(false);
  });

  it('a source time in the future of its own server is not believed', () => {
    const time = new LineTime('utc', 'Europe/Berlin');
    expect(time.stampOf(stamps(now + 3_600_000, now), now)).toBe(instantFromMs(now, 7));
  });

  it('local time sent as UTC follows the zone through the year and its changes', () => {
    const berlin = new LocalClock('Europe/Berlin');
    const summer = Date.UTC(2026, 6, 1, 12);
    expect(berlin.toUtc(summer, summer)).toBe(Date.UTC(2026, 6, 1, 10));
    const winter = Date.UTC(2026, 0, 15, 12);
    expect(berlin.toUtc(winter, winter)).toBe(Date.UTC(2026, 0, 15, 11));
    const twice = Date.UTC(2026, 9, 25, 2, 30);
    expect(berlin.toUtc(twice, Date.UTC(2026, 9, 25, 0, 31))).toBe(Date.UTC(2026, 9, 25, 0, 30));
    expect(berlin.toUtc(twice, Date.UTC(2026, 9, 25, 1, 31))).toBe(Date.UTC(2026, 9, 25, 1, 30));
    const never = Date.UTC(2026, 2, 29, 2, 30);
    expect(berlin.toUtc(never, never)).toBe(Date.UTC(2026, 2, 29, 1, 30));
  });
});

describe('the server’s clock', () => {
  it('is read exactly, unless the stamps say otherwise', () => {
    const offset = new ClockOffset();
    expect(offset.ms).toBeUndefined();
    offset.clockRead(10_400, 10_000, 10_020);
    expect(offset.ms).toBe(390);
    for (const late of [150, 20, 240]) offset.stamped(20_390 - late, 20_000);
    expect(offset.ms).toBe(390);
    for (let n = 0; n < 9; n += 1) offset.stamped(90_000, 20_000);
    expect(offset.ms).toBe(70_000);
  });
});

describe('memory', () => {
  const change = (at: number, value: number, status = 0): Change => ({
    signal: 1,
    at: at as Instant,
    received: at as Instant,
    status,
    value,
  });

  it('knows a repetition by stamp, value and status', () => {
    const memory = new Memory();
    memory.keep({ change: change(10, 5), stamp: 10 as Instant }, false);
    expect(memory.has({ change: change(10, 5), stamp: 10 as Instant })).toBe(true);
    expect(memory.has({ change: change(10, 6), stamp: 10 as Instant })).toBe(false);
    expect(memory.has({ change: change(10, 5, 0x480), stamp: 10 as Instant })).toBe(false);
    expect(memory.has({ change: change(11, 5), stamp: 11 as Instant })).toBe(false);
    expect(memory.has({ change: change(10, 5), stamp: undefined })).toBe(false);
  });

  it('knows a reading that says only what is known', () => {
    const memory = new Memory();
    memory.seed(1, { at: 20 as Instant, value: 5 }, true);
    expect(memory.unchanged({ change: change(20, 5), stamp: 20 as Instant })).toBe(true);
    expect(memory.unchanged({ change: change(15, 5), stamp: 15 as Instant })).toBe(true);
    expect(memory.unchanged({ change: change(25, 5), stamp: 25 as Instant })).toBe(false);
    expect(memory.unchanged({ change: change(20, 6), stamp: 20 as Instant })).toBe(false);
  });
});

describe('tags', () => {
  it('are identifiers in the server’s namespace, or whole node ids', () => {
    const ids = ['http://opcfoundation.org/UA/', 'urn:own', 'urn:line', 'urn:other'];
    const id = (tag: string) => nodeIdOf(nodeNameOf(tag, 'urn:line'), ids);
    expect(id('Cartoner.State')).toBe('ns=2;s=Cartoner.State');
    expect(id('"DB1"."State"')).toBe('ns=2;s="DB1"."State"');
    expect(id('ns=3;i=1021')).toBe('ns=3;i=1021');
    expect(id('nsu=urn:other;s=A;B')).toBe('ns=3;s=A;B');
    expect(id('i=2258')).toBe('ns=0;i=2258');
    expect(id('nsu=urn:gone;s=A')).toBeUndefined();
  });
});

describe('the watchdog', () => {
  const seen = (now: number, more: Partial<Parameters<Watchdog['look']>[0]> = {}) => ({
    live: true,
    now,
    lastMessage: 0,
    lastAnswer: 0,
    keepAliveMs: 2000,
    lifetimeMs: 600_000,
    ...more,
  });
  const lookEach = (dog: Watchdog, from: number, to: number, more: (now: number) => object) => {
    for (let now = from; now <= to; now += 250) {
      const judged = dog.look(seen(now, more(now)));
      if (judged !== 'fine') return [judged, now];
    }
    return ['fine', to];
  };

  it('calls two missed keep-alives silence', () => {
    const dog = new Watchdog(15_000);
    expect(lookEach(dog, 0, 60_000, () => ({}))).toEqual(['silent', 5250]);
  });

  it('does not blame the server for a process that stood still', () => {
    const dog = new Watchdog(15_000);
    dog.look(seen(0));
    expect(dog.look(seen(60_000))).toBe('fine');
  });

  it('replaces a client that is answered but brings no data back', () => {
    const dog = new Watchdog(15_000);
    const judged = lookEach(dog, 0, 60_000, (now) => ({ live: false, lastAnswer: now < 10_000 ? 0 : now }));
    expect(judged).toEqual(['wedged', 25_250]);
  });

  it('leaves a client alone while nobody answers, until its subscription has outlived its life', () => {
    const dog = new Watchdog(15_000);
    const judged = lookEach(dog, 0, 700_000, () => ({ live: false }));
    expect(judged).toEqual(['wedged', 615_250]);
  });
});
