import { expect, it } from 'vitest';
import type { Tape } from '../../../gateway/tape/tape.ts';
import { line, type Stores } from './contractStores.ts';
import { stretch } from './stretch.ts';

/** What holds of saved states of the fold. */
export function statesContract({ newStore, openIn }: Stores): void {
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
}
