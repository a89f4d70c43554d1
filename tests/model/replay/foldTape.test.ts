import { describe, expect, it } from 'vitest';
import { foldTape } from '../../../model/replay/foldTape.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { Memory, openMemoryTape } from '../../gateway/tape/memoryTape.ts';

const line = smallLine();
const signals = new Map([[line.id, line.signals]]);
const first = changes(line, [...running(), ...goods(1, 60, 1)]);
const second = changes(line, goods(70, 90, 61));

/** A tape with a saved state after its first changes, then one that is older than that state, then more. */
async function lateTape() {
  const tape = openMemoryTape(new Memory(), signals);
  await tape.append(line.id, first);
  const fold = new LineFold(line);
  fold.take(first);
  await tape.keep(line.id, { position: first.length, version: 'v', body: JSON.stringify(fold.save()) });
  await tape.append(line.id, changes(line, [[30.5, 'rejectOpen', 1]]));
  await tape.append(line.id, second);
  return tape;
}

describe('folding a tape', () => {
  it('[TI2] goes back to a state older than what came late, here to none at all', async () => {
    const tape = await lateTape();
    const { fold, replayed, whole } = await foldTape(tape, line, { version: 'v', end: tape.end(line.id) });
    expect(whole).toBe(true);
    expect(replayed).toBe(tape.end(line.id));
    expect(fold.state.shift.rejects).toBe(1);
  });

  it('says so when data is too late to be worked in, and leaves it out', async () => {
    const tape = await lateTape();
    const wish = { version: 'v', end: tape.end(line.id), sortedMost: 10 };
    const { fold, whole } = await foldTape(tape, line, wish);
    expect(whole).toBe(false);
    expect(fold.state.shift.rejects).toBe(0);
    expect(fold.state.shift.account.good).toBe(81);
  });

  it('stops at the position asked for: later changes are not seen', async () => {
    const tape = await lateTape();
    const { fold } = await foldTape(tape, line, { version: 'v', end: first.length });
    expect(fold.state.shift.account.good).toBe(60);
    expect(fold.state.shift.rejects).toBe(0);
  });
});
