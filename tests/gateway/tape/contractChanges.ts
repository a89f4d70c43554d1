import fc from 'fast-check';
import { expect, it } from 'vitest';
import { unseal } from '../../../gateway/tape/segments.ts';
import { positionAfter } from '../../../gateway/tape/tape.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { anyChange } from '../../model/tape/anyChanges.ts';
import { line, type Stores, three } from './contractStores.ts';
import { begin, change, gathered, signals, stretch } from './stretch.ts';

const nine = signals('a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i');
const anySmallChange = anyChange.map((one) => ({ ...one, signal: one.signal % 9 }));

/** What holds of changes: recorded, read, told, and the pieces they are stored in. */
export function changesContract({ newStore, openIn, open, all }: Stores): void {
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
}

/** After everything that was put off until the present call returns. */
function settled(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}
