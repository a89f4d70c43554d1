import { describe, expect, it } from 'vitest';
import type { Message, RawValue } from '../../../gateway/intake/connection.ts';
import type { ClockSetting } from '../../../gateway/intake/lineTime.ts';
import { Regimes } from '../../../gateway/intake/regimes.ts';
import type { Known } from '../../../gateway/intake/memory.ts';
import type { Signal, SignalIndex } from '../../../model/signals/signals.ts';
import { after, HOUR, instantFromMs, SECOND, type Span } from '../../../model/units/units.ts';
import { FakeLink } from './fakeLink.ts';

const NOON = Date.UTC(2026, 0, 15, 12);
const HOUR_MS = 3_600_000;
const noon = instantFromMs(NOON);
const at = (seconds: number) => after(noon, (seconds * SECOND) as Span);
const signals: readonly Signal[] = [
  { index: 0, id: 'good', role: 'goodCount', machine: 'm', server: 'plc', type: 'number', wraps: 2 ** 32 },
];
const LINK = 1;

describe('line time of a clock that was set', () => {
  const hour = HOUR as Span;
  const put = (...sets: readonly (readonly [number, number])[]) => {
    const regimes = new Regimes();
    for (const [second, hours] of sets) regimes.begin(at(second - 1), at(second), (hours * hour) as Span);
    return regimes;
  };
  const none = () => false;

  it('a stamp of just now is of just now, from before the step or after it', () => {
    for (const hours of [1, -1]) {
      const regimes = put([100, hours]);
      expect(regimes.recent(after(at(101), (hours * hour) as Span), at(101))).toBe(at(101));
      expect(regimes.recent(at(99), at(101))).toBe(at(99));
    }
  });

  it('a stamp of any age belongs to the regime that could have given it by now', () => {
    for (const hours of [1, -1]) {
      const regimes = put([100, hours]);
      const stampAfter = after(at(150), (hours * hour) as Span);
      expect(regimes.any(stampAfter, at(160), none)).toBe(at(150));
      expect(regimes.any(at(60), at(160), none)).toBe(at(60));
    }
  });

  it('what is known already is what it was, though the newer regime could have given it', () => {
    const regimes = put([100, -1]);
    const late = at(2 * 3600);
    expect(regimes.any(at(60), late, none)).toBe(at(60 + 3600));
    expect(regimes.any(at(60), late, (one) => one === at(60))).toBe(at(60));
  });

  it('set back and forward again, all three are told apart', () => {
    const regimes = put([100, -1], [1000, 0]);
    expect(regimes.any(at(1500), at(1600), none)).toBe(at(1500));
    expect(regimes.any(after(at(500), -hour as Span), at(1600), none)).toBe(at(500));
    expect(regimes.any(at(50), at(1600), none)).toBe(at(50));
  });
});

/** A link whose server's clock, our own and the steady one are set apart. */
class Clocks {
  server = 0;
  own = 0;
  /** Seconds that passed while the steady clock stood. */
  asleep = 0;
  /** Which subscription it is. */
  life = 1;
}

function message(seconds: number, number: number, count: number, clocks: Clocks): Message {
  const value = raw(seconds, count, clocks);
  return {
    kind: 'message',
    life: clocks.life,
    number,
    keepAlive: false,
    more: false,
    received: NOON + (seconds + clocks.asleep) * 1000 + clocks.own,
    size: 1,
    values: () => [value],
  };
}

function raw(seconds: number, count: number, { server, asleep }: Clocks): RawValue {
  const ms = NOON + (seconds + asleep) * 1000 + server;
  return {
    item: 0,
    status: 0,
    wire: { dataType: 7, scalar: true, value: count },
    sourceMs: ms,
    sourceTicks: 0,
    serverMs: ms,
    serverTicks: 0,
  };
}

interface Wish {
  readonly clock?: ClockSetting;
  readonly known?: (signal: SignalIndex) => Known | undefined;
  readonly lineAhead?: number;
}

/** Live from second 1 on, with readings of the clock at seconds 1, 11, 21 …; a value each second. */
async function live(wish: Wish = {}, clocks = new Clocks(), from = 0) {
  let second = from;
  let count = 100 + from;
  let number = 0;
  const fake: FakeLink = new FakeLink({
    signals,
    linkSignal: LINK,
    began: NOON + from * 1000 + clocks.own,
    reading: () => [raw(second, count, clocks)],
    clockMs: () => NOON + (second + clocks.asleep) * 1000 + clocks.server,
    steady: () => second * 1000,
    ...wish,
  });
  await fake.open();
  const until = async (end: number) => {
    while (second < end) {
      second += 1;
      count += 1;
      number += 1;
      await fake.tell(message(second, number, count, clocks));
    }
  };
  await until(from + 3);
  expect(fake.flow.phase).toBe('live');
  const away = async (end: number) => {
    await fake.tell({ kind: 'lost' });
    second = end;
    number = 0;
    clocks.life += 1;
    fake.life += 1;
    fake.now = NOON + end * 1000 + clocks.own;
    await fake.tell({ kind: 'restored' });
  };
  return { fake, clocks, until, away };
}

const seconds = (fake: FakeLink, from: number) =>
  fake.of(0).flatMap(({ at: moment }) => (moment > at(from) ? [(moment - noon) / SECOND] : []));
const counting = (from: number, to: number) => Array.from({ length: to - from }, (_, n) => from + n + 1);

describe('a clock that is set while it is heard', () => {
  it.each([HOUR_MS, -HOUR_MS, 7000, -7000])(
    'the server’s, by %s ms: line time goes on as it was',
    async (by) => {
      const { fake, clocks, until } = await live();
      await until(30);
      clocks.server = by;
      await until(60);
      expect(seconds(fake, 10)).toEqual(counting(10, 60));
      expect(fake.said).toEqual(['up', 'clockSet']);
      expect(fake.of(LINK).map(({ value }) => value)).toEqual([true]);
    },
  );

  it.each(['utc', 'received'] as const)(
    'our own, with values of clock %s: line time goes on as it was',
    async (clock) => {
      for (const by of [HOUR_MS, -HOUR_MS]) {
        const { fake, clocks, until } = await live({ clock });
        await until(30);
        clocks.own = by;
        await until(150);
        expect(seconds(fake, 10)).toEqual(counting(10, 150));
        // how far line time is ahead of our clock is written anew, for a restart to know
        const link = fake.of(LINK).at(-1)!;
        expect((link.at - link.received) / SECOND).toBe(-by / 1000);
        expect(fake.said).toEqual(clock === 'utc' ? ['up'] : ['up', 'clockSet']);
      }
    },
  );

  it.each(['utc', 'received'] as const)(
    'a computer that slept set no clock, with values of clock %s',
    async (clock) => {
      const { fake, clocks, until } = await live({ clock });
      await until(30);
      clocks.asleep = 600;
      await until(60);
      expect(seconds(fake, 10)).toEqual([...counting(10, 30), ...counting(630, 660)]);
      expect(fake.said).toEqual(['up']);
    },
  );

  it('a value that its own server is late with is no step: the clock is read, and was not set', async () => {
    const { fake, clocks, until } = await live();
    await until(30);
    const late = message(31, 31, 131, { ...clocks, server: -20_000 });
    await fake.tell({ ...late, received: NOON + 31_000 });
    expect(fake.of(0).at(-1)!.at).toBe(at(11));
    expect(fake.said).toEqual(['up']);
  });

  it('after a restart line time goes on as well, by what the tape says of it', async () => {
    for (const by of [HOUR_MS, -HOUR_MS]) {
      const first = await live();
      await first.until(30);
      const last = first.fake.of(0).at(-1)!;
      const known = (signal: SignalIndex): Known =>
        signal === 0 ? { at: last.at, value: last.value } : { at: last.at, value: true };
      const clocks = new Clocks();
      clocks.server = by;
      const second = await live({ known, lineAhead: 0 }, clocks, 40);
      await second.until(60);
      expect(seconds(second.fake, 41)).toEqual(counting(41, 60));
      expect(second.fake.of(LINK)[0]).toMatchObject({ at: last.at, value: false });
      // without that word the PLC's clock is all there is
      const blind = await live({ known }, clocks, 40);
      await blind.until(60);
      expect(blind.fake.of(0).at(-1)!.at).not.toBe(at(60));
    }
  });

  it('counts as it is again after an outage ten times as long as what it was set by', async () => {
    const { fake, clocks, until, away } = await live();
    await until(30);
    clocks.server = 30_000;
    await until(60);
    await away(120);
    await until(130);
    expect(fake.of(0).at(-1)!.at).toBe(at(130));
    await away(440);
    await until(450);
    expect(fake.of(0).at(-1)!.at).toBe(at(480));
  });
});
