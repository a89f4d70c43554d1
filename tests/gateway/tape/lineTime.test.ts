import { describe, expect, it } from 'vitest';
import { stretchOf } from '../../../gateway/tape/stretch.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { at, changes, type Rows, smallLine } from '../../model/smallLine.ts';
import { Memory, openMemoryTape } from './memoryTape.ts';

const line = smallLine();
const COUNT = 30_000;

/** A carton each second, the door once long before, and among them what came a minute late. */
const rows: Rows = [
  [1, 'door', false],
  ...Array.from({ length: COUNT }, (_, n): Rows[number] => [n + 2, 'good', n]),
];
const late: Rows = [[19_990.5, 'panel', true]];

async function tapeOf(...batches: readonly (readonly Change[])[]) {
  const tape = openMemoryTape(new Memory(), new Map([[line.id, line.signals]]));
  for (const batch of batches) await tape.append(line.id, batch);
  let read = 0;
  const counting: Tape = {
    ...tape,
    async *read(...asked) {
      for await (const chunk of tape.read(...asked)) {
        read += chunk.length;
        yield chunk;
      }
    },
  };
  return { tape: counting, read: () => read };
}

const goodsOf = (found: readonly Change[]) =>
  found.filter(({ signal, at: moment }) => line.signals[signal]!.id === 'good' && moment >= at(19_990))
    .length;

describe('a stretch of line time on the tape', () => {
  it('is found by position, with what came late, and without reading all', async () => {
    const all = changes(line, rows);
    const { tape, read } = await tapeOf(all.slice(0, 20_050), changes(line, late), all.slice(20_050));
    const span = { from: at(19_990), to: at(20_010) };
    const { changes: found, whole } = await stretchOf(tape, line, span, { within: 50_000, before: 500 });
    expect([goodsOf(found), whole]).toEqual([20, true]);
    expect(found.filter(({ at: moment }) => moment === at(19_990.5))).toHaveLength(1);
    expect(read()).toBeLessThan(9000);
  });

  it('has what each signal told last before it, as far back as may be read', async () => {
    const { tape } = await tapeOf(changes(line, rows));
    const span = { from: at(19_990), to: at(20_010) };
    const doorOf = async (before: number) => {
      const { changes: found } = await stretchOf(tape, line, span, { within: 50_000, before });
      return found.filter(({ signal }) => line.signals[signal]!.id === 'door').length;
    };
    expect(await doorOf(30_000)).toBe(1);
    expect(await doorOf(100)).toBe(0);
  });

  it('lies in the days that were brought in before the tape as well, and says where it is not whole', async () => {
    const all = changes(line, rows);
    const { tape } = await tapeOf();
    await tape.importBefore(line.id, [all.slice(0, 25_000)]);
    await tape.append(line.id, all.slice(25_000));
    const span = { from: at(19_990), to: at(20_010) };
    expect(goodsOf((await stretchOf(tape, line, span)).changes)).toBe(20);
    const short = await stretchOf(tape, line, span, { within: 10, before: 0 });
    expect(short.whole).toBe(false);
  });

  it('does not take an entry for the PLC’s time', async () => {
    const entries = changes(line, [[90_000, 'entry', '{}']]);
    const all = changes(line, rows);
    const { tape, read } = await tapeOf(
      ...Array.from({ length: 750 }, (_, n) => [...all.slice(n * 40, (n + 1) * 40), ...entries]),
    );
    const span = { from: at(19_990), to: at(20_010) };
    const { changes: found } = await stretchOf(tape, line, span, { within: 50_000, before: 500 });
    expect(read()).toBeLessThan(9000);
    expect(goodsOf(found)).toBe(20);
  });
});
