import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineFold } from '../../../model/fold/fold.ts';
import { byLineTime, type Change } from '../../../model/signals/signals.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { at, changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { Memory } from '../tape/memoryTape.ts';
import { entry, stand } from './shell.ts';

const line = smallLine();

/** Three hours with a stop in each quarter of an hour: longer than the fold reaches back by itself. */
const morning: readonly Change[] = changes(line, [
  ...running(),
  ...Array.from({ length: 12 }, (_, quarter) => {
    const from = quarter * 900;
    return [
      ...goods(from + 1, from + 40, quarter * 40 + 1),
      [from + 300.5, 'state', 11] as const,
      [from + 300.5, 'reason', 51] as const,
      [from + 340.5, 'state', 6] as const,
      [from + 340.5, 'reason', 0] as const,
    ];
  }).flat(),
]);

function inLineTime(all: readonly Change[]): string {
  const fold = new LineFold(line);
  fold.take([...all].sort(byLineTime));
  return hashOf(fold);
}

/** States are told apart by hash: as texts they are too long to read. */
function hashOf(fold: LineFold): string {
  return createHash('sha256').update(fold.text()).digest('hex');
}

describe('a live line', () => {
  it('records before it steps: what is not durable is not seen', async () => {
    let settle: (() => void) | undefined;
    const { live } = await stand(line, {
      through: (tape) => ({
        ...tape,
        append: async (id, some) => {
          await new Promise<void>((resolve) => {
            settle = resolve;
          });
          return tape.append(id, some);
        },
      }),
    });
    const offered = live.offer(changes(line, running()));
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(live.fold().newest).toBeUndefined();
    expect(live.position()).toBe(0);
    settle!();
    await offered;
    expect(live.fold().newest).toBe(at(0));
    expect(live.position()).toBe(running().length);
  });

  it('a batch that could not be recorded is refused and leaves the state as it was', async () => {
    let full = false;
    const { live } = await stand(line, {
      through: (tape) => ({
        ...tape,
        append: (id, some) => (full ? Promise.reject(new Error('full')) : tape.append(id, some)),
      }),
    });
    await live.offer(changes(line, running()));
    const before = live.fold().text();
    full = true;
    await expect(live.offer(changes(line, [[1, 'good', 1]]))).rejects.toThrow('full');
    expect(live.fold().text()).toBe(before);
    full = false;
    await live.offer(changes(line, [[1, 'good', 1]]));
    expect(live.fold().state.shift.account.good).toBe(1);
  });

  it('[TI3] goes on from checkpoint and tape to the same state, wherever it was stopped or killed', async () => {
    const whole = inLineTime(morning);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.record({ cut: fc.nat(morning.length), killed: fc.boolean() }), { maxLength: 5 }),
        async (restarts) => {
          const memory = new Memory();
          let from = 0;
          for (const { cut, killed } of [...restarts].sort((a, b) => a.cut - b.cut)) {
            const { live } = await stand(line, { memory });
            await live.offer(morning.slice(from, cut));
            from = Math.max(from, cut);
            if (!killed) await live.stop();
          }
          const { live } = await stand(line, { memory });
          await live.offer(morning.slice(from));
          expect(hashOf(live.fold())).toBe(whole);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('[TI2] works late data in, however late, and also when it was stopped or killed around it', async () => {
    const whole = inLineTime(morning);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.record({ from: fc.nat(morning.length - 1), by: fc.integer({ min: 1, max: 600 }) }), {
          minLength: 1,
          maxLength: 4,
        }),
        fc.array(fc.record({ cut: fc.nat(morning.length), killed: fc.boolean() }), { maxLength: 3 }),
        async (moves, restarts) => {
          const arrived = [...morning];
          for (const { from, by } of moves) {
            const [change] = arrived.splice(from, 1);
            arrived.splice(Math.min(arrived.length, from + by), 0, change!);
          }
          const memory = new Memory();
          let from = 0;
          const edges = [...restarts].sort((a, b) => a.cut - b.cut);
          for (const { cut, killed } of [...edges, { cut: arrived.length, killed: true }]) {
            const { live } = await stand(line, { memory });
            for (; from < cut; from += 50) await live.offer(arrived.slice(from, Math.min(cut, from + 50)));
            from = cut;
            if (!killed) await live.stop();
          }
          const { live } = await stand(line, { memory });
          expect(hashOf(live.fold())).toBe(whole);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('never uses a checkpoint of another definition of the line', async () => {
    const memory = new Memory();
    const first = await stand(line, { memory });
    await first.live.offer(morning);
    await first.live.stop();
    const slower = smallLine({ settings: { ...line.settings, minorStopMinutes: 0.1 } });
    const second = await stand(slower, { memory });
    const resumed = second.notes.find((note) => note.kind === 'resumed');
    expect(resumed).toEqual({
      kind: 'resumed',
      position: morning.length,
      replayed: morning.length,
      whole: true,
    });
    const again = await stand(line, { memory });
    expect(again.notes.find((note) => note.kind === 'resumed')).toMatchObject({ replayed: 0 });
  });

  it('an entry sent twice is recorded once, at once and after a restart', async () => {
    const memory = new Memory();
    const first = await stand(line, { memory });
    await first.live.offer(changes(line, running()));
    const note = entry('a-1', 5, { kind: 'note', words: 'guide rattles' });
    const [one, two] = await Promise.all([first.live.enter(note), first.live.enter(note)]);
    expect(one).toBe(two);
    expect(await first.live.enter(note)).toBe(one);
    const end = first.tape.end(line.id);
    expect(end).toBe(running().length + 1);
    const second = await stand(line, { memory });
    await second.live.enter(note);
    expect(second.tape.end(line.id)).toBe(end);
    expect(second.live.fold().state.notes).toHaveLength(1);
  });

  it('an entry whose recording failed may be sent again', async () => {
    let full = true;
    const { live } = await stand(line, {
      through: (tape) => ({
        ...tape,
        append: (id, some) => (full ? Promise.reject(new Error('full')) : tape.append(id, some)),
      }),
    });
    const note = entry('a-1', 5, { kind: 'note', words: 'guide rattles' });
    await expect(live.enter(note)).rejects.toThrow('full');
    full = false;
    expect(await live.enter(note)).toBe(1);
  });

  it('line time goes on from the newest word of the PLC, whatever its clock says, and at the pace of the demo', async () => {
    const { live, clock } = await stand(line, { second: 3600, speed: 2 });
    await live.offer(changes(line, running(10)));
    expect(live.now()).toBe(at(10));
    clock.second += 5;
    expect(live.now()).toBe(at(20));
    expect(live.view().head.kind).toBeDefined();
  });

  it('line time does not go back because something came late', async () => {
    const { live, clock } = await stand(line);
    await live.offer(changes(line, running(100)));
    clock.second += 50;
    await live.offer(changes(line, [[90, 'panel', false]]));
    expect(live.now()).toBe(at(150));
    await live.offer(changes(line, goods(151, 151, 1)));
    expect(live.now()).toBe(at(151));
  });

  it('a link that is made is heard now, also by a PLC whose stamps are ahead of the gateway', async () => {
    const memory = new Memory();
    const first = await stand(line, { memory });
    const ahead = changes(line, [...running(), ...goods(200, 220, 1)]);
    await first.live.offer(ahead.map((change) => ({ ...change, received: at(1) })));
    await first.live.stop();
    const { live, clock } = await stand(line, { memory, second: 150 });
    expect(live.view().sight.kind).toBe('lost');
    await live.offer(changes(line, [[151, 'link', 'whole']]));
    expect(live.view().sight.kind).toBe('live');
    clock.second += 5;
    expect(live.now()).toBe(at(225));
  });

  it('line time goes on over a restart also where the PLC’s clock is a day behind, and entries stand in it', async () => {
    const memory = new Memory();
    const day = 86_400;
    const behind = (rows: Parameters<typeof changes>[1]) =>
      changes(line, rows).map((change) => ({ ...change, received: at(change.at / 1e7 - at(0) / 1e7 + day) }));
    const first = await stand(line, { memory, second: day });
    await first.live.offer(behind([...running(), ...goods(1, 20, 1)]));
    const { live, notes } = await stand(line, { memory, second: day + 50 });
    expect(live.now()).toBe(at(50));
    await live.enter(entry('a-1', day + 50, { kind: 'crew', people: 3 }));
    await live.offer(behind(goods(51, 60, 21)));
    expect(live.fold().state.shift.account.good).toBe(30);
    expect(notes.some(({ kind }) => kind === 'refolded')).toBe(false);
  });

  it('[TI2] late data that could not be worked in is tried again, and no state without it is gone on from', async () => {
    const memory = new Memory();
    const damaged = new LineError('The tape is damaged.', { why: 'A page.', mend: 'Another disk.' });
    let broken = false;
    const { live, notes } = await stand(line, {
      memory,
      through: (tape) => ({
        ...tape,
        read: (...asked) => {
          if (broken) throw damaged;
          return tape.read(...asked);
        },
      }),
    });
    await live.offer([...morning.slice(0, 100), ...morning.slice(101)]);
    broken = true;
    await live.offer(morning.slice(100, 101));
    await live.stop();
    expect(notes.filter(({ kind }) => kind === 'trouble')).toEqual([
      { kind: 'trouble', trouble: damaged },
      { kind: 'trouble', trouble: damaged },
    ]);
    const killed = await stand(line, { memory });
    expect(hashOf(killed.live.fold())).toBe(inLineTime(morning));
    broken = false;
    await live.stop();
    expect(hashOf(live.fold())).toBe(inLineTime(morning));
  });

  it('[TI2] late data in batch after batch is worked in now and then, so that folding leaves time for the line', async () => {
    const clock = { second: 0 };
    const { live, notes } = await stand(line, {
      clock,
      through: (tape) => ({
        ...tape,
        nearest: (...asked) => {
          clock.second += 1; // folding again takes a second
          return tape.nearest(...asked);
        },
      }),
    });
    const late = morning.slice(100, 200);
    await live.offer([...morning.slice(0, 100), ...morning.slice(200)]);
    for (const change of late) {
      await live.offer([change]);
      clock.second += 1;
    }
    const times = notes.filter(({ kind }) => kind === 'refolded').length;
    expect(times).toBeGreaterThan(2);
    expect(times).toBeLessThan(20);
    await live.stop();
    expect(hashOf(live.fold())).toBe(inLineTime(morning));
  });

  it('tells at once when something happened, and not for a count', async () => {
    const { live } = await stand(line);
    let told = 0;
    const quiet = live.onEvents(() => {
      told += 1;
    });
    await live.offer(changes(line, [...running(), ...goods(1, 5, 1)]));
    const before = told;
    await live.offer(changes(line, goods(6, 9, 6)));
    expect(told).toBe(before);
    await live.offer(changes(line, [[10, 'state', 11]]));
    expect(told).toBe(before + 1);
    quiet();
    await live.offer(changes(line, [[20, 'state', 6]]));
    expect(told).toBe(before + 1);
  });

  it('whoever offers more than it can record waits, and nothing is lost or mixed up', async () => {
    const { live, tape } = await stand(line, {
      through: (inner) => ({
        ...inner,
        append: async (id, some) => {
          await new Promise((resolve) => setImmediate(resolve));
          return inner.append(id, some);
        },
      }),
    });
    await live.offer(changes(line, running()));
    const counts = goods(1, 500, 1);
    await Promise.all(counts.map((row) => live.offer(changes(line, [row]))));
    expect(tape.end(line.id)).toBe(running().length + 500);
    expect(live.fold().state.shift.account.good).toBe(500);
  });
});
