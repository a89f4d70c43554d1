import { expect, it } from 'vitest';
import { line, type Stores } from './contractStores.ts';
import { gathered, stretch } from './stretch.ts';

/** What holds of histories that are brought in, before a tape or behind it. */
export function historiesContract({ newStore, openIn, open, all }: Stores): void {
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
}
