import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { unseal } from '../../../gateway/tape/segments.ts';
import { positionAfter, type Tape } from '../../../gateway/tape/tape.ts';
import type { Change, Signal } from '../../../model/signals/signals.ts';
import { anyChange } from '../../model/tape/anyChanges.ts';
import { begin, change, gathered, signals, stretch } from './stretch.ts';

/** One place where a tape can be kept: opened, closed, and opened again with the same content. */
export interface Store {
  open(lines: ReadonlyMap<string, readonly Signal[]>): Promise<Tape>;
  /** Everything is closed by then. */
  remove(): Promise<void>;
}

/** Far beyond what the slowest machine needs. Milliseconds. */
const CEILING = 300_000;
const three = signals('cycles', 'starved', 'lot');
const line = 'line-3';
const lines = new Map([[line, three]]);
const nine = signals('a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i');
const anySmallChange = anyChange.map((one) => ({ ...one, signal: one.signal % 9 }));

/** What holds for every engine of the tape. */
export function tapeContract(engine: string, makeStore: () => Promise<Store>): void {
  describe(`the tape on ${engine}`, { timeout: CEILING }, () => {
    const stores: Store[] = [];
    const tapes: Tape[] = [];
    const newStore = async () => {
      const store = await makeStore();
      stores.push(store);
      return store;
    };
    const openIn = async (store: Store, of: ReadonlyMap<string, readonly Signal[]> = lines) => {
      const tape = await store.open(of);
      tapes.push(tape);
      return tape;
    };
    const open = async (of: ReadonlyMap<string, readonly Signal[]> = lines) => openIn(await newStore(), of);
    const all = (tape: Tape, id = line) => gathered(tape.read(id, 0, Number.POSITIVE_INFINITY));
    afterEach(async () => {
      for (const tape of tapes.splice(0)) await tape.close();
      for (const store of stores.splice(0)) await store.remove();
    }, CEILING);

    it('begins empty, counts changes, and gives them back in the order of arrival', async () => {
      const tape = await open();
      expect(tape.end(line)).toBe(0);
      expect(await all(tape)).toEqual([]);
      const changes = [change(2, begin + 5, 'lot 7'), change(0, begin + 3, 12), change(1, begin + 3, null)];
      expect(await tape.append(line, changes.slice(0, 1))).toBe(1);
      expect(await tape.append(line, changes.slice(1))).toBe(3);
      expect(tape.end(line)).toBe(3);
      expect(await all(tape)).toStrictEqual(changes);
    });

    it('a history that is brought in lies below 0, all of it at once, while appends go on', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      await tape.append(line, stretch(1000, 1005));
      await tape.keep(line, { position: 3, version: 'v', body: 'without it' });
      const past = stretch(0, 700);
      let asked = 0;
      async function* chunks() {
        for (let place = 0; place < past.length; place += 90) {
          asked += 1;
          expect(tape.begin(line)).toBe(0);
          await tape.append(line, stretch(1004 + asked, 1005 + asked));
          yield past.slice(place, place + 90);
        }
      }
      expect(await tape.importBefore(line, chunks())).toBe(-700);
      expect([tape.begin(line), tape.end(line)]).toEqual([-700, 5 + asked]);
      expect(tape.nearest(line, 5, 'v')).toBeUndefined();
      const after = [
        ...stretch(1000, 1005),
        ...Array.from({ length: asked }, (_, n) => stretch(1005 + n, 1006 + n)).flat(),
      ];
      const whole = [...past, ...after];
      for (const [from, to] of [
        [-700, 13],
        [-700, -1],
        [-650, 2],
        [0, 5],
        [-1, 1],
      ] as const)
        expect(await gathered(tape.read(line, from, to))).toStrictEqual(whole.slice(from + 700, to + 700));
      await tape.keep(line, { position: -20, version: 'v', body: 'of the past' });
      expect(tape.nearest(line, -1, 'v')).toEqual({ position: -20, body: 'of the past' });
      await tape.close();
      const again = await openIn(store);
      expect([again.begin(line), again.end(line)]).toEqual([-700, 5 + asked]);
      expect(await again.append(line, stretch(2000, 2002))).toBe(7 + asked);
      expect(await gathered(again.read(line, -700, 100))).toStrictEqual([...whole, ...stretch(2000, 2002)]);
    });

    it('of a history whose source fails nothing stays', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      await tape.append(line, stretch(1000, 1005));
      async function* broken() {
        yield stretch(0, 200_000);
        throw new Error('cancelled');
      }
      await expect(tape.importBefore(line, broken())).rejects.toThrow('cancelled');
      expect(tape.begin(line)).toBe(0);
      await tape.close();
      const again = await openIn(store);
      expect(await gathered(again.read(line, -1_000_000, 100))).toStrictEqual(stretch(1000, 1005));
      expect(await again.importBefore(line, [stretch(0, 3)])).toBe(-3);
    });

    it('a history may come before another one; one that is found wrong on the disk leaves nothing', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      await tape.append(line, stretch(1000, 1005));
      await tape.importBefore(line, [stretch(500, 700)]);
      const wrong = async ({ count }: { readonly count: number }) => {
        expect(count).toBe(300);
        throw new Error('not what was read');
      };
      await expect(tape.importBefore(line, [stretch(0, 300)], wrong)).rejects.toThrow('not what was read');
      expect(tape.begin(line)).toBe(-200);
      expect(await tape.importBefore(line, [stretch(0, 300)])).toBe(-500);
      const whole = [...stretch(0, 300), ...stretch(500, 700), ...stretch(1000, 1005)];
      expect(await gathered(tape.read(line, -500, 5))).toStrictEqual(whole);
      await tape.close();
      const again = await openIn(store);
      expect(again.begin(line)).toBe(-500);
      expect(await gathered(again.read(line, -500, 5))).toStrictEqual(whole);
    });

    it('an append of nothing changes nothing', async () => {
      const tape = await open();
      await tape.append(line, stretch(0, 5));
      expect(await tape.append(line, [])).toBe(5);
      expect(tape.end(line)).toBe(5);
    });

    it('gives back any changes in any batches, and after being opened again', async () => {
      const batches = fc.array(fc.array(anySmallChange, { maxLength: 12 }), { maxLength: 8 });
      await fc.assert(
        fc.asyncProperty(batches, async (appended) => {
          const store = await newStore();
          const of = new Map([[line, nine]]);
          const tape = await openIn(store, of);
          for (const batch of appended) await tape.append(line, batch);
          expect(await all(tape)).toStrictEqual(appended.flat());
          await tape.close();
          const again = await openIn(store, of);
          expect(again.end(line)).toBe(appended.flat().length);
          expect(await all(again)).toStrictEqual(appended.flat());
          await again.close();
        }),
        { numRuns: 15 },
      );
    });

    it('reads half-open ranges, also across everything it stores apart', async () => {
      const tape = await open();
      const changes = stretch(0, 3000);
      for (let from = 0; from < 3000; from += 250) await tape.append(line, changes.slice(from, from + 250));
      for (const [from, to] of [
        [0, 0],
        [0, 1],
        [599, 601],
        [0, 3000],
        [1777, 2950],
        [2999, 3000],
        [3000, 9000],
        [-5, 4],
        [7, 3],
      ] as const) {
        const expected = changes.slice(Math.max(0, from), Math.max(0, to));
        expect(await gathered(tape.read(line, from, to)), `${from} to ${to}`).toStrictEqual(expected);
      }
    });

    it('gives no empty chunks, and a reader in no hurry does not keep others from appending', async () => {
      const tape = await open();
      const changes = stretch(0, 4000);
      await tape.append(line, changes.slice(0, 2000));
      const seen: Change[] = [];
      let appended = 2000;
      for await (const chunk of tape.read(line, 0, Number.POSITIVE_INFINITY)) {
        expect(chunk.length).toBeGreaterThan(0);
        seen.push(...chunk);
        await tape.append(line, changes.slice(appended, appended + 300));
        appended += 300;
      }
      expect(seen).toStrictEqual(changes.slice(0, 2000));
      expect(tape.end(line)).toBe(Math.min(4000, appended));
    });

    it('tells the pieces it is stored in, with the times of each, and gives their bytes', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      await tape.append(line, stretch(1000, 1700));
      for (let from = 1700; from < 2500; from += 100) await tape.append(line, stretch(from, from + 100));
      await tape.importBefore(line, [stretch(0, 900)]);
      const whole = [...stretch(0, 900), ...stretch(1000, 2500)];
      await tape.close();
      const again = await openIn(store);
      const of = (from: number, to: number) => again.pieces(line, from, to);
      let next = -900;
      for (const { start, count, at, received, bytes } of of(-900, 1500)) {
        expect(start).toBe(next);
        next += count;
        const held = whole.slice(start + 900, next + 900);
        expect(unseal(again.pieceBytes(line, start)!)).toStrictEqual(held);
        const span = (moments: readonly number[]) => ({
          least: Math.min(...moments),
          most: Math.max(...moments),
        });
        expect({ at, received }).toEqual({
          at: span(held.map((one) => one.at)),
          received: span(held.map((one) => one.received)),
        });
        expect(bytes).toBeGreaterThan(0);
        expect(again.pieceBytes(line, start + 1)).toBeUndefined();
      }
      expect(next).toBe(1500);
      const all = of(-900, 1500);
      expect(of(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY)).toEqual(all);
      for (const [from, to] of [
        [-1, 1],
        [0, 1],
        [-300, -299],
        [1499, 1500],
        [599, 601],
      ] as const) {
        const holding = all.filter(({ start, count }) => start < to && start + count > from);
        expect(of(from, to), `${from} to ${to}`).toEqual(holding);
      }
      expect(of(1500, 1600)).toEqual([]);
      expect(of(-1000, -900)).toEqual([]);
      expect(of(5, 5)).toEqual([]);
    });

    it('says which signals of the line the numbers in those bytes are', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      expect([...tape.numbersOf(line)]).toEqual([
        [0, 0],
        [1, 1],
        [2, 2],
      ]);
      expect(tape.pieces(line, 0, 100)).toEqual([]);
      expect(tape.pieceBytes(line, 0)).toBeUndefined();
      await tape.append(line, stretch(0, 12));
      await tape.close();
      const moved = await openIn(store, new Map([[line, signals('lot', 'vacuum', 'cycles')]]));
      await moved.append(line, [change(1, begin + 20, 61.3)]);
      const numbers = moved.numbersOf(line);
      const [piece] = moved.pieces(line, 0, 13);
      const known = unseal(moved.pieceBytes(line, piece!.start)!).flatMap((one) => {
        const signal = numbers.get(one.signal);
        return signal === undefined ? [] : [{ ...one, signal }];
      });
      expect(known).toStrictEqual(await all(moved));
      expect(known).toHaveLength(9);
    });

    it('keeps lines apart', async () => {
      const tape = await open(
        new Map([
          [line, three],
          ['line-4', three],
        ]),
      );
      await tape.append(line, stretch(0, 10));
      await tape.append('line-4', stretch(50, 53));
      expect(tape.end(line)).toBe(10);
      expect(await all(tape)).toStrictEqual(stretch(0, 10));
      expect(await all(tape, 'line-4')).toStrictEqual(stretch(50, 53));
    });

    it('a signal list in another order, longer or shorter, changes nothing of what was recorded', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      await tape.append(line, stretch(0, 2000));
      await tape.close();
      const moved = await openIn(store, new Map([[line, signals('lot', 'vacuum', 'cycles')]]));
      const expected = stretch(0, 2000)
        .filter(({ signal }) => signal !== 1)
        .map((one) => ({ ...one, signal: one.signal === 0 ? 2 : 0 }));
      expect(await all(moved)).toStrictEqual(expected);
      expect(moved.end(line), 'what is left out keeps its position').toBe(2000);
      expect(await gathered(moved.read(line, 1, 2)), 'position 1 is of a signal that is gone').toEqual([]);
      for await (const placed of moved.placed(line, 500, 1500)) {
        const stored = stretch(0, 2000);
        const after = placed.changes.map((_change, place) => positionAfter(placed, place));
        expect(after.map((position) => stored[position - 1]!.at)).toEqual(placed.changes.map(({ at }) => at));
        expect(after.every((position) => position > placed.from && position <= placed.next)).toBe(true);
      }
      await moved.append(line, [change(1, begin, 61.3)]);
      await moved.close();
      const back = await openIn(store, new Map([[line, signals('cycles', 'starved', 'lot', 'vacuum')]]));
      expect(await all(back)).toStrictEqual([...stretch(0, 2000), change(3, begin, 61.3)]);
    });

    it('tells followers the newest position, at once when they are behind, and no more once they left', async () => {
      const tape = await open();
      await tape.append(line, stretch(0, 4));
      const behind: number[] = [];
      const level: number[] = [];
      const leave = tape.follow(line, 2, (position) => behind.push(position));
      tape.follow(line, 4, (position) => level.push(position));
      expect(behind, 'never within the call').toEqual([]);
      await settled();
      expect([behind, level]).toEqual([[4], []]);
      await tape.append(line, stretch(4, 6));
      await settled();
      leave();
      await tape.append(line, stretch(6, 7));
      await settled();
      expect([behind, level]).toEqual([
        [4, 6],
        [6, 7],
      ]);
    });

    it('gives the nearest saved state of the same version, also after being opened again', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      await tape.append(line, stretch(0, 100));
      expect(tape.nearest(line, 100, '1')).toBeUndefined();
      await tape.keep(line, { position: 20, version: '1', body: '{"good":1}' });
      await tape.keep(line, { position: 60, version: '1', body: '{"good":2}' });
      await tape.keep(line, { position: 80, version: '2', body: '{"good":"→ 🍵"}' });
      await tape.keep(line, { position: 60, version: '1', body: '{"good":3}' });
      await tape.close();
      const again = await openIn(store);
      expect(again.nearest(line, 100, '1')).toEqual({ position: 60, body: '{"good":3}' });
      expect(again.nearest(line, 60, '1')).toEqual({ position: 60, body: '{"good":3}' });
      expect(again.nearest(line, 59, '1')).toEqual({ position: 20, body: '{"good":1}' });
      expect(again.nearest(line, 19, '1')).toBeUndefined();
      expect(again.checkpoints(line, '1', 0, 100)).toEqual([20, 60]);
      expect(again.checkpoints(line, '1', 20, 60)).toEqual([20]);
      expect(again.checkpoints(line, '3', 0, 100)).toEqual([]);
      expect(again.nearest(line, 100, '2')).toEqual({ position: 80, body: '{"good":"→ 🍵"}' });
    });

    it('keeps states for good, each to the letter, and of those for a quick restart the newest', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      await tape.append(line, stretch(0, 200));
      // alike but for some of it, as the states of a line are
      const body = (position: number) =>
        JSON.stringify({ position, parts: stretch(position, position + 60), text: '→ 🍵 \ud800' });
      for (let position = 1; position <= 200; position += 1)
        await tape.keep(line, { position, version: '1', body: body(position), passing: position % 2 === 0 });
      const positions = [...Array.from({ length: 100 }, (_, place) => 2 * place + 1), 200];
      const check = (from: Tape) => {
        expect(from.checkpoints(line, '1', 0, 1000)).toEqual(positions);
        for (const position of positions)
          expect(from.nearest(line, position, '1')).toEqual({ position, body: body(position) });
      };
      check(tape);
      await tape.keep(line, { position: 101, version: '1', body: 'of the past', passing: true });
      expect(tape.nearest(line, 200, '1')?.position, 'the newest stays').toBe(200);
      await tape.keep(line, { position: 101, version: '1', body: body(101) });
      for (let position = 103; position < 200; position += 2)
        await tape.keep(line, { position, version: '1', body: body(position) });
      await tape.keep(line, { position: 200, version: '1', body: body(200), passing: true });
      await tape.close();
      const again = await openIn(store);
      check(again);
      await again.keep(line, { position: 50, version: '2', body: 'of another version' });
      await again.keepOnly(line, '2');
      expect(again.checkpoints(line, '1', 0, 1000)).toEqual([]);
      expect(again.nearest(line, 200, '2')).toEqual({ position: 50, body: 'of another version' });
    });

    it('states that were kept on the way of a history stand with it, and fall with it', async () => {
      const store = await newStore();
      const tape = await openIn(store);
      await tape.append(line, stretch(1000, 1005));
      await tape.keep(line, { position: 5, version: '1', body: 'without it' });
      async function* broken() {
        yield stretch(0, 100);
        await tape.keepBefore(line, { position: 100, version: '1', body: 'of what failed' });
        throw new Error('cancelled');
      }
      await expect(tape.importBefore(line, broken())).rejects.toThrow('cancelled');
      expect(tape.checkpoints(line, '1', -1000, 1000)).toEqual([5]);
      async function* chunks() {
        for (let from = 0; from < 900; from += 300) {
          yield stretch(from, from + 300);
          await tape.keepBefore(line, { position: from + 300, version: '1', body: `after ${from + 300}` });
        }
      }
      expect(await tape.importBefore(line, chunks())).toBe(-900);
      expect(tape.checkpoints(line, '1', -1000, 1000)).toEqual([-600, -300, 0]);
      await tape.close();
      const again = await openIn(store);
      expect(again.nearest(line, -1, '1')).toEqual({ position: -300, body: 'after 600' });
    });

    it('an imported history reads as if it had been appended, and appends go on behind it', async () => {
      const tape = await open();
      const history = stretch(0, 5000);
      await tape.append(line, history.slice(0, 30));
      const chunks = async function* () {
        for (let from = 30; from < 5000; from += 700) yield history.slice(from, Math.min(5000, from + 700));
      };
      const importing = tape.importSealed(line, chunks());
      expect(await importing).toBe(5000);
      expect(await tape.append(line, stretch(5000, 5010))).toBe(5010);
      expect(await tape.importSealed(line, [])).toBe(5010);
      expect(await all(tape)).toStrictEqual(stretch(0, 5010));
    });
  });
}

/** After everything that was put off until the present call returns. */
function settled(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}
